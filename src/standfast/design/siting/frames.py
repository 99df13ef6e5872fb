"""Walls in plan as frames: along the wall and out of it, so that things of one wall can be seen from another.

Where two walls do not stand square, a box of one becomes the smallest box of the other's frame round it, which is never
farther away than the box itself.
"""

import math
from fractions import Fraction
from typing import NamedTuple

from standfast.design.siting.solid import TENTHS, Solid, Span
from standfast.survey.house import Wall
from standfast.units import Quantity


def exact(quantity: Quantity) -> int:
    """A length of the job in tenths, to the nearest: a sixteenth of an inch is 15.875 of them."""
    return round(quantity.number * TENTHS)


class Frame(NamedTuple):
    """A wall in plan: its left end in tenths, and the direction along it."""

    x: Fraction
    y: Fraction
    along: tuple[float, float]

    def plan(self, across: int, out: int) -> tuple[float, float]:
        """A point of the frame in plan."""
        (ux, uy), (x, y) = self.along, (float(self.x), float(self.y))
        return x + ux * across + uy * out, y + uy * across - ux * out

    def here(self, point: tuple[float, float]) -> tuple[float, float]:
        """A point in plan in the frame: along the wall, and out of it."""
        dx, dy, (ux, uy) = point[0] - float(self.x), point[1] - float(self.y), self.along
        return dx * ux + dy * uy, dx * uy - dy * ux


def frame(wall: Wall) -> Frame | None:
    """The frame of a wall; None where the survey does not place it in plan."""
    if wall.start is None or wall.end is None:
        return None
    (ax, ay), (bx, by) = ((x.number * TENTHS, y.number * TENTHS) for x, y in (wall.start, wall.end))
    length = math.hypot(float(bx - ax), float(by - ay))
    return Frame(ax, ay, (float(bx - ax) / length, float(by - ay) / length)) if length else None


def moved(solid: Solid, of: Frame, to: Frame) -> Solid:
    """A box of one wall's frame as the smallest box of another's round it."""
    if solid.x is None or solid.y is None:
        return Solid(z=solid.z)
    corners = [to.here(of.plan(across, out)) for across in solid.x for out in solid.y]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Solid(_hull(xs), _hull(ys), solid.z)


def _hull(numbers: list[float]) -> Span:
    """The whole tenths round some numbers; what is whole but for the error of a float stays where it is."""
    low, high = min(numbers), max(numbers)
    return Span(math.floor(low + 1e-3), math.ceil(high - 1e-3))
