"""Where the lifting equation does not hold: its result must then not be used."""

from standfast.sheet import Check, Value, none_of
from standfast.shelf import Edition


def within(book: Edition, id: str, circumstance: Value) -> Check:
    """Is a circumstance of the lift one that the equation leaves out?

    Args:
        book: the edition.
        id: id of the check.
        circumstance: a word of the work place, for instance ``restricted space`` or ``ordinary``.
    """
    limit = book.number("out_of_scope")
    return none_of(id, "The lifting equation holds for this lift", book.clause("scope"), circumstance, limit)
