"""What a firm has read in its own printed copy: the number stays, its ground becomes print, by whom and when."""

from collections.abc import Sequence
from typing import Any, NamedTuple

from standfast.shelf.editions import NUMBERS, Edition
from standfast.shelf.table import Cell, Table


class Compared(NamedTuple):
    """One value of an edition that somebody has compared with a printed copy.

    Attributes:
        book: the book.
        edition: its edition.
        key: entry of ``numbers.toml``, or name of a table where a row is given.
        row: key column and cell of the row, in any order; empty for a number.
        column: value column of a table.
        by: who compared it.
        on: the day, as it is printed.
        page: where it stands in the copy.
    """

    book: str
    edition: str
    key: str
    row: tuple[tuple[str, Cell], ...]
    column: str
    by: str
    on: str
    page: str

    @property
    def note(self) -> str:
        """By whom, when and where, for the sheet."""
        return f"own copy read by {self.by} on {self.on}, page {self.page}"

    def check(self, edition: Edition) -> None:
        """NotInEdition where the edition holds no such number or cell."""
        if self.column:
            self.apply(edition.table(self.key))
        else:
            edition.number(self.key)

    def apply(self, table: Table) -> Table:
        """The table with this cell seen in print."""
        return table.compared(dict(self.row), self.column, self.note)


class OwnCopy(Edition):
    """An edition with what a firm has compared; every number is the edition's."""

    def __init__(self, base: Edition, compared: Sequence[Compared]) -> None:
        super().__init__(base.book, base.edition, base.folder)
        self._base, self._compared = base, compared

    def read(self, name: str) -> dict[str, Any]:
        """The content of a file of the edition, with what was compared."""
        held = self._base.read(name)
        if name != NUMBERS:
            return held
        seen = {each.key: {"seen": "print", "note": each.note} for each in self._compared if not each.column}
        return held | {key: held[key] | said for key, said in seen.items()}

    def _table(self, key: str) -> Table:
        table = self._base.table(key)
        for each in self._compared:
            if each.key == key and each.column:
                table = each.apply(table)
        return table
