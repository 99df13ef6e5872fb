"""ISO 11898-2: the two-wire bus with a terminator at each end."""
