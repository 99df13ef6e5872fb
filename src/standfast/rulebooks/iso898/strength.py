"""Proof stress and yield strength of a property class; some classes differ by diameter (ISO 898-1)."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def proof_stress(book: Edition, property_class: str, d: Value) -> Value:
    """S_p, MPa, of a class such as ``8.8`` at a diameter in mm. OutsideTable for a class that is not held."""
    return _strength(book, "S_p", property_class, d)


def yield_strength(book: Edition, property_class: str, d: Value) -> Value:
    """R_p02 (R_eL of soft classes), MPa, of a class at a diameter in mm."""
    return _strength(book, "R_p02", property_class, d)


def proof_load(book: Edition, S_p: Value, A_s: Value) -> Value:
    """F_p, kN, of a bolt with a stress area in mm2."""
    return work("F_p", "S_p * A_s / 1000", "kN", book.clause("proof_load"), S_p=S_p, A_s=A_s)


def stress(book: Edition, F: Value, A_s: Value) -> Value:
    """Stress, MPa, of a force in kN on a stress area in mm2."""
    return work("sigma", "F * 1000 / A_s", "MPa", book.clause("proof_load"), F=F, A_s=A_s)


def _strength(book: Edition, column: str, property_class: str, d: Value) -> Value:
    return book.table("classes").look(column, column, property_class=property_class, d_up_to=d)
