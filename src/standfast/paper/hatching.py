"""Hatches: areas told apart by the direction, spacing and breaks of lines, never by colour.

A hatch is made of real lines, so it prints, photocopies and exports the same everywhere.
"""

from collections.abc import Sequence
from math import cos, floor, radians, sin
from typing import Literal, NamedTuple

from standfast.paper.svg import Path, Point

HatchName = Literal["diagonal", "counter", "cross", "grid", "upright", "level", "dashed", "dotted", "sparse"]
Ring = Sequence[Point]


class Family(NamedTuple):
    """Parallel lines: direction in degrees against the clock, spacing and, where broken, stroke and gap in mm."""

    angle: float
    spacing: float
    stroke: float = 0
    gap: float = 0


HATCHES: dict[HatchName, tuple[Family, ...]] = {
    "diagonal": (Family(45, 2.5),),
    "counter": (Family(135, 2.5),),
    "cross": (Family(45, 3.5), Family(135, 3.5)),
    "grid": (Family(0, 3.5), Family(90, 3.5)),
    "upright": (Family(90, 2.5),),
    "level": (Family(0, 2.5),),
    "dashed": (Family(45, 2, 3, 1.5),),
    "dotted": (Family(0, 1.8, 0.4, 1.4),),
    "sparse": (Family(45, 6, 2.5, 2.5),),
}


def hatch(rings: Sequence[Ring], name: HatchName) -> list[Path]:
    """The lines of a hatch inside an area.

    Args:
        rings: outlines in paper mm; a ring inside another is a hole (even-odd rule).
        name: entry of HATCHES.
    """
    return [line for family in HATCHES[name] for line in _lines(rings, family)]


def _lines(rings: Sequence[Ring], family: Family) -> list[Path]:
    """Turn the area so that the family runs level, cut it at each level, and turn the cuts back."""
    c, s = cos(radians(family.angle)), sin(radians(family.angle))
    turned = [[(x * c - y * s, x * s + y * c) for x, y in ring] for ring in rings]
    levels = [y for ring in turned for _, y in ring]
    if not levels:
        return []
    first, last = floor(min(levels) / family.spacing) + 1, floor(max(levels) / family.spacing)
    found: list[Path] = []
    for step in range(first, last + 1):
        y = step * family.spacing
        for left, right in _cuts(turned, y):
            for a, b in _strokes(left, right, family, step):
                found.append(Path(((a * c + y * s, y * c - a * s), (b * c + y * s, y * c - b * s)), "fine"))
    return found


def _cuts(rings: Sequence[Ring], y: float) -> list[tuple[float, float]]:
    """Where a level line is inside, as pairs of left and right."""
    crossings: list[float] = []
    for ring in rings:
        for (x1, y1), (x2, y2) in zip(ring, [*ring[1:], ring[0]], strict=True):
            if (y1 <= y) != (y2 <= y):
                crossings.append(x1 + (x2 - x1) * (y - y1) / (y2 - y1))
    crossings.sort()
    return [(a, b) for a, b in zip(crossings[::2], crossings[1::2], strict=True) if b - a > 0.05]


def _strokes(left: float, right: float, family: Family, step: int) -> list[tuple[float, float]]:
    if not family.stroke:
        return [(left, right)]
    period = family.stroke + family.gap
    at = floor(left / period) * period + (period / 2 if step % 2 else 0) - period
    found: list[tuple[float, float]] = []
    while at < right:
        a, b = max(at, left), min(at + family.stroke, right)
        if b > a:
            found.append((a, b))
        at += period
    return found
