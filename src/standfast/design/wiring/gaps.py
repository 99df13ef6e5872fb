"""Checks under an edition that is held in part: what it does not state is told, and never passes over in silence."""

from collections.abc import Iterable, Iterator

from standfast.faults import NotInEdition
from standfast.sheet import Check, cannot_tell
from standfast.shelf import Edition


def told(book: Edition, id: str, title: str, checks: Iterable[Check]) -> Iterator[Check]:
    """Checks in their order; from the first that the edition does not state, one *cannot tell* in place of the rest.

    Args:
        book: the edition.
        id: of the check that stands in.
        title: what the checks are about.
        checks: made as they are asked for.
    """
    try:
        yield from checks
    except NotInEdition as refusal:
        reason = f"{refusal}; this and what is checked after it under this head was not checked"
        yield cannot_tell(id, title, book.unheld(), reason)
