"""Signs and labels that are applied in the field: NEC 110.21(B), 110.22, 230.85, 408.4, 702.7, 705 and 706.15."""

from typing import NamedTuple

from standfast.faults import NotInEdition
from standfast.sheet import Clause
from standfast.shelf import Edition
from standfast.terms import SEEN_WORDS


class Mark(NamedTuple):
    """One sign as a clause asks for it.

    Attributes:
        clause: the clause.
        wording: its text; names in braces are filled in from the installation.
        place: where it is put.
        look: letters and background.
        letters_in: least height of letters in inches.
        ground: where wording and clause were read.
    """

    clause: Clause
    wording: str
    place: str
    look: str
    letters_in: float
    ground: str


def mark(book: Edition, name: str) -> Mark:
    """A sign by its name.

    Args:
        book: an edition of NFPA 70.
        name: for instance ``storage disconnect``.

    Raises:
        NotInEdition: where the edition holds no such sign.
    """
    for row in book.table("marking").rows:
        if row["mark"] == name:
            clause = Clause(book.short, book.edition, str(row["clause"]))
            ground = SEEN_WORDS[str(row["seen"])]
            return Mark(
                clause, str(row["wording"]), str(row["place"]), str(row["look"]), float(row["letters_in"]), ground
            )
    raise NotInEdition(f"{book.short} {book.edition}: no sign is held for {name!r}")
