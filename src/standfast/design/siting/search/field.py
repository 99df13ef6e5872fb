"""Where units can still stand after some are placed: sets of spots as the bits of whole numbers."""

import math
from abc import ABC, abstractmethod
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.design.siting.question import Spot
from standfast.design.siting.search.asked import Apart, Together
from standfast.design.siting.search.groups import Group, between
from standfast.design.siting.solid import Span


class Open(NamedTuple):
    """Some units placed, others to come.

    Attributes:
        cost: of those that are placed.
        counts: units to come, by group.
        free: the spots that they can still have.
        strips: the places that strips can still have.
        taken: the spots of those that are placed.
    """

    cost: int
    counts: tuple[int, ...]
    free: int
    strips: int
    taken: tuple[int, ...] = ()


def members(bits: int) -> Iterator[int]:
    """The numbers of the spots of a set."""
    while bits:
        lowest = bits & -bits
        yield lowest.bit_length() - 1
        bits ^= lowest


class Line:
    """The spots of one group on one wall along one axis: those up to a value, as a set."""

    def __init__(self, places: Sequence[tuple[int, int]]) -> None:
        """Prepare from pairs of a value and the number of a spot."""
        self.values: list[int] = []
        self.upto = [0]
        for value, at in sorted(places):
            if not self.values or self.values[-1] != value:
                self.values.append(value)
                self.upto.append(self.upto[-1])
            self.upto[-1] |= 1 << at

    def within(self, low: int, high: int) -> int:
        """The spots from one value up to, and not at, another."""
        return self.upto[bisect_left(self.values, high)] & ~self.upto[bisect_left(self.values, low)]

    def outside(self, low: int, high: int) -> int:
        """The spots at or below the one value, or at or above the other."""
        below = self.upto[bisect_right(self.values, low)]
        return below | self.upto[-1] ^ self.upto[bisect_left(self.values, high)]


class Spots:
    """Numbered spots of several groups, and which of them go together with another spot."""

    def __init__(self, asked: Together, found: Sequence[Group], places: Sequence[tuple[Spot, int]]) -> None:
        """Prepare.

        Args:
            asked: what is placed.
            found: its groups.
            places: spots and the numbers of their groups, in the order in which they are numbered.
        """
        self.asked, self.found, self.places = asked, found, places
        self.all = (1 << len(places)) - 1
        self.of = [0] * len(found)
        self.on: dict[tuple[int, str], int] = {}
        lists: dict[tuple[int, str], list[tuple[int, Spot]]] = {}
        for at, (spot, group) in enumerate(places):
            self.of[group] |= 1 << at
            lists.setdefault((group, spot.wall), []).append((at, spot))
        self.lefts = {key: Line([(spot.left, at) for at, spot in mine]) for key, mine in lists.items()}
        self.bottoms = {key: Line([(spot.bottom, at) for at, spot in mine]) for key, mine in lists.items()}
        self.rows: dict[tuple[Spot, int], int] = {}
        self.apart = {(a, b): between(asked, one, two) for a, one in enumerate(found) for b, two in enumerate(found)}

    def beside(self, spot: Spot, group: int) -> int:
        """The spots that can be taken beside a spot of a group."""
        key = (spot, group)
        found = self.rows.get(key)
        if found is None:
            found = 0
            for other, wall in self.lefts:
                found |= self._beside(spot, group, other, wall)
            self.rows[key] = found
        return found

    def windows(self, at: int) -> tuple[int, int]:
        """Two sets of spots in each of which all exclude each other: those of its group that one excludes to its right.

        One from its lower edge up, one from there down. Each lies within one width and distance and one height and
        distance, and all that the spots of a group and wall exclude is in one of them.
        """
        spot, group = self.places[at]
        apart, ask = self.apart[group, group], self.found[group].asks[0]
        if apart is None:
            return 0, 0
        aside = self.lefts[group, spot.wall].within(spot.left, spot.left + ask.width + apart.along)
        bottoms, high = self.bottoms[group, spot.wall], ask.height + apart.up
        return (
            aside & bottoms.within(spot.bottom, spot.bottom + high),
            aside & bottoms.within(spot.bottom - high + 1, spot.bottom + 1),
        )

    def alike(self, at: int) -> int:
        """The spots of the same group and wall."""
        spot, group = self.places[at]
        return self.lefts[group, spot.wall].upto[-1]

    def _beside(self, spot: Spot, group: int, other: int, wall: str) -> int:
        apart, lefts, bottoms = self.apart[group, other], self.lefts[other, wall], self.bottoms[other, wall]
        whole = lefts.upto[-1]
        if apart is None:
            return whole
        mine, theirs = self.found[group].asks[0], self.found[other].asks[0]
        over = bottoms.outside(spot.bottom - theirs.height - apart.up, spot.bottom + mine.height + apart.up)
        if spot.wall == wall:
            return over | lefts.outside(spot.left - theirs.width - apart.along, spot.left + mine.width + apart.along)
        x = Span(spot.left, spot.left + mine.width)
        for here, there in _corners(apart, spot.wall, wall):
            if x.overlaps(here):
                whole &= over | lefts.outside(there.low - theirs.width, there.high)
        return whole


