"""Earthquake on parts of a building (EN 1998-1 4.3.5)."""
