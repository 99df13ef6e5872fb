"""IEEE 1366: how often and how long the supply fails."""
