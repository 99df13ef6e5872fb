"""Is a polygon of the plan a polygon? Exact, in whole fractions of a millimetre."""

from collections.abc import Sequence
from fractions import Fraction

from standfast.units import Quantity

Corner = tuple[Fraction, Fraction]


def corners(outline: Sequence[tuple[Quantity, Quantity]]) -> list[Corner]:
    """The corners in mm."""
    return [(x.number, y.number) for x, y in outline]


def flaw(points: Sequence[Corner]) -> str:
    """What is wrong with a closed outline, in a few words; empty where it is a simple polygon."""
    if len(points) < 3:
        return "it has fewer than three corners"
    if len(set(points)) < len(points):
        return "it visits a corner twice"
    sides = list(zip(points, [*points[1:], points[0]], strict=True))
    for i, one in enumerate(sides):
        for j in range(i + 2, len(sides)):
            if (i, j) != (0, len(sides) - 1) and _meet(*one, *sides[j]):
                return f"its sides {i + 1} and {j + 1} meet"
    for number, ((start, turn), (_, end)) in enumerate(zip(sides, [*sides[1:], sides[0]], strict=True), 2):
        if _side(start, turn, end) == 0 and _back(start, turn, end):
            return f"it turns back on itself at corner {(number - 1) % len(points) + 1}"
    return ""


def _side(a: Corner, b: Corner, c: Corner) -> int:
    turn = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return (turn > 0) - (turn < 0)


def _back(a: Corner, b: Corner, c: Corner) -> bool:
    return (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) < 0


def _meet(a: Corner, b: Corner, c: Corner, d: Corner) -> bool:
    """True where two closed stretches have a point in common."""
    one, two = _side(a, b, c), _side(a, b, d)
    three, four = _side(c, d, a), _side(c, d, b)
    if one != two and three != four:
        return True
    ends = ((one, a, b, c), (two, a, b, d), (three, c, d, a), (four, c, d, b))
    return any(turn == 0 and _within(start, end, point) for turn, start, end, point in ends)


def _within(a: Corner, b: Corner, c: Corner) -> bool:
    return all(min(p, q) <= r <= max(p, q) for p, q, r in zip(a, b, c, strict=True))
