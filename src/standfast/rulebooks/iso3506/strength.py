"""Yield strength of a stainless property class (ISO 3506-1)."""

from standfast.sheet import Value
from standfast.shelf import Edition


def yield_strength(book: Edition, property_class: str) -> Value:
    """R_p02, MPa, of a class such as ``A2-70``. OutsideTable for a class that is not held."""
    return book.table("classes").pick("R_p02", "R_p02", property_class=property_class)
