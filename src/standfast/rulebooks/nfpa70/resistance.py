"""Resistance and reactance of conductors per 1000 ft."""

from standfast.sheet import Value
from standfast.shelf import Edition


def direct(book: Edition, material: Value, size: Value, stranding: str = "stranded") -> Value:
    """Direct-current resistance at 75 °C in ohm/kft, uncoated."""
    table = book.table("conductor_resistance")
    return table.look("R_dc", "resistance", material=material, stranding=stranding, size=size)


def alternating(book: Edition, raceway_material: Value, material: Value, size: Value) -> Value:
    """Alternating-current resistance to neutral at 75 °C in ohm/kft: ``pvc``, ``aluminium`` or ``steel`` raceway."""
    table = book.table("conductor_in_raceway")
    return table.look("R_ac", "resistance", raceway_material=raceway_material, material=material, size=size)


def reactance(book: Edition, raceway_material: Value, material: Value, size: Value) -> Value:
    """Reactance to neutral in ohm/kft, 60 Hz."""
    table = book.table("conductor_in_raceway")
    return table.look("X_L", "reactance", raceway_material=raceway_material, material=material, size=size)