def _corners(apart: Apart, here: str, there: str) -> Iterator[tuple[Span, Span]]:
    for corner in apart.corners:
        if (corner.wall, corner.other) == (here, there):
            yield corner.x, corner.other_x
        if (corner.other, corner.wall) == (here, there):
            yield corner.other_x, corner.x


class Field(ABC):
    """The spots of units, and of strips beside them.

    Subclasses say in which order spots are numbered and tried, and what the units to come cost at least.
    """

    def __init__(self, asked: Together, found: Sequence[Group], places: list[tuple[Spot, int]]) -> None:
        """Prepare, from the spots of all groups with the numbers of these."""
        self.found = found
        self.spots = Spots(asked, found, [each for each in places if found[each[1]].units])
        self.strips = Spots(asked, found, [each for each in places if not found[each[1]].units])
        self.wanted = [self.strips.of[at] for at, group in enumerate(found) if not group.units]

    def start(self) -> Open | None:
        """Nothing placed yet; None where a strip has no place whatever stands."""
        counts = tuple(len(group.units) for group in self.found)
        return Open(0, counts, self.spots.all, self.strips.all) if all(self.wanted) else None

    def take(self, here: Open, at: int) -> Open | None:
        """One unit more; None where a strip has no place left."""
        spot, group = self.spots.places[at]
        strips = here.strips & self.strips.beside(spot, group)
        if not all(strips & each for each in self.wanted):
            return None
        counts = (*here.counts[:group], here.counts[group] - 1, *here.counts[group + 1 :])
        free = here.free & self.spots.beside(spot, group) & (-1 << at + 1)
        if not counts[group]:
            free &= ~self.spots.of[group]
        return Open(here.cost + spot.cost, counts, free, strips, (*here.taken, at))

    @abstractmethod
    def least(self, here: Open) -> float:
        """What a placement with these units costs at least; without end where there is none."""

    @abstractmethod
    def choices(self, here: Open, least: float) -> Iterator[tuple[float, int]]:
        """The spots for the next unit, each with what a placement costs at least; that never falls."""

    def worth(self, start: Open, most: int) -> int:
        """The spots that a placement can have that costs no more than so much."""
        found = 0
        for group, wanted in enumerate(start.counts):
            if wanted:
                counts = (*start.counts[:group], wanted - 1, *start.counts[group + 1 :])
                rest = self.least(start._replace(counts=counts))
                for at in members(start.free & self.spots.of[group]):
                    found |= (self.spots.places[at][0].cost + rest <= most) << at
        return found

    def placed(self, here: Open) -> tuple[Spot, ...]:
        """The spots by unit: within a group by wall, then from the left."""
        taken = [self.spots.places[at] for at in here.taken]
        by_unit: dict[int, Spot] = {}
        for at, group in enumerate(self.found):
            mine = sorted(
                (spot for spot, of in taken if of == at), key=lambda each: (each.wall, each.left, each.bottom)
            )
            by_unit.update(zip(group.units, mine, strict=True))
        return tuple(by_unit[unit] for unit in sorted(by_unit))


