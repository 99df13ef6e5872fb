"""AS/NZS 4777.1: grid connection of energy systems via inverters, installation requirements."""
