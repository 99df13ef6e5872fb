"""Limits on the size of an inverter system at a house."""

from standfast.sheet import Check, Value, at_most
from standfast.shelf import Edition


def single_phase(book: Edition, id: str, power: Value) -> Check:
    """All single-phase inverters together, in VA, against the limit of the edition."""
    title = "All single-phase inverters together keep to the limit"
    return at_most(id, title, book.clause("single_phase"), power, book.number("single_phase_greatest"))


def without_interface_protection(book: Edition, id: str, power: Value) -> Check:
    """All inverters together, in VA, against the size above which the interface has protection of its own."""
    title = "The system is small enough to do without interface protection of its own"
    return at_most(id, title, book.clause("interface_protection"), power, book.number("interface_protection_above"))


def balanced(book: Edition, id: str, difference: Value) -> Check:
    """The difference in VA between the phases of a three-phase supply."""
    title = "Single-phase inverters are spread over the phases"
    return at_most(id, title, book.clause("phase_balance"), difference, book.number("imbalance_greatest"))
