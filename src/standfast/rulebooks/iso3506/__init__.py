"""Strength of stainless bolts by property class (ISO 3506-1)."""
