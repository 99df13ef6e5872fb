"""Schedules as rows of plain cells, for spreadsheets: one form for CSV and XLSX."""

import csv
from io import StringIO
from typing import NamedTuple

from standfast.sheet import Value

Cell = str | float
NOT_KNOWN = "not known"


class Schedule(NamedTuple):
    """One schedule.

    Attributes:
        name: of its file, and of its sheet in the workbook.
        head: names of the columns, with the unit where they hold numbers.
        rows: cells; a number that nobody knows is a word that says so.
    """

    name: str
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def cell(value: Value | None) -> Cell:
    """A value of the sheet as a cell: numbers stay numbers, to eight digits that mean something."""
    if value is None:
        return ""
    if value.missing:
        return NOT_KNOWN
    if isinstance(value.number, bool):
        return "yes" if value.number else "no"
    if isinstance(value.number, tuple):
        return ", ".join(value.number)
    return value.number if isinstance(value.number, str) else float(f"{value.quantity:.8g}")


def as_csv(schedule: Schedule) -> str:
    """A schedule as CSV text, lines ended by CR LF as the format asks."""
    text = StringIO()
    writer = csv.writer(text)
    writer.writerow(schedule.head)
    writer.writerows([written(each) for each in row] for row in schedule.rows)
    return text.getvalue()


def written(cell: Cell) -> str:
    """A cell as text; whole numbers without a point."""
    return cell if isinstance(cell, str) else f"{cell:.8g}"
