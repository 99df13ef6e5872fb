"""What a place changes in the books it adopts: a layer of data over an edition, which knows nothing of it.

An overlay is a folder ``rulebooks/overlays/<name>/`` that holds only what differs:

* ``overlay.toml``: ``title``; ``short`` and ``edition``, printed beside its clauses; ``invented``; ``where``, what kind
  of source it was read in; ``from`` and ``until`` where it holds between two days;
* ``<book>/clauses.toml`` and ``<book>/numbers.toml``: entries as in an edition, in place of those of the same key or
  beside the others;
* ``<book>/tables.toml``: for each table that changes ``file``, ``clause``, ``seen`` and ``where``; and in
  ``<book>/tables/`` the rows, with the columns of the book's own table, in place of rows with the same keys or beside
  the others.

Every changed value prints the clause of the place, and which clause of the book it stands in place of.
"""

from datetime import date
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, NamedTuple

import tomli

from standfast.faults import NotInEdition
from standfast.sheet import Clause
from standfast.shelf.editions import CLAUSES, NUMBERS, TABLES, Edition
from standfast.shelf.table import Mark, Table


class Overlay(NamedTuple):
    """The amendments of one place.

    Attributes:
        name: its folder.
        title: for the cover.
        short: what is printed before its clauses, where a book has its short name.
        edition: what is printed where a book has its edition.
        invented: true where no such place exists.
        books: the books that it changes.
        begins: first day on which it holds; None where it states none.
        ends: last day on which it holds; None where it states none.
        shelf: folder of ``rulebooks`` in which it stands.
    """

    name: str
    title: str
    short: str
    edition: str
    invented: bool
    books: tuple[str, ...]
    begins: date | None = None
    ends: date | None = None
    shelf: str = "overlays"

    @property
    def folder(self) -> Traversable:
        """Where its data stand."""
        return _shelf(self.shelf) / self.name

    def cited(self, clause: str) -> Clause:
        """A clause of the place."""
        return Clause(self.short, self.edition, clause)


class Amended(Edition):
    """An edition as a place has changed it; what the place leaves alone is the edition's."""

    def __init__(self, base: Edition, overlay: Overlay) -> None:
        super().__init__(base.book, base.edition, base.folder)
        self._base, self._overlay, self._local = base, overlay, overlay.folder / base.book

    def read(self, name: str) -> dict[str, Any]:
        """The content of a file of the edition, with the entries of the place."""
        held = self._base.read(name)
        if name == CLAUSES:
            return held | {key: self._overlay.cited(clause) for key, clause in self._changes(name).items()}
        if name == NUMBERS:
            return held | {key: self._entry(entry, held.get(key)) for key, entry in self._changes(name).items()}
        return held

    def _table(self, key: str) -> Table:
        table, changed = self._base.table(key), self._changes(TABLES).get(key)
        if changed is None:
            return table
        mark = Mark(self._overlay.cited(changed["clause"]), changed["seen"], self._note(table.clause))
        return table.amended((self._local / "tables" / changed["file"]).read_text("utf-8"), mark)

    def _entry(self, entry: dict[str, Any], before: dict[str, Any] | None) -> dict[str, Any]:
        note = self._note(self._base.cited(before["clause"])) if before else self._overlay.title
        return entry | {"clause": self._overlay.cited(entry["clause"]), "note": note}

    def _note(self, before: Clause) -> str:
        return f"{self._overlay.title}, in place of {before}"

    def _changes(self, name: str) -> dict[str, Any]:
        path = self._local / name
        return tomli.loads(path.read_text("utf-8")) if path.is_file() else {}


@cache
def overlay(name: str, shelf: str = "overlays") -> Overlay:
    """The amendments of a place by name. NotInEdition where they are not on the shelf."""
    folder = _shelf(shelf) / name
    if not (folder / "overlay.toml").is_file():
        raise NotInEdition(f"no amendments {name!r} are on the shelf")
    facts = tomli.loads((folder / "overlay.toml").read_text("utf-8"))
    books = sorted(path.name for path in folder.iterdir() if path.is_dir())
    begins, ends = facts.get("from"), facts.get("until")
    return Overlay(
        name, facts["title"], facts["short"], facts["edition"], facts["invented"], tuple(books), begins, ends, shelf
    )


def _shelf(name: str) -> Traversable:
    return files("standfast.rulebooks").joinpath(*name.split("/"))
