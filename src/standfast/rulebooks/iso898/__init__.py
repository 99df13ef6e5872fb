"""Strength of steel bolts by property class (ISO 898-1)."""
