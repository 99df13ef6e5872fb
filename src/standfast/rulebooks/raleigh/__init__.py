"""One city's list of what its inspectors reject."""
