"""The schedule of the one-line diagram: conductors by their ringed numbers, grounding, notes, legend of symbols."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import NamedTuple

from standfast.handover.drawings.one_line_place import RING_MM
from standfast.handover.drawings.one_line_told import OneLine
from standfast.handover.drawings.one_line_tree import LINE_MM
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


class Entry(NamedTuple):
    """A piece of the schedule that stays together: its height in mm, and what draws it from a place down.

    A heading is not left alone at the foot of a column.
    """

    height: float
    draw: Callable[[Drawing, Column], None]
    heading: bool = False


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
    rest = _flowed(drawing, [column], list(_entries(facts, kinds, column.width)))
    if rest:
        high = sum(each.height for each in rest)
        raise DoesNotFit(f"the schedule of the one-line diagram is {high:.0f} mm too long for the sheet")


def sheets(
    facts: OneLine, kinds: Sequence[str], columns: Sequence[Column], blank: Callable[[], Drawing]
) -> list[Drawing]:
    """All of it on sheets of its own, column after column.

    Args:
        facts: what it says.
        kinds: names of the symbols that are drawn.
        columns: of each sheet.
        blank: makes a sheet.

    Raises:
        DoesNotFit: where one entry is higher than a column.
    """
    rest = list(_entries(facts, kinds, columns[0].width))
    made: list[Drawing] = []
    while rest:
        drawing = blank()
        before = len(rest)
        rest = _flowed(drawing, columns, rest)
        if len(rest) == before:
            raise DoesNotFit("an entry of the schedule of the one-line diagram is higher than a sheet")
        made.append(drawing)
    return made


def ring(drawing: Drawing, at: Point, number: str) -> None:
    """The number of a run in a ring."""
    drawing.circle(at, RING_MM, "thin", "white")
    drawing.text(at, number, anchor="middle", shift=(0, -LEAST_MM / 2))


def _flowed(drawing: Drawing, columns: Sequence[Column], entries: list[Entry]) -> list[Entry]:
    """Draw entries down the columns; those that found no room are given back."""
    rest = list(entries)
    for column in columns:
        while rest:
            needed = rest[0].height + (rest[1].height if rest[0].heading and len(rest) > 1 else 0.0)
            if column.y - needed < 0:
                break
            entry = rest.pop(0)
            entry.draw(drawing, column)
            column = column._replace(y=column.y - entry.height)
    return rest


def _entries(facts: OneLine, kinds: Sequence[str], width: float) -> Iterator[Entry]:
    if facts.runs:
        yield _heading("Conductors and raceways", width, 0.0)
    for number, run in enumerate(facts.runs, 1):
        yield _run(str(number), run.title, run.lines, width)
    bonding = "Earthing and bonding" if facts.earth == "earth" else "Grounding and bonding"
    for heading, lines in ((bonding, facts.grounding), ("Notes", facts.notes)):
        if lines:
            yield _heading(heading, width, 2.0)
            yield from (_paragraph(line, width, 0.8) for line in lines)
    yield _legend(facts, kinds, width)


def _run(number: str, title: str, lines: Sequence[str], width: float) -> Entry:
    head = wrapped(title, width - 11, LEAST_MM, True)
    body = [part for line in lines for part in wrapped(line, width - 11, LEAST_MM)]

    def draw(drawing: Drawing, column: Column) -> None:
        ring(drawing, (column.left + RING_MM, column.y - 2.4), number)
        lines_of(drawing, (column.left + 9, column.y), head, bold=True)
        lines_of(drawing, (column.left + 9, column.y - LINE_MM * len(head)), body)

    return Entry(LINE_MM * (len(head) + len(body)) + 1.4, draw)


def _legend(facts: OneLine, kinds: Sequence[str], width: float) -> Entry:
    """The symbols that are used, in rows with their meaning; they stay together."""
    names = list(kinds)
    if facts.installation.of_kind("electrode"):
        names.append("ground")
    if any(there for there in facts.joined.values()):
        names.append("bonding jumper")
    pitch = width / EACH_ROW
    entries = [_heading(f"Symbols (after {facts.family.standard})", width, 2.0)]
    for row in (names[at : at + EACH_ROW] for at in range(0, len(names), EACH_ROW)):
        most = max(len(wrapped(facts.family.drawn[name][1], pitch - 2, LEAST_MM)) for name in row)
        high = 2 * symbols.HALF + LINE_MM * most + 3
        entries.append(Entry(high, partial(_symbols, row=row, pitch=pitch, facts=facts)))
    entries.append(_paragraph(MARKS, width, 0.0))

    def draw(drawing: Drawing, column: Column) -> None:
        for entry in entries:
            entry.draw(drawing, column)
            column = column._replace(y=column.y - entry.height)

    return Entry(sum(each.height for each in entries), draw)


def _symbols(drawing: Drawing, column: Column, row: Sequence[str], pitch: float, facts: OneLine) -> None:
    symbols.legend(drawing, row, column.left, column.y, pitch, facts.family)


def _heading(text: str, width: float, gap: float) -> Entry:
    def draw(drawing: Drawing, column: Column) -> None:
        y = column.y - gap
        drawing.text((column.left, y), text, 3.0, bold=True, shift=(0, -3.4))
        drawing.line((column.left, y - 5), (column.left + width - 2, y - 5), pen="thin")

    return Entry(6.5 + gap, draw, heading=True)


def _paragraph(text: str, width: float, gap: float) -> Entry:
    lines = wrapped(text, width - 2, LEAST_MM)

    def draw(drawing: Drawing, column: Column) -> None:
        lines_of(drawing, (column.left, column.y), lines)

    return Entry(LINE_MM * len(lines) + gap, draw)
