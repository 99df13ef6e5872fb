"""Opens the data of a book's edition, and says which editions are in force at a place and date.

An edition is a folder ``rulebooks/<book>/editions/<edition>/`` with

* ``edition.toml``: ``title``, ``short`` (the name printed beside a clause), ``published``;
* ``clauses.toml``: for each subject key the clause that states it in this edition;
* ``numbers.toml``: single numbers, words and sets of words;
* ``tables.toml`` and ``tables/*.csv``: tables;
* ``coverage.toml``: every clause in scope, done or not, with the reason.

A missing clause, number, table or cell raises NotInEdition: nothing is ever borrowed from another edition.
"""

import csv
from collections.abc import Mapping
from functools import cache, cached_property
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, NamedTuple

import tomli

from standfast.faults import NotInEdition, OutsideTable
from standfast.sheet import Clause, Value, missing
from standfast.terms import Seen

Cell = float | str
Row = dict[str, Cell]


class Edition:
    """One edition of one book, read as far as it is asked."""

    def __init__(self, book: str, edition: str, folder: Traversable) -> None:
        self.book = book
        self.edition = edition
        self._folder = folder
        self._tables: dict[str, Table] = {}
        self._made: dict[tuple[str, str], Value] = {}

    @cached_property
    def facts(self) -> dict[str, Any]:
        """Title, short name, publication date."""
        return self._read("edition.toml")

    @property
    def short(self) -> str:
        """The name printed beside a clause, for instance NEC."""
        return str(self.facts["short"])

    @cached_property
    def _clauses(self) -> dict[str, Any]:
        return self._read("clauses.toml")

    @cached_property
    def _numbers(self) -> dict[str, Any]:
        return self._read("numbers.toml")

    @cached_property
    def _table_facts(self) -> dict[str, Any]:
        return self._read("tables.toml")

    @cached_property
    def coverage(self) -> dict[str, Any]:
        """The coverage ledger: what is checked of this edition, what is not, and why."""
        return self._read("coverage.toml")

    def clause(self, key: str) -> Clause:
        """The clause that states a subject in this edition. NotInEdition where this edition does not state it."""
        try:
            return Clause(self.short, self.edition, str(self._clauses[key]))
        except KeyError:
            raise NotInEdition(f"{self.short} {self.edition}: no clause is held for {key!r}") from None

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
        clause = Clause(self.short, self.edition, str(entry["clause"]))
        name = symbol or entry.get("symbol", key)
        return Value(name, number, entry["unit"], "table", "", clause, entry["seen"])

    def bounding(self, key: str, reason: str, symbol: str = "") -> Value:
        """A value that the edition marks as safe for every value the fact can have, taken because `reason`.

        NotInEdition where the entry is not marked ``bounding = true``.
        """
        value = self.number(key, symbol)
        if not self._numbers[key].get("bounding"):
            raise NotInEdition(f"{self.short} {self.edition}: {key!r} is not marked as a bounding value")
        return Value(value.symbol, value.number, value.unit, "assumed", reason, value.clause, value.seen, bounding=True)

    def table(self, key: str) -> "Table":
        """A table of this edition. NotInEdition where the edition holds none of that name."""
        if key not in self._tables:
            try:
                facts = self._table_facts[key]
            except KeyError:
                raise NotInEdition(f"{self.short} {self.edition}: no table is held for {key!r}") from None
            text = (self._folder / "tables" / facts["file"]).read_text("utf-8")
            self._tables[key] = Table(key, Clause(self.short, self.edition, facts["clause"]), facts, text)
        return self._tables[key]

    def _read(self, name: str) -> dict[str, Any]:
        path = self._folder / name
        return tomli.loads(path.read_text("utf-8")) if path.is_file() else {}


