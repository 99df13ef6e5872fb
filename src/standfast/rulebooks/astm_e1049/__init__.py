"""ASTM E1049: cycle counting."""
