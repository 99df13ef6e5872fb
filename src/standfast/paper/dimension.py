"""Dimension lines: extension lines, slanted ticks, inches above the line and mm below it.

A text that is wider than its interval stands beside it with a leader line, where it crosses least.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import isclose
from typing import Literal

from standfast.paper.drawing import Drawing, Want, size_of
from standfast.paper.labels import around
from standfast.paper.lettering import LEAST_MM, width_mm
from standfast.paper.svg import Lettering, Path, Point
from standfast.units import feet_inches, inches, show

ROW_MM = 12.0
"""Distance of dimension lines that run beside each other; the first stands one row from the object."""
_GAP, _BEYOND, _TICK = 1.5, 1.5, 1.2
_LONG_MM = 1828.8
"""From 6 ft on, lengths are told in feet and inches."""

Side = Literal["below", "above", "left", "right"]


def both(length_mm: float) -> tuple[str, str]:
    """A length as drawings tell it: inches (feet and inches from 6 ft on) to a sixteenth, and whole mm."""
    trade = feet_inches(length_mm) if length_mm >= _LONG_MM else inches(length_mm)
    return trade, show(round(length_mm), "mm")


def across(drawing: Drawing, xs: Sequence[float], edge: float, side: Side = "below", row: int = 1) -> None:
    """Dimensions between model x values, in one line below or above an edge at model y.

    Args:
        drawing: the drawing.
        xs: at least two values; equal neighbours are left out.
        edge: model y where the extension lines begin.
        side: ``below`` or ``above``.
        row: 1 next to the object, 2 beyond it, …
    """
    points = [drawing.at((x, edge)) for x in xs]
    outward = (0.0, 1.0) if side == "below" else (0.0, -1.0)
    _chain(drawing, points, outward, row, list(xs))


def upward(drawing: Drawing, ys: Sequence[float], edge: float, side: Side = "left", row: int = 1) -> None:
    """Dimensions between model y values, in one line left or right of an edge at model x."""
    points = [drawing.at((edge, y)) for y in ys]
    outward = (-1.0, 0.0) if side == "left" else (1.0, 0.0)
    _chain(drawing, points, outward, row, list(ys))


def between(drawing: Drawing, a: Point, b: Point, beside_mm: float = 0, on_line: bool = True) -> None:
    """A dimension between two model points in any direction.

    Args:
        drawing: the drawing.
        a: first point.
        b: second point.
        beside_mm: the line stands so many mm of paper to the left of the way from a to b; negative, to the right.
        on_line: false where the figures stand beside the line, where they cross least.
    """
    length = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
    if length == 0:
        return
    left = (-(b[1] - a[1]) / length, (b[0] - a[0]) / length)
    outward = (left[0], -left[1]) if beside_mm >= 0 else (-left[0], left[1])
    reach = beside_mm if beside_mm >= 0 else -beside_mm
    ends: list[Point] = []
    for x, y in (drawing.at(a), drawing.at(b)):
        ends.append((x + outward[0] * reach, y + outward[1] * reach))
        if reach:
            stop = (x + outward[0] * (reach + _BEYOND), y + outward[1] * (reach + _BEYOND))
            drawing.put(Path(((x + outward[0] * _GAP, y + outward[1] * _GAP), stop), "thin"))
    for x, y in ends:
        drawing.put(Path(((x - _TICK, y + _TICK), (x + _TICK, y - _TICK)), "outline"))
    drawing.put(Path((ends[0], ends[1]), "thin"))
    _figure(drawing, ends[0], ends[1], both(length), outward, on_line)


def _chain(drawing: Drawing, points: list[Point], outward: Point, row: int, values: list[float]) -> None:
    reach = row * ROW_MM
    ends = [(x + outward[0] * reach, y + outward[1] * reach) for x, y in points]
    for (x, y), (ex, ey) in zip(points, ends, strict=True):
        start = (x + outward[0] * _GAP, y + outward[1] * _GAP)
        stop = (ex + outward[0] * _BEYOND, ey + outward[1] * _BEYOND)
        drawing.put(Path((start, stop), "thin"))
        drawing.put(Path(((ex - _TICK, ey + _TICK), (ex + _TICK, ey - _TICK)), "outline"))
    for index, (a, b) in enumerate(pairwise(ends)):
        length = abs(values[index + 1] - values[index])
        if length == 0:
            continue
        drawing.put(Path((a, b), "thin"))
        _figure(drawing, a, b, both(length), outward)


def _figure(
    drawing: Drawing, a: Point, b: Point, figures: tuple[str, str], outward: Point, on_line: bool = True
) -> None:  # fmt: skip
    """The two figures of one interval: on the line where they fit, else beside it."""
    level, upright = isclose(a[1], b[1], abs_tol=1e-6), isclose(a[0], b[0], abs_tol=1e-6)
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    room = abs(b[0] - a[0]) if level else abs(b[1] - a[1])
    wide = max(width_mm(figure, LEAST_MM) for figure in figures) + 3
    if on_line and wide <= room and (level or upright):
        above, below = 1.6, 1.6 + LEAST_MM * 1.12
        spots = [
            (middle[0], middle[1] - above) if level else (middle[0] - above, middle[1]),
            (middle[0], middle[1] + below) if level else (middle[0] + below, middle[1]),
        ]
        for at, figure in zip(spots, figures, strict=True):
            drawing.letter(Lettering(at, figure, LEAST_MM, "middle", 0 if level else 90))
        return
    text = (f"{figures[0]} ({figures[1]})",)
    spots_around = tuple(around(middle, size_of(text, LEAST_MM), (outward[0], -outward[1])))
    drawing.want(Want(text, spots_around, LEAST_MM, False, False, middle))