class Table:
    """A table of an edition.

    ``tables.toml`` states for each: ``file``; ``clause``; ``title``; ``keys``, the columns that find a row; ``unit``,
    one for all value columns or a table ``units`` of column to unit; ``between``, what a number between two rows means
    (``refuse``, ``next row``, ``row below``, ``linear``); ``beyond``, what lies outside the rows (only ``refuse``);
    ``seen`` and ``where``; ``words``, the columns whose cells are words even where they look like numbers (conductor
    sizes). A column named ``seen`` in the file overrules it for a row. An empty cell is not in the edition.
    """

    def __init__(self, key: str, clause: Clause, facts: Mapping[str, Any], text: str) -> None:
        self.key = key
        self.clause = clause
        self.facts = facts
        self.keys: list[str] = list(facts["keys"])
        self._words: frozenset[str] = frozenset(facts.get("words", ()))
        self.rows: list[Row] = [
            {name: cell if name in self._words else _cell(cell) for name, cell in row.items()}
            for row in csv.DictReader(text.splitlines())
        ]
        self._index: dict[tuple[Cell, ...], Row] = {tuple(row[name] for name in self.keys): row for row in self.rows}
        self._steps: dict[tuple[Cell, ...], list[float]] = {}

    def pick(self, symbol: str, column: str, /, *inputs: Value, **row: Cell) -> Value:
        """The cell of a row, under the rule that the book has for numbers between two rows.

        Args:
            symbol: symbol of the result.
            column: value column.
            inputs: the values that the row was found by, for the trail.
            row: one entry for each key column. Only the last key may fall between rows.

        Raises:
            OutsideTable: beyond the rows, or between them where the book allows no value.
            NotInEdition: where the cell is empty or the column is not held.
        """
        where = tuple(str(row[name]) if name in self._words else _plain(row[name]) for name in self.keys)
        if self.facts.get("between") == "linear" and where not in self._index:
            return self._between(symbol, column, where, inputs)
        found, how = self._find(where)
        number = self._value(column, found, where)
        cell = ", ".join(f"{name} {_text(row[name])}" for name in self.keys)
        text = f"{self.facts['title']}: {cell}{how}, {column}"
        seen = found.get("seen") or self.facts["seen"]
        return Value(symbol, number, self.unit(column), "table", text, self.clause, _seen(seen), inputs=inputs)

    def look(self, symbol: str, column: str, /, **row: Value | Cell) -> Value:
        """The cell of a row that values find: as `pick`, but a missing value gives a missing cell.

        Args:
            symbol: symbol of the result.
            column: value column.
            row: one entry for each key column; those that are values are the trail.
        """
        inputs = tuple(each for each in row.values() if isinstance(each, Value))
        lacking = [each for each in inputs if each.missing]
        if lacking:
            need = "; ".join(dict.fromkeys(each.how for each in lacking))
            return missing(symbol, self.unit(column), need, *lacking)
        return self.pick(symbol, column, *inputs, **{name: _key(each) for name, each in row.items()})

    def unit(self, column: str) -> str:
        """Unit of a value column."""
        units: Mapping[str, str] = self.facts.get("units", {})
        return units.get(column, self.facts.get("unit", ""))

    def column(self, name: str) -> list[Cell]:
        """All cells of a column, in the order of the rows."""
        return [row[name] for row in self.rows]

    def _find(self, where: tuple[Cell, ...]) -> tuple[Row, str]:
        row = self._index.get(where)
        if row is not None:
            return row, ""
        between, last = self.facts.get("between", "refuse"), where[-1]
        if between not in ("next row", "row below") or not isinstance(last, float):
            raise OutsideTable(f"{self.clause} has no row {_named(self.keys, where)}")
        steps = self._ladder(where[:-1])
        fitting = [step for step in steps if (step >= last if between == "next row" else step <= last)]
        if not fitting:
            raise OutsideTable(f"{self.clause} ends before {_named(self.keys, where)}")
        step = min(fitting) if between == "next row" else max(fitting)
        return self._index[(*where[:-1], step)], f" (row {_text(step)})"

    def _between(self, symbol: str, column: str, where: tuple[Cell, ...], inputs: tuple[Value, ...]) -> Value:
        *head, last = where
        steps = self._ladder(tuple(head))
        if not isinstance(last, float) or not steps or not steps[0] <= last <= steps[-1]:
            raise OutsideTable(f"{self.clause} ends before {_named(self.keys, where)}")
        low = max(step for step in steps if step <= last)
        high = min(step for step in steps if step >= last)
        ends = [self._value(column, self._index[(*head, step)], where) for step in (low, high)]
        if isinstance(ends[0], str) or isinstance(ends[1], str):
            raise OutsideTable(f"{self.clause} holds words, which have nothing between them")
        number = ends[0] + (ends[1] - ends[0]) * (last - low) / (high - low)
        text = f"{self.facts['title']}: {_named(self.keys, where)}, {column}, linear between rows {low:g} and {high:g}"
        return Value(
            symbol, number, self.unit(column), "table", text, self.clause, _seen(self.facts["seen"]), inputs=inputs
        )

    def _ladder(self, head: tuple[Cell, ...]) -> list[float]:
        if head not in self._steps:
            self._steps[head] = sorted(
                last for *first, last in self._index if tuple(first) == head and isinstance(last, float)
            )
        return self._steps[head]

    def _value(self, column: str, row: Row, where: tuple[Cell, ...]) -> Cell:
        if column not in row:
            raise NotInEdition(f"{self.clause} holds no column {column!r}")
        if row[column] == "":
            raise NotInEdition(f"{self.clause} holds no {column} for {_named(self.keys, where)}")
        return row[column]


