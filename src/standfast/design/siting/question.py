"""What is asked for one unit on one wall, and the lines on which its cheapest place can lie.

The cost of a place is what is worked out with: run of conductors, straight along and up, from the middle of the unit
to where the run goes; so much more run for every column of holes off the studs, and some for being off their middles;
and run for every height that the unit has to be lifted.
On the free space that cost is piecewise linear, so its least value lies where two boundaries, or a boundary and a line
on which the cost bends, cross. Sliding along the tangent of a round corner stays free, so no arc holds a least value
inside: only its crossings count.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from standfast.design.siting.instructions import off_centre
from standfast.design.siting.keepouts import END, Keepout
from standfast.design.siting.solid import Span


class Spot(NamedTuple):
    """Lower left corner of a unit on a wall, tenths; `cost` in halves of a tenth of run, so that it is whole."""

    cost: int
    left: int
    bottom: int
    wall: str = ""


class Question(NamedTuple):
    """What is chosen.

    Attributes:
        width: of the unit, tenths.
        height: of the unit, tenths.
        keepouts: where it may not stand.
        target: where its run goes, along the wall and up, tenths; None where nothing on this wall says.
        studs: middles of studs from the left; empty where the wall is no frame.
        columns: distances of its columns of holes from its left edge.
        off_allowed: how far a hole may sit off the middle of a stud.
        off_cost: run that one column off the studs counts for, tenths.
        stray_cost: run that a column counts for by each tenth off the middle of its stud, in tenths.
        lift_cost: run that each tenth of height of the lower edge counts for, in tenths.
        left: left edge where it is fixed beforehand.
        bottom: lower edge where it is fixed beforehand.
        wall: id of the wall, where there are several.
        wall_cost: run that standing on this wall counts for, whatever the place, tenths.
        run_cost: what each tenth of run counts for, where all these costs are counted in something finer.
    """

    width: int
    height: int
    keepouts: Sequence[Keepout]
    target: tuple[int, int] | None
    studs: tuple[int, ...] = ()
    columns: tuple[int, ...] = ()
    off_allowed: int = 0
    off_cost: int = 0
    stray_cost: int = 0
    lift_cost: int = 0
    left: int | None = None
    bottom: int | None = None
    wall: str = ""
    wall_cost: int = 0
    run_cost: int = 1

    def cost(self, left: int, bottom: int) -> int:
        """Cost of a place, in halves of a tenth of run."""
        return self.cost_across(left) + self.cost_up(bottom)

    def cost_across(self, left: int) -> int:
        """The part of the cost that the wall and the left edge decide: run along it, and columns off the studs."""
        return self.run_across(left) + self.off_studs(left)

    def off_studs(self, left: int) -> int:
        """The part of that cost that columns off the middles of studs cause. Written out, since every place asks it."""
        stray, studs, last = 0, self.studs, len(self.studs)
        for column in self.columns if studs else ():
            hole = left + column
            after = bisect_left(studs, hole)
            off = studs[after] - hole if after < last else hole - studs[-1]
            if after and hole - studs[after - 1] < off:
                off = hole - studs[after - 1]
            stray += self.off_cost if off > self.off_allowed else self.stray_cost * off
        return 2 * stray

    def run_across(self, left: int) -> int:
        """The part of that cost that has no regard to studs."""
        across = 0 if self.target is None else 2 * (left - self.target[0]) + self.width
        return self.run_cost * max(across, -across) + 2 * self.wall_cost

    def cost_up(self, bottom: int) -> int:
        """The part of the cost that the lower edge decides: run up the wall, and the height of the lift."""
        up = 0 if self.target is None else 2 * (bottom - self.target[1]) + self.height
        return self.run_cost * max(up, -up) + 2 * self.lift_cost * bottom

    def strays(self, left: int) -> list[int]:
        """How far each column of holes is off the middle of the nearest stud; empty where the wall is no frame."""
        return [off_centre(left + column, self.studs) for column in self.columns] if self.studs else []

    def refusing(self, left: int, bottom: int) -> list[Keepout]:
        """The keep-outs that refuse a place."""
        x, z = Span(left, left + self.width), Span(bottom, bottom + self.height)
        return [each for each in self.keepouts if each.refuses(x, z)]

    def free(self, left: int, bottom: int) -> bool:
        """True where nothing refuses a place."""
        x, z = Span(left, left + self.width), Span(bottom, bottom + self.height)
        return not any(each.refuses(x, z) for each in self.keepouts)


def left_lines(ask: Question) -> Iterator[int]:
    """Left edges where a keep-out ends or the cost bends; those of round corners are `on_arcs`."""
    if ask.left is not None:
        yield ask.left
        return
    for each in ask.keepouts:
        reach = each.reach
        yield from _within((each.x.low - reach - ask.width, each.x.high + reach))
    for stud in ask.studs:
        for column in ask.columns:
            yield from (stud - column + by for by in (-ask.off_allowed, 0, ask.off_allowed))
    if ask.target is not None:
        yield from _halves(2 * ask.target[0] - ask.width)


def bottom_lines(ask: Question) -> Iterator[int]:
    """Lower edges where a keep-out ends or the cost bends; those of round corners are `on_arcs`."""
    if ask.bottom is not None:
        yield ask.bottom
        return
    for each in ask.keepouts:
        reach = each.reach
        yield from _within((each.z.low - reach - ask.height, each.z.high + reach))
    yield 0
    if ask.target is not None:
        yield from _halves(2 * ask.target[1] - ask.height)


def _within(numbers: Iterable[int]) -> list[int]:
    return [each for each in numbers if 0 <= each < END // 2]


def _halves(double: int) -> Iterator[int]:
    """The whole numbers round half of a number."""
    yield from _within({double // 2, -(-double // 2)})


def on_arcs(ask: Question, lefts: Sequence[int], bottoms: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Points of round corners: where a line crosses them, to the free side, and where two of them cross."""
    rounded = [each for each in ask.keepouts if each.reach2]
    for each in rounded:
        for bottom in bottoms:
            up = max(each.z.low - bottom - ask.height, bottom - each.z.high, 0)
            if 0 < up * up < each.reach2:
                across = root_above(each.reach2 - up * up)
                yield from ((left, bottom) for left in _within((each.x.low - across - ask.width, each.x.high + across)))
        for left in lefts:
            across = max(each.x.low - left - ask.width, left - each.x.high, 0)
            if 0 < across * across < each.reach2:
                up = root_above(each.reach2 - across * across)
                yield from ((left, bottom) for bottom in _within((each.z.low - up - ask.height, each.z.high + up)))
    for at, one in enumerate(rounded):
        for other in rounded[at + 1 :]:
            for centre in _corners(one, ask):
                for second in _corners(other, ask):
                    yield from _crossings(centre, one.reach2, second, other.reach2)


