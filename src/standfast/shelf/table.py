"""A table of an edition: how a row is found, and what a number between two rows means."""

import copy
import csv
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from standfast.faults import NotInEdition, OutsideTable
from standfast.sheet import Clause, Value, missing
from standfast.terms import Seen

Cell = float | str
Row = dict[str, Cell]
Where = tuple[Cell, ...]
"""The cells of the key columns of a row."""


class Mark(NamedTuple):
    """What is said of a cell apart from the rest of its table: its clause, where it was seen, a note for print."""

    clause: Clause
    seen: Seen
    note: str


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
        self._marks: dict[tuple[Where, str], Mark] = {}
        self._hold(self._rows(text))

    def _hold(self, rows: Iterable[Row]) -> None:
        self.rows: list[Row] = list(rows)
        self._index: dict[Where, Row] = {self._where(row): row for row in self.rows}
        self._steps: dict[Where, list[float]] = {}

    def _rows(self, text: str) -> list[Row]:
        return [
            {name: cell if name in self._words else _cell(cell) for name, cell in row.items()}
            for row in csv.DictReader(text.splitlines())
        ]

    def _where(self, row: Mapping[str, Cell]) -> Where:
        return tuple(row[name] for name in self.keys)

    def amended(self, text: str, mark: Mark) -> "Table":
        """This table with rows of a place instead of those with the same keys, and beside the others.

        Args:
            text: the rows, with the columns of this table.
            mark: clause, source and note of every cell of them.
        """
        changed = {self._where(row): row for row in self._rows(text)}
        found = copy.copy(self)
        found._marks = self._marks | {(where, name): mark for where, row in changed.items() for name in row}
        found._hold((self._index | changed).values())
        return found

    def compared(self, where: Mapping[str, Cell], column: str, note: str) -> "Table":
        """This table with one cell seen in print; the note says by whom.

        NotInEdition where the table holds no such cell; only a row of its own counts, not one between two.
        """
        if set(where) != set(self.keys):
            raise NotInEdition(f"{self.clause} finds a row by {', '.join(self.keys)}")
        row = tuple(str(where[name]) if name in self._words else _plain(where[name]) for name in self.keys)
        if row not in self._index:
            raise NotInEdition(f"{self.clause} has no row {_named(self.keys, row)}")
        self._value(column, self._index[row], row)
        found = copy.copy(self)
        found._marks = self._marks | {(row, column): Mark(self.clause, "print", note)}
        return found

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
        clause, seen, note = self._said(found, column)
        return Value(symbol, number, self.unit(column), "table", text + note, clause, seen, inputs=inputs)

    def _said(self, row: Row, column: str) -> Mark:
        """What is said of a cell."""
        if self._marks and (mark := self._marks.get((self._where(row), column))) is not None:
            return mark._replace(note=f"; {mark.note}")
        return Mark(self.clause, _seen(row.get("seen") or self.facts["seen"]), "")

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

    def _find(self, where: Where) -> tuple[Row, str]:
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

    def _between(self, symbol: str, column: str, where: Where, inputs: tuple[Value, ...]) -> Value:
        *head, last = where
        steps = self._ladder(tuple(head))
        if not isinstance(last, float) or not steps or not steps[0] <= last <= steps[-1]:
            raise OutsideTable(f"{self.clause} ends before {_named(self.keys, where)}")
        low = max(step for step in steps if step <= last)
        high = min(step for step in steps if step >= last)
        rows = [self._index[(*head, step)] for step in (low, high)]
        ends = [self._value(column, row, where) for row in rows]
        if isinstance(ends[0], str) or isinstance(ends[1], str):
            raise OutsideTable(f"{self.clause} holds words, which have nothing between them")
        number = ends[0] + (ends[1] - ends[0]) * (last - low) / (high - low)
        text = f"{self.facts['title']}: {_named(self.keys, where)}, {column}, linear between rows {low:g} and {high:g}"
        local = [mark.clause for mark in (self._said(row, column) for row in rows) if mark.clause != self.clause]
        clause, seen = (local or [self.clause])[0], _seen(self.facts["seen"])
        return Value(symbol, number, self.unit(column), "table", text, clause, seen, inputs=inputs)

    def _ladder(self, head: Where) -> list[float]:
        if head not in self._steps:
            self._steps[head] = sorted(
                last for *first, last in self._index if tuple(first) == head and isinstance(last, float)
            )
        return self._steps[head]

    def _value(self, column: str, row: Row, where: Where) -> Cell:
        if column not in row:
            raise NotInEdition(f"{self.clause} holds no column {column!r}")
        if row[column] == "":
            raise NotInEdition(f"{self.clause} holds no {column} for {_named(self.keys, where)}")
        return row[column]


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


def _named(keys: list[str], where: Where) -> str:
    return ", ".join(f"{name} {_text(cell)}" for name, cell in zip(keys, where, strict=True))


def _seen(text: Cell) -> Seen:
    match text:
        case "print" | "secondary" | "memory" | "common practice":
            return text
        case _:
            raise NotInEdition(f"{text!r} does not say where a number was seen")
