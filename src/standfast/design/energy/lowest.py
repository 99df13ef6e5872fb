"""The lowest point of a convex, piecewise linear function of one variable that can only be asked for values.

Two values on one side of a point bound the function on the other side by the line through them. Asking where the bounds
from both sides meet finds the corner itself after a few questions, so the result is exact and not a bracket.
"""

import math
from bisect import insort
from collections.abc import Callable

ENOUGH = 1e-11
"""The search ends where the bound is this close to the best value, for values of about one."""
MOST_QUESTIONS = 200
_NARROW = 1e-12

Point = tuple[float, float]


def lowest(ask: Callable[[float], float], low: float, high: float) -> Point:
    """Where a convex function is lowest between two ends, and its value there."""
    if high - low <= _NARROW:
        return low, ask(low)
    points = [(at, ask(at)) for at in (low, (low + high) / 2, high)]
    for _ in range(MOST_QUESTIONS):
        best = min(value for _, value in points)
        near, bound = min((_bound(points, place) for place in range(len(points) - 1)), key=lambda found: found[1])
        if best - bound <= ENOUGH * max(1.0, best, -best) or any(near == at for at, _ in points):
            break
        insort(points, (near, ask(near)))
    return min(points, key=lambda point: point[1])


def _bound(points: list[Point], place: int) -> Point:
    """The lowest that the function can be between a point and the next, and where to ask for it."""
    (a, at_a), (b, at_b) = points[place], points[place + 1]
    middle = (a + b) / 2
    from_left = _line(points[place - 1], points[place]) if place else None
    from_right = _line(points[place + 1], points[place + 2]) if place + 2 < len(points) else None
    if from_left is None or from_right is None:
        if from_left is not None:
            return middle, min(at_a, at_a + (b - a) * from_left)
        return middle, -math.inf if from_right is None else min(at_b, at_b - (b - a) * from_right)
    if from_right <= from_left:  # the function is straight here, but for rounding
        return middle, min(at_a, at_b)
    meet = min(max((at_b - at_a + from_left * a - from_right * b) / (from_left - from_right), a), b)
    return meet, min(at_a + from_left * (meet - a), at_a, at_b)


def _line(one: Point, other: Point) -> float:
    return (other[1] - one[1]) / (other[0] - one[0])
