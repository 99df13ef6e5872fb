"""EN 61557: instruments that test low-voltage installations."""
