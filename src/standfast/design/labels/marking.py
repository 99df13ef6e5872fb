"""Notices and warning signs as the ``marking`` tables of rulebooks hold them."""

from typing import NamedTuple

from standfast.sheet import Clause
from standfast.shelf import Edition
from standfast.terms import SEEN_WORDS


class Sign(NamedTuple):
    """One sign as a clause asks for it.

    Attributes:
        name: by which it is asked for.
        when: what on a job calls for it: ``always``, ``backup``, ``own electrode``.
        at: the kind of place: ``origin``, ``meter``, ``consumer unit``, ``isolation``, ``battery``, ``electrode``.
        clause: the clause.
        wording: its text.
        place: where it is put.
        look: letters and background.
        letters_mm: least height of letters in mm.
        ground: where wording and clause were read.
    """

    name: str
    when: str
    at: str
    clause: Clause
    wording: str
    place: str
    look: str
    letters_mm: float
    ground: str


def signs(book: Edition) -> list[Sign]:
    """Every sign that the edition holds. NotInEdition where it holds none."""
    return [
        Sign(
            str(row["sign"]), str(row["when"]), str(row["at"]), Clause(book.short, book.edition, str(row["clause"])),
            str(row["wording"]), str(row["place"]), str(row["look"]), float(row["letters_mm"]),
            SEEN_WORDS[str(row["seen"])],
        )
        for row in book.table("marking").rows
    ]  # fmt: skip
