"""The schedule of the one-line diagram: conductors by their ringed numbers, grounding, notes, legend of symbols."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.handover.drawings.one_line_told import OneLine
from standfast.handover.drawings.one_line_tree import LINE_MM, RING_MM
from standfast.paper import symbols
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.labels import lines_of
from standfast.paper.lettering import LEAST_MM, wrapped
from standfast.paper.svg import Point

EACH_ROW = 5
"""Symbols in a row of the legend."""
MARKS = "(E) existing, (N) new; dash-dot outline: one enclosure; not to scale"


class Column(NamedTuple):
    """Where a column of text stands on the sheet, mm: its left edge, its width, and the y from which it goes down."""

    left: float
    width: float
    y: float


def one_column(drawing: Drawing, facts: OneLine, kinds: Sequence[str], column: Column) -> None:
    """All of it below each other.

    Args:
        drawing: that it is put on.
        facts: what it says.
        kinds: names of the symbols that are drawn.
        column: where.

    Raises:
        DoesNotFit: where the column is too short.
    """
    column = _conductors(drawing, facts, column)
    _whole(_legend(drawing, facts, kinds, _remarks(drawing, facts, column)))


def two_columns(drawing: Drawing, facts: OneLine, kinds: Sequence[str], first: Column, second: Column) -> None:
    """Conductors and legend in the first column, grounding and notes in the second; else as `one_column`."""
    _whole(_legend(drawing, facts, kinds, _conductors(drawing, facts, first)))
    _whole(_remarks(drawing, facts, second._replace(y=second.y + 2)))


def ring(drawing: Drawing, at: Point, number: str) -> None:
    """The number of a run in a ring."""
    drawing.circle(at, RING_MM, "thin", "white")
    drawing.text(at, number, anchor="middle", shift=(0, -LEAST_MM / 2))


def _whole(column: Column) -> None:
    if column.y < 0:
        raise DoesNotFit(f"the schedule of the one-line diagram is {-column.y:.0f} mm too long for the sheet")


def _conductors(drawing: Drawing, facts: OneLine, column: Column) -> Column:
    column = _heading(drawing, "Conductors and raceways", column)
    for number, run in enumerate(facts.runs, 1):
        ring(drawing, (column.left + RING_MM, column.y - 2.4), str(number))
        beside = Column(column.left + 9, column.width - 9, column.y)
        beside = _paragraph(drawing, run.title, beside, bold=True)
        for line in run.lines:
            beside = _paragraph(drawing, line, beside)
        column = column._replace(y=beside.y - 1.4)
    return column


def _remarks(drawing: Drawing, facts: OneLine, column: Column) -> Column:
    for heading, lines in (("Grounding and bonding", facts.grounding), ("Notes", facts.notes)):
        if lines:
            column = _heading(drawing, heading, column._replace(y=column.y - 2))
            for line in lines:
                column = _paragraph(drawing, line, column)
                column = column._replace(y=column.y - 0.8)
    return column


def _legend(drawing: Drawing, facts: OneLine, kinds: Sequence[str], column: Column) -> Column:
    names = list(kinds)
    if facts.installation.of_kind("electrode"):
        names += ["ground", "bonding jumper"]
    column = _heading(drawing, "Symbols (after ANSI/IEEE 315)", column._replace(y=column.y - 2))
    pitch = column.width / EACH_ROW
    for row in (names[at : at + EACH_ROW] for at in range(0, len(names), EACH_ROW)):
        symbols.legend(drawing, row, column.left, column.y, pitch)
        most = max(len(wrapped(symbols.LEGEND[name][1], pitch - 2, LEAST_MM)) for name in row)
        column = column._replace(y=column.y - 2 * symbols.HALF - LINE_MM * most - 3)
    return _paragraph(drawing, MARKS, column._replace(y=column.y - 1))


def _heading(drawing: Drawing, text: str, column: Column) -> Column:
    left, width, y = column
    drawing.text((left, y), text, 3.0, bold=True, shift=(0, -3.4))
    drawing.line((left, y - 5), (left + width - 2, y - 5), pen="thin")
    return column._replace(y=y - 6.5)


def _paragraph(drawing: Drawing, text: str, column: Column, bold: bool = False) -> Column:
    """Wrapped lines, and the column below them."""
    lines = wrapped(text, column.width - 2, LEAST_MM, bold)
    lines_of(drawing, (column.left, column.y), lines, bold=bold)
    return column._replace(y=column.y - LINE_MM * len(lines))
