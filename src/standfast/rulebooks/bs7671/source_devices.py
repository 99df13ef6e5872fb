"""Residual current devices in the circuit of an inverter: the kind that sees what it leaks, and the way it is fed."""

from standfast.sheet import Check, Value, chosen, is_, missing, not_applicable, one_of
from standfast.shelf import Edition


def kinds(book: Edition, asked: Value) -> Value:
    """The kinds that serve where a maker asks for one: that kind and those that see more.

    Args:
        book: BS 7671.
        asked: ``A``, ``F`` or ``B``; ``none`` where the maker asks for none: then any but type AC, which is unsuitable
            for electronic equipment.
    """
    if asked.missing:
        return missing("kinds", "", asked.how, asked)
    word = "A" if asked.word == "none" else asked.word
    rows = book.table("residual_kinds").rows
    found = tuple(sorted(str(row["kind"]) for row in rows if row["asked"] == word))
    return chosen("kinds", found, "", f"the maker asks for {asked.word}", book.clause("residual_type"), asked)


def suits(book: Edition, id: str, title: str, device: Value, asked: Value) -> Check:
    """The residual current device of a circuit sees what the equipment on it leaks.

    Args:
        book: BS 7671.
        id: of the check.
        title: of the check.
        device: its kind: ``AC``, ``A``, ``F`` or ``B``.
        asked: the kind that the maker of the equipment asks for, as for `kinds`.
    """
    return one_of(id, title, book.clause("residual_type"), device, kinds(book, asked))


def direction(book: Edition, id: str, title: str, backwards: Value, stated: Value) -> Check:
    """A device that a source feeds from its load side is one whose maker says that it may be.

    Args:
        book: BS 7671.
        id: of the check.
        title: of the check.
        backwards: whether power can flow to it from the load side in any state.
        stated: whether its maker says that it may be fed from either side.
    """
    clause = book.clause("residual_direction")
    if not backwards.missing and not backwards.yes:
        return not_applicable(id, title, clause, "no source stands on its load side in any state")
    needed = chosen("needed", True, "", "a source stands on its load side", clause, backwards)
    return is_(id, title, clause, stated, needed)
