"""A source on the supply side of the service disconnect (705.11)."""

from standfast.faults import NotInEdition
from standfast.rulebooks.nfpa70 import sizes
from standfast.sheet import Check, Value, at_least, at_most, chosen, not_applicable, settle
from standfast.shelf import Edition

OUTSIDE = "its disconnect is outdoors, or indoors nearest to where the conductors enter (Article 230, Part VI)"


def least_size(book: Edition, id: str, size: Value, material: Value) -> Check:
    """The conductors are not smaller than the least that may be joined to service conductors.

    Args:
        book: the code.
        id: of the check.
        size: of the conductors.
        material: ``cu`` or ``al``.
    """
    title, clause = "Least size of conductors ahead of the service disconnect", book.clause("source_supply_conductors")

    def ask() -> Check:
        have = sizes.area(book, size)
        if material.missing:
            return at_least(id, title, clause, have, chosen("A_least", 0.0, "cmil", "", None, material))
        least = sizes.area(book, book.number(f"supply_side_least_{material.word}"), "A_least")
        return at_least(id, title, clause, have, least)

    return settle(id, title, clause, ask)


def length(book: Edition, id: str, length: Value) -> Check:
    """How far the overcurrent device may be from the connection, in ft: an edition states a length, or that none is.

    NotInEdition where neither was seen.
    """
    title = "Length of the conductors up to the overcurrent device"
    try:
        none = book.clause("source_supply_no_length")
    except NotInEdition:
        clause = book.clause("source_supply_overcurrent")
        return at_most(id, title, clause, length, book.number("supply_side_length"))
    return not_applicable(id, title, none, f"this edition states no length; {OUTSIDE}")
