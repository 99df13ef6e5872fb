"""What already stands on a drawing, and where a text still finds room.

Boxes of texts may never overlap; lines may be crossed where nothing better is free, and the fewer the better.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from standfast.paper.svg import Point

_CELL = 8.0


class Box(NamedTuple):
    """A box on paper in mm; y grows downward."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "Box") -> bool:
        """True where the two share some area."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def within(self, other: "Box") -> bool:
        """True where this box lies inside the other, edges included."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )

    def grown(self, by: float) -> "Box":
        """The box with every edge moved outward."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)


class Spot(NamedTuple):
    """A place where a box could stand, with the leader line that it would need."""

    box: Box
    leader: tuple[Point, ...] = ()
    cost: float = 0


def crosses(a: Point, b: Point, box: Box) -> bool:
    """True where a straight line has some length inside a box."""
    return _clipped(a, b, box) is not None


def _outside(a: Point, b: Point, box: Box) -> list[tuple[Point, Point]]:
    """The parts of a straight line that a box does not hide."""
    clipped = _clipped(a, b, box)
    if clipped is None:
        return [(a, b)]
    (low, high), (dx, dy) = clipped, (b[0] - a[0], b[1] - a[1])
    parts = [(a, (a[0] + dx * low, a[1] + dy * low))] if low > 0 else []
    return parts + ([((a[0] + dx * high, a[1] + dy * high), b)] if high < 1 else [])


def _clipped(a: Point, b: Point, box: Box) -> tuple[float, float] | None:
    """First and last share of a straight line that lie inside a box (clipping by Liang and Barsky)."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    low, high = 0.0, 1.0
    for p, q in (
        (-dx, a[0] - box.left),
        (dx, box.right - a[0]),
        (-dy, a[1] - box.top),
        (dy, box.bottom - a[1]),
    ):
        if p == 0:
            if q <= 0:
                return None
        elif p < 0:
            low = max(low, q / p)
        else:
            high = min(high, q / p)
    return (low, high) if high - low > 1e-9 else None


class Board:
    """Texts, areas to keep clear, and lines, indexed by a coarse grid."""

    def __init__(self, edge: Box) -> None:
        self.edge = edge
        self._boxes: dict[tuple[int, int], list[Box]] = {}
        self._lines: dict[tuple[int, int], list[tuple[Point, Point]]] = {}
        self._bodies: list[Box] = []

    def block(self, box: Box) -> None:
        """Enter the box of a text, or an area that no text may enter."""
        for cell in _cells(box):
            self._boxes.setdefault(cell, []).append(box)

    def body(self, box: Box) -> None:
        """Enter a thing that a text with a leader line rather does not stand on."""
        self._bodies.append(box)

    def draw(self, points: Sequence[Point]) -> None:
        """Enter straight lines through points."""
        for a, b in pairwise(points):
            for cell in _cells(_around(a, b)):
                square = Box(cell[0] * _CELL, cell[1] * _CELL, (cell[0] + 1) * _CELL, (cell[1] + 1) * _CELL)
                if crosses(a, b, square.grown(0.01)):
                    self._lines.setdefault(cell, []).append((a, b))

    def cover(self, box: Box) -> None:
        """Take away what a white area hides of the lines drawn before it."""
        hidden = {line: None for cell in _cells(box) for line in self._lines.get(cell, ()) if crosses(*line, box)}
        for line in hidden:
            for cell in _cells(_around(*line)):
                self._lines[cell] = [each for each in self._lines.get(cell, ()) if each != line]
            for part in _outside(*line, box):
                self.draw(part)

    def free(self, box: Box) -> bool:
        """True where the box lies on the sheet and meets no other box."""
        return box.within(self.edge) and not any(box.meets(each) for cell in _cells(box) for each in self._in(cell))

    def clear(self, leader: Sequence[Point]) -> bool:
        """True where a leader line runs through no box."""
        return not any(
            crosses(a, b, each)
            for a, b in pairwise(leader)
            for cell in _cells(_around(a, b))
            for each in self._in(cell)
        )

    def crossed(self, box: Box) -> int:
        """How many lines run through the box."""
        found = {line for cell in _cells(box) for line in self._lines.get(cell, ()) if crosses(*line, box)}
        return len(found)

    def cut(self, leader: Sequence[Point]) -> int:
        """How many lines a leader runs over, those at its own end left out; one that it runs along counts three."""
        found: dict[tuple[Point, Point], int] = {}
        for index, (a, b) in enumerate(pairwise(leader)):
            start = _onward(a, b, 0.8) if index == 0 else a
            for cell in _cells(_around(start, b)):
                for line in self._lines.get(cell, ()):
                    met = _meeting(start, b, *line)
                    if met:
                        found[line] = max(met, found.get(line, 0))
        return sum(found.values())

    def best(self, spots: Iterable[Spot]) -> Spot | None:
        """The cheapest free spot; a line under the text costs as much as 10 mm of leader, one across it 4 mm.

        A body under a text that has a leader costs 30 mm.

        None where all are taken.
        """
        found: Spot | None = None
        least = float("inf")
        for spot in spots:
            if spot.cost >= least or not self.free(spot.box) or not self.clear(spot.leader):
                continue
            cost = spot.cost + 10 * self.crossed(spot.box)
            if spot.leader:
                cost += 30 * sum(spot.box.meets(each) for each in self._bodies)
            if spot.leader and cost < least:
                cost += 4 * self.cut(spot.leader)
            if cost < least:
                found, least = spot, cost
        return found

    def _in(self, cell: tuple[int, int]) -> list[Box]:
        return self._boxes.get(cell, [])


def _onward(a: Point, b: Point, by: float) -> Point:
    """A point on the way from a to b."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    share = min(1.0, by / ((dx * dx + dy * dy) ** 0.5 or 1.0))
    return a[0] + dx * share, a[1] + dy * share


def _meeting(a: Point, b: Point, c: Point, d: Point) -> int:
    """1 where two straight lines cross, 3 where they run along each other, else 0."""
    one, two = _side(a, b, c), _side(a, b, d)
    if one == two == 0:
        return 3 if _around(a, b).grown(1e-6).meets(_around(c, d).grown(1e-6)) else 0
    three, four = _side(c, d, a), _side(c, d, b)
    return 1 if one * two <= 0 and three * four <= 0 else 0


def _side(a: Point, b: Point, point: Point) -> int:
    """On which side of the way from a to b a point lies; 0 within a thousandth of a mm of it."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    area = dx * (point[1] - a[1]) - dy * (point[0] - a[0])
    near = 1e-3 * (dx * dx + dy * dy) ** 0.5
    return 0 if -near <= area <= near else (1 if area > 0 else -1)


def _around(a: Point, b: Point) -> Box:
    return Box(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))


def _cells(box: Box) -> list[tuple[int, int]]:
    return [
        (x, y)
        for x in range(int(box.left // _CELL), int(box.right // _CELL) + 1)
        for y in range(int(box.top // _CELL), int(box.bottom // _CELL) + 1)
    ]
