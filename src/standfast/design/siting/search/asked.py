"""What is asked for several units together: a question for each, their distances, and what they leave free."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.design.siting.question import Question, Spot
from standfast.design.siting.solid import Span


class Corner(NamedTuple):
    """Two stretches where walls meet: of two units, one may stand in the one or the other in the other, not both.

    Attributes:
        wall: one wall.
        x: stretch of it, tenths.
        other: the other wall.
        other_x: stretch of that.
    """

    wall: str
    x: Span
    other: str
    other_x: Span


class Apart(NamedTuple):
    """What two units keep from each other.

    Attributes:
        along: gap along the wall that is enough, tenths.
        up: gap up the wall that is enough, tenths; one that no wall has (`keepouts.END`) where none is enough.
        corners: where they meet on different walls, unless one is `up` above the other.
    """

    along: int
    up: int
    corners: tuple[Corner, ...] = ()


class Strip(NamedTuple):
    """A clear strip of a wall that holds a stretch of it, somewhere, and in which no unit stands: working space.

    Attributes:
        wall: the wall.
        x: what the strip holds, tenths: the equipment.
        width: of the strip.
        z: where units block it, from the floor to its top.
        low: the strip begins here or further right: the end of the wall, or a body left of the equipment.
        high: the strip ends here or further left.
        units: numbers of the units that stand out far enough to block it; None for all.
    """

    wall: str
    x: Span
    width: int
    z: Span
    low: int
    high: int
    units: frozenset[int] | None = None

    @property
    def lefts(self) -> Span:
        """Where its left edge may be; with `low` above `high` there is no place for it whatever stands."""
        return Span(max(self.low, self.x.high - self.width), min(self.high - self.width, self.x.low))


class Together(NamedTuple):
    """Several units that are placed together.

    Attributes:
        units: for each unit one question per wall that it may stand on.
        apart: what every two of them keep from each other.
        strips: what they leave free, all together.
        pairs: what two units keep from each other where it is something else, by their numbers, the lower one first.
    """

    units: Sequence[Sequence[Question]]
    apart: Apart
    strips: Sequence[Strip] = ()
    pairs: Mapping[tuple[int, int], Apart] = {}

    def between(self, one: int, other: int) -> Apart:
        """What two units keep from each other."""
        return self.pairs.get((min(one, other), max(one, other)), self.apart)

    def question(self, unit: int, wall: str) -> Question | None:
        """The question of a unit on a wall; None where it may not stand there."""
        return next((each for each in self.units[unit] if each.wall == wall), None)

    def cost(self, spots: Sequence[Spot]) -> int | None:
        """What a placement costs by its places alone; None where one is refused, or units or strips are in the way."""
        boxes, cost = [], 0
        for number, spot in enumerate(spots):
            ask = self.question(number, spot.wall)
            if ask is None or not ask.free(spot.left, spot.bottom):
                return None
            if ask.left not in (None, spot.left) or ask.bottom not in (None, spot.bottom):
                return None
            cost += ask.cost(spot.left, spot.bottom)
            x, z = Span(spot.left, spot.left + ask.width), Span(spot.bottom, spot.bottom + ask.height)
            boxes.append((spot.wall, x, z))
        pairs = ((one, other) for one in range(len(boxes)) for other in range(one))
        if any(_too_near(boxes[one], boxes[other], self.between(one, other)) for one, other in pairs):
            return None
        return cost if all(_left_free(strip, boxes) for strip in self.strips) else None


Box = tuple[str, Span, Span]


def _too_near(one: Box, other: Box, apart: Apart) -> bool:
    if max(one[2].low - other[2].high, other[2].low - one[2].high) >= apart.up:
        return False
    if one[0] == other[0]:
        return max(one[1].low - other[1].high, other[1].low - one[1].high) < apart.along
    return any(
        a[0] == corner.wall and b[0] == corner.other and a[1].overlaps(corner.x) and b[1].overlaps(corner.other_x)
        for corner in apart.corners
        for a, b in ((one, other), (other, one))
    )


def _left_free(strip: Strip, boxes: Sequence[Box]) -> bool:
    """True where the strip finds a place: as far left as it may, or just right of a unit."""
    taken = [
        x
        for number, (wall, x, z) in enumerate(boxes)
        if wall == strip.wall and z.overlaps(strip.z) and (strip.units is None or number in strip.units)
    ]
    lefts = strip.lefts
    starts = [lefts.low, *(x.high for x in taken)]
    return any(
        lefts.low <= at <= lefts.high and not any(Span(at, at + strip.width).overlaps(x) for x in taken)
        for at in starts
    )