class Adoption(NamedTuple):
    """The books and editions in force for a place and date.

    Attributes:
        name: for instance ``us-2021``.
        title: for the cover.
        books: book to edition.
        facts: everything else the file says.
    """

    name: str
    title: str
    books: Mapping[str, str]
    facts: Mapping[str, Any]

    def book(self, name: str) -> Edition:
        """The edition of a book in force. NotInEdition where the adoption names none."""
        try:
            return edition(name, self.books[name])
        except KeyError:
            raise NotInEdition(f"the adoption {self.name} names no edition of {name}") from None


@cache
def edition(book: str, year: str) -> Edition:
    """An edition of a book. NotInEdition where it is not on the shelf."""
    folder = files("standfast.rulebooks") / book / "editions" / year
    if not folder.is_dir():
        raise NotInEdition(f"{book} {year} is not on the shelf")
    return Edition(book, year, folder)


def adoptions() -> list[str]:
    """Names of the adoptions on the shelf."""
    return sorted(path.name.removesuffix(".toml") for path in _adoptions().iterdir() if path.name.endswith(".toml"))


@cache
def adoption(name: str) -> Adoption:
    """An adoption by name. NotInEdition where it is not on the shelf."""
    path = _adoptions() / f"{name}.toml"
    if not path.is_file():
        raise NotInEdition(f"no adoption {name!r} is on the shelf: use one of {', '.join(adoptions())}")
    facts = tomli.loads(path.read_text("utf-8"))
    return Adoption(name, facts["title"], facts["books"], facts)


def _adoptions() -> Traversable:
    return files("standfast.rulebooks") / "adoptions"


def _cell(text: str | None) -> Cell:
    if text is None:
        return ""
    try:
        return float(text)
    except ValueError:
        return text


def _key(each: Value | Cell) -> Cell:
    if not isinstance(each, Value):
        return each
    return each.word if isinstance(each.number, str) else each.quantity


def _plain(cell: Cell) -> Cell:
    return float(cell) if isinstance(cell, int | float) else cell


def _text(cell: Cell) -> str:
    return f"{cell:g}" if isinstance(cell, int | float) else cell


def _named(keys: list[str], where: tuple[Cell, ...]) -> str:
    return ", ".join(f"{name} {_text(cell)}" for name, cell in zip(keys, where, strict=True))


def _seen(text: Cell) -> Seen:
    match text:
        case "print" | "secondary" | "memory" | "common practice":
            return text
        case _:
            raise NotInEdition(f"{text!r} does not say where a number was seen")
