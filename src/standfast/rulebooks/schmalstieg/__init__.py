"""Schmalstieg et al.: how nickel manganese cobalt cells age, on the shelf and in use."""
