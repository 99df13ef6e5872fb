"""Reads ``compared.toml`` of a firm: the values that somebody there has compared with the firm's own printed books."""

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from standfast.faults import Fault, NotInEdition
from standfast.reading import Document, engine
from standfast.reading.quantities import Many, Table, Text
from standfast.shelf import Compared, edition


class Comparison(Table):
    """One value that was compared: a number by its key, or a cell of a table by its row and column."""

    book: Text
    """Folder of the book: "nfpa70"."""
    edition: Text
    """Edition that the copy is of: "2023"."""
    key: Text
    """Entry of numbers.toml, or the name of a table: "continuous_factor"."""
    row: dict[str, str | int | float] | None = None
    """For a cell: each key column of the table with the cell in it."""
    column: Text | None = None
    """For a cell: the column that was compared."""
    name: Text
    """Who compared it."""
    date: datetime.date
    """When."""
    page: Text
    """Page of the copy."""


class Comparisons(Table):
    """The file."""

    compared: Many[Comparison] = ()
    """The values, each under [[compared]]."""


class Read(NamedTuple):
    """What came out of the file, and everything that is wrong with it."""

    compared: tuple[Compared, ...]
    faults: list[Fault]


def read(text: str, file: str) -> Read:
    """Read the file of a firm.

    Args:
        text: the whole text.
        file: its name, for the faults.
    """
    document, faults, _ = engine.read(text, file, Comparisons, {})
    if document is None:
        return Read((), faults)
    made = tuple(_made(each) for each in document.content.compared)
    worse = [fault for number, each in enumerate(made) for fault in _nothing(document, number, each)]
    return Read(made, engine.in_order([*faults, *worse]))


def _made(said: Comparison) -> Compared:
    row = tuple((name, float(cell) if isinstance(cell, int) else cell) for name, cell in (said.row or {}).items())
    on = said.date.isoformat()
    return Compared(said.book, said.edition, said.key, row, said.column or "", said.name, on, said.page)


def _nothing(document: Document[Comparisons], number: int, each: Compared) -> Iterator[Fault]:
    """The fault of an entry that names no value of the program."""
    at = ("compared", number)
    if bool(each.row) != bool(each.column):
        todo = "write row and column for a cell of a table, and neither for a number"
        yield document.fault((*at, "key"), f'key "{each.key}" has only one of row and column', "", todo)
        return
    try:
        book = edition(each.book, each.edition)
    except NotInEdition as refusal:
        yield document.fault((*at, "book"), str(refusal), "nothing can be compared with it", "check book and edition")
        return
    try:
        each.check(book)
    except NotInEdition as refusal:
        todo = "check key, row and column against the data of the edition"
        yield document.fault((*at, "key"), str(refusal), "nothing is compared by this entry", todo)