def root_above(number: int) -> int:
    """The least whole number whose square is not less."""
    root = math.isqrt(number)
    return root if root * root == number else root + 1


def _corners(each: Keepout, ask: Question) -> list[tuple[int, int]]:
    """Centres of the round corners, for the lower left corner of the unit."""
    xs, zs = (each.x.low - ask.width, each.x.high), (each.z.low - ask.height, each.z.high)
    return [(x, z) for x in xs for z in zs]


def _crossings(a: tuple[int, int], a2: int, b: tuple[int, int], b2: int) -> Iterator[tuple[int, int]]:
    """Whole points round the crossings of two circles; whether one is free is for the keep-outs to say."""
    dx, dz = b[0] - a[0], b[1] - a[1]
    apart2 = dx * dx + dz * dz
    if not apart2:
        return
    along = (a2 - b2 + apart2) / (2 * apart2)
    height2 = a2 / apart2 - along * along
    if height2 < 0:
        return
    for side in (math.sqrt(height2), -math.sqrt(height2)):
        x, z = a[0] + along * dx - side * dz, a[1] + along * dz + side * dx
        if 0 <= x < END // 2 and 0 <= z < END // 2:
            yield from ((left, bottom) for left in (int(x), int(x) + 1) for bottom in (int(z), int(z) + 1))
