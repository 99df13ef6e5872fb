"""One edition of one book: a folder of data, read as far as it is asked.

An edition is a folder ``rulebooks/<book>/editions/<edition>/`` with

* ``edition.toml``: ``title``, ``short`` (the name printed beside a clause), ``published``; ``thin = true`` where it
  holds only what a source was found for, so that what it does not hold says nothing about the book;
* ``clauses.toml``: for each subject key the clause that states it in this edition;
* ``numbers.toml``: single numbers, words and sets of words;
* ``tables.toml`` and ``tables/*.csv``: tables;
* ``coverage.toml``: every clause in scope, done or not, with the reason.

A missing clause, number, table or cell raises NotInEdition: nothing is ever borrowed from another edition.
"""

from functools import cached_property
from importlib.resources.abc import Traversable
from typing import Any

import tomli

from standfast.faults import NotInEdition
from standfast.sheet import Clause, Value
from standfast.shelf.table import Table

CLAUSES, NUMBERS, TABLES = "clauses.toml", "numbers.toml", "tables.toml"
NOT_HELD = "not in this edition"
"""What is printed for a clause where the edition holds none."""


class Edition:
    """One edition of one book, read as far as it is asked."""

    def __init__(self, book: str, edition: str, folder: Traversable) -> None:
        self.book = book
        self.edition = edition
        self.folder = folder
        self._tables: dict[str, Table] = {}
        self._made: dict[tuple[str, str], Value] = {}

    @cached_property
    def facts(self) -> dict[str, Any]:
        """Title, short name, publication date."""
        return self.read("edition.toml")

    @property
    def short(self) -> str:
        """The name printed beside a clause, for instance NEC."""
        return str(self.facts["short"])

    @property
    def thin(self) -> bool:
        """True where only a part of the edition is held: what it does not state cannot be told."""
        return bool(self.facts.get("thin"))

    @cached_property
    def _clauses(self) -> dict[str, Any]:
        return self.read(CLAUSES)

    @cached_property
    def _numbers(self) -> dict[str, Any]:
        return self.read(NUMBERS)

    @cached_property
    def _table_facts(self) -> dict[str, Any]:
        return self.read(TABLES)

    @cached_property
    def coverage(self) -> dict[str, Any]:
        """The coverage ledger: what is checked of this edition, what is not, and why."""
        return self.read("coverage.toml")

    def clause(self, key: str) -> Clause:
        """The clause that states a subject in this edition. NotInEdition where this edition does not state it."""
        try:
            return self.cited(self._clauses[key])
        except KeyError:
            raise NotInEdition(f"{self.short} {self.edition}: no clause is held for {key!r}") from None

    def unheld(self) -> Clause:
        """What stands for the clause of a question that this edition is not known to state."""
        return self.cited(NOT_HELD)

    def cited(self, clause: str | Clause) -> Clause:
        """A clause as data state it: the text of one of this edition's, or one that a place has put instead."""
        return clause if isinstance(clause, Clause) else Clause(self.short, self.edition, clause)

    def number(self, key: str, symbol: str = "") -> Value:
        """A number, word or set of words of this edition, with its clause and where it was seen.

        Args:
            key: entry of ``numbers.toml``.
            symbol: symbol to carry instead of the entry's own.

        Raises:
            NotInEdition: where the edition holds no such entry.
        """
        made = self._made.get((key, symbol))
        if made is None:
            made = self._made[key, symbol] = self._number(key, symbol)
        return made

    def _number(self, key: str, symbol: str) -> Value:
        try:
            entry = self._numbers[key]
        except KeyError:
            raise NotInEdition(f"{self.short} {self.edition}: no number is held for {key!r}") from None
        number = entry["number"]
        if isinstance(number, list):
            number = tuple(sorted(number))
        elif isinstance(number, int) and not isinstance(number, bool):
            number = float(number)
        name, note = symbol or entry.get("symbol", key), entry.get("note", "")
        return Value(name, number, entry["unit"], "table", note, self.cited(entry["clause"]), entry["seen"])

    def bounding(self, key: str, reason: str, symbol: str = "") -> Value:
        """A value that the edition marks as safe for every value the fact can have, taken because `reason`.

        NotInEdition where the entry is not marked ``bounding = true``.
        """
        value = self.number(key, symbol)
        if not self._numbers[key].get("bounding"):
            raise NotInEdition(f"{self.short} {self.edition}: {key!r} is not marked as a bounding value")
        return Value(value.symbol, value.number, value.unit, "assumed", reason, value.clause, value.seen, bounding=True)

    def table(self, key: str) -> Table:
        """A table of this edition. NotInEdition where the edition holds none of that name."""
        if key not in self._tables:
            self._tables[key] = self._table(key)
        return self._tables[key]

    def _table(self, key: str) -> Table:
        try:
            facts = self._table_facts[key]
        except KeyError:
            raise NotInEdition(f"{self.short} {self.edition}: no table is held for {key!r}") from None
        return Table(key, self.cited(facts["clause"]), facts, self.rows(facts["file"]))

    def rows(self, file: str) -> str:
        """The text of a file of rows."""
        return (self.folder / "tables" / file).read_text("utf-8")

    def read(self, name: str) -> dict[str, Any]:
        """The content of a file of the edition; empty where it has none."""
        path = self.folder / name
        return tomli.loads(path.read_text("utf-8")) if path.is_file() else {}
