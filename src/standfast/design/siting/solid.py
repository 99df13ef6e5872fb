"""Boxes in whole tenths of a millimetre, and the distances between them.

Axes, seen facing the wall: x along it to the right, y out of it into the room or yard, z up from floor or grade.
A drawing shows two of them, so an axis can be unknown: it then neither joins nor separates.

Tenths are enough to be exact: one inch is 254 of them. The squares of all distances in a house fit exactly into a
float, so a root is the correctly rounded one and comparing it with a limit gives the verdict of the whole numbers.
"""

import math
from typing import NamedTuple

TENTHS = 10
"""Tenths in a millimetre."""


def tenths(mm: float) -> int:
    """A length in mm as whole tenths, to the nearest."""
    return round(mm * TENTHS)


def mm(length: int) -> float:
    """Whole tenths as mm."""
    return length / TENTHS


class Span(NamedTuple):
    """A stretch of one axis, in tenths; `low` equals `high` for a point."""

    low: int
    high: int

    def grown(self, before: int, after: int) -> "Span":
        """Longer at both ends."""
        return Span(self.low - before, self.high + after)

    def overlaps(self, other: "Span") -> bool:
        """True where the two share more than an end point."""
        return self.low < other.high and other.low < self.high


class Solid(NamedTuple):
    """A box; an axis that is not known is None."""

    x: Span | None = None
    y: Span | None = None
    z: Span | None = None


def gap(a: Span | None, b: Span | None) -> int | None:
    """Free length between two stretches in tenths, below zero by their overlap; None where one is not known."""
    if a is None or b is None:
        return None
    return max(a.low - b.high, b.low - a.high)


def gaps(a: Solid, b: Solid) -> list[int]:
    """The gaps along the axes that both boxes have."""
    found = [gap(*each) for each in zip(a, b, strict=True)]
    return [each for each in found if each is not None]


def square(a: Solid, b: Solid) -> int:
    """The square of the clear distance, in tenths²."""
    return sum(max(each, 0) ** 2 for each in gaps(a, b))


def clear_mm(a: Solid, b: Solid) -> float:
    """Clear distance in mm: straight between the outlines, zero where they touch."""
    return math.sqrt(square(a, b)) / TENTHS


def rectangular_mm(a: Solid, b: Solid) -> float:
    """Distance in mm by the reading that a clearance is a rectangle: the greatest of the gaps, not below zero."""
    return max([0, *gaps(a, b)]) / TENTHS


def less(length_mm: float, slack: int) -> float:
    """A length in mm less whole tenths, without the error of a float where the length is whole tenths itself."""
    whole = tenths(length_mm)
    return mm(whole - slack) if mm(whole) == length_mm else length_mm - mm(slack)