class ByCost(Field):
    """Units that may stand above one another: the cheapest spot first.

    Spots that lie within one width and distance along, and one height and distance up, exclude each other. So a wall is
    cut into cells of that size, and each unit to come needs a cell of its own.
    """

    def __init__(self, asked: Together, found: Sequence[Group], places: list[tuple[Spot, int]]) -> None:
        """Number the spots from the cheapest."""
        super().__init__(asked, found, sorted(places))
        self.cells = [self._cells(at) if group.units else [] for at, group in enumerate(found)]

    def _cells(self, at: int) -> list[list[int]]:
        """Ways to cut the spots of a group into cells."""
        ask, apart = self.found[at].asks[0], self.spots.apart[at, at]
        if apart is None or len(self.found[at].units) < 2:
            return [[self.spots.of[at]]]
        wide, high = ask.width + apart.along, ask.height + apart.up
        mine = [(spot, number) for number, (spot, group) in enumerate(self.spots.places) if group == at]
        ways = []
        for shift in (0, wide // 2):
            cells: dict[tuple[str, int, int], int] = {}
            for spot, number in mine:
                key = (spot.wall, (spot.left + shift) // wide, spot.bottom // high)
                cells[key] = cells.get(key, 0) | 1 << number
            ways.append(list(cells.values()))
        return ways

    def least(self, here: Open) -> float:
        """What is placed, and for each unit to come the cheapest spot of a cell of its own."""
        cost: float = here.cost
        for wanted, ways in zip(here.counts, self.cells, strict=True):
            if wanted:
                cost += max(self._cheapest(here.free, wanted, cells) for cells in ways)
        return cost

    def _cheapest(self, free: int, wanted: int, cells: Sequence[int]) -> float:
        firsts = sorted(left & -left for left in (free & cell for cell in cells) if left)
        if len(firsts) < wanted:
            return math.inf
        return sum(self.spots.places[first.bit_length() - 1][0].cost for first in firsts[:wanted])

    def choices(self, here: Open, least: float) -> Iterator[tuple[float, int]]:
        """From the cheapest spot: those to come cost no less than it."""
        wanted = sum(here.counts)
        for at in members(here.free):
            least = max(least, here.cost + wanted * self.spots.places[at][0].cost)
            yield least, at


class InARow(Field):
    """Units that all stand beside one another: from the left, with what those further right cost at least.

    That is worked out once for every left edge and every number of units to come; without strips, corners and
    differing distances it is exact.
    """

    MOST = 1_000_000
    """Entries of the table."""

    def __init__(self, asked: Together, found: Sequence[Group], places: list[tuple[Spot, int]]) -> None:
        """Number the spots from the left, wall after wall."""
        super().__init__(asked, found, sorted(places, key=lambda each: (each[0].wall, each[0].left, each[0], each[1])))
        self.after = self._after()
        self.rest: dict[tuple[int, ...], list[float]] = {}

    def _after(self) -> list[int]:
        """For each spot the first one that is clear of it."""
        keys = [(spot.wall, spot.left) for spot, _ in self.spots.places]
        others = [at for at, group in enumerate(self.found) if group.units]
        gaps = {}
        for at in others:
            found = [apart.along for other in others if (apart := self.spots.apart[at, other]) is not None]
            gaps[at] = self.found[at].asks[0].width + min(found)
        return [bisect_left(keys, (spot.wall, spot.left + gaps[group])) for spot, group in self.spots.places]

    def _rest(self, counts: tuple[int, ...]) -> list[float]:
        """What units to come cost at least, from each spot on."""
        found = self.rest.get(counts)
        if found is None:
            places, end = self.spots.places, len(self.spots.places)
            fewer = {
                at: self._rest((*counts[:at], wanted - 1, *counts[at + 1 :]))
                for at, wanted in enumerate(counts)
                if wanted
            }
            found = self.rest[counts] = [math.inf if fewer else 0] * (end + 1)
            for at in range(end - 1, -1, -1) if fewer else ():
                spot, group = places[at]
                found[at] = found[at + 1]
                if group in fewer:
                    found[at] = min(found[at], spot.cost + fewer[group][self.after[at]])
        return found

    def least(self, here: Open) -> float:
        """What is placed, and the rest from the first spot on."""
        first = (here.free & -here.free).bit_length() - 1 if here.free else len(self.spots.places)
        return here.cost + self._rest(here.counts)[first]

    def choices(self, here: Open, least: float) -> Iterator[tuple[float, int]]:
        """All spots to come, from the one with which the placement costs least."""
        fewer = {
            at: self._rest((*here.counts[:at], wanted - 1, *here.counts[at + 1 :]))
            for at, wanted in enumerate(here.counts)
            if wanted
        }
        found = []
        for at in members(here.free):
            spot, group = self.spots.places[at]
            cost = here.cost + spot.cost + fewer[group][self.after[at]]
            if cost < math.inf:
                found.append((max(cost, least), at))
        return iter(sorted(found))


def field_of(asked: Together, found: Sequence[Group], spots: Sequence[Sequence[Spot]], *, stacked: bool) -> Field:
    """The field in the order that suits it."""
    places = [(spot, at) for at, mine in enumerate(spots) for spot in mine]
    entries = len(places) * math.prod(len(group.units) + 1 for group in found)
    return (ByCost if stacked or entries > InARow.MOST else InARow)(asked, found, places)
