"""Where units can stand at a vertex: at an edge of a keep-out or a bend of the cost, or in a chain from such a line.

Fix on which side of each other every two units stand. What is left are differences: the left edge of one less that of
another is at least a width and a distance. So at a cheapest placement every left edge is a line of one unit, and from
there a chain of units in contact. A chain starts only from a unit that its own keep-outs or cost hold where it is,
since else the whole chain slides aside until something does. Lower edges follow the same.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.siting.question import Spot
from standfast.design.siting.search.asked import Together
from standfast.design.siting.search.groups import Group, between, heights, stackable
from standfast.design.siting.solid import Span
from standfast.design.siting.stand import Filler, Stand

MOST_LINKS = 200_000
"""Links of chains that are followed; with more the vertices are not all known."""


class Vertices(NamedTuple):
    """The places at vertices.

    Attributes:
        spots: for each group, from the cheapest.
        stacked: units may stand above one another; else each left edge has its cheapest lower edge only.
        complete: all vertices are there.
    """

    spots: list[list[Spot]]
    stacked: bool
    complete: bool


class Links(NamedTuple):
    """What chains are made of, along one axis.

    Attributes:
        sizes: of each group.
        gaps: between two groups, None where they do not mind each other.
        counts: how many there are of each.
        one_way: a chain runs on in one direction: no unit stands above another.
    """

    sizes: Sequence[int]
    gaps: Sequence[Sequence[int | None]]
    counts: Sequence[int]
    one_way: bool


def vertices(asked: Together, found: list[Group]) -> Vertices:
    """All places at which a group can stand in a cheapest placement."""
    stacked = stackable(asked, found)
    spots: list[set[Spot]] = [set() for _ in found]
    complete = not (stacked and len(asked.units) > 2 and _has_rounds(found))
    for wall in sorted({ask.wall for group in found for ask in group.asks}):
        stands, all_bottoms = _stands(asked, found, wall, stacked)
        pins = {at: _pins(asked, wall, stand.ask.width) for at, stand in stands.items()}
        starts = {at: _starts(stand, pins[at], stacked) for at, stand in stands.items()}
        links = _links(asked, found, along=True, one_way=not stacked)
        linked, all_lefts = chained(starts, links, _free_at(stands))
        complete = complete and all_bottoms and all_lefts
        for at, stand in stands.items():
            pinned = pins[at] | linked[at]
            for left in starts[at] | linked[at]:
                spots[at].update(_spots(stand, left, left in pinned, stacked))
    return Vertices([sorted(each) for each in spots], stacked, complete)


def _has_rounds(found: list[Group]) -> bool:
    """True where keep-outs have round corners, between which three units and more can wedge one another."""
    return any(each.reach2 for group in found for ask in group.asks for each in ask.keepouts)


def _free_at(stands: Mapping[int, Stand]) -> Callable[[int, int], bool]:
    return lambda at, left: bool(stands[at].free(left))


def _stands(asked: Together, found: list[Group], wall: str, stacked: bool) -> tuple[dict[int, Stand], bool]:
    """The groups on a wall, with the lower edges that count there; and whether those are all."""
    asks = {at: ask for at, group in enumerate(found) for ask in group.asks if ask.wall == wall}
    layers = {at: _layers(asked, found, at, wall) for at in asks}
    plain = {at: Stand(ask, layers[at]) for at, ask in asks.items() if found[at].strip is None}
    more: dict[int, set[int]] = {at: set() for at in asks}
    complete = True
    if stacked:
        starts = {at: {*stand.bottoms, *stand.arcs()} for at, stand in plain.items()}
        spans = {at: heights(ask) for at, ask in asks.items()}
        links = _links(asked, found, along=False, one_way=False)
        bottoms, complete = chained(starts, links, lambda at, bottom: spans[at].low <= bottom <= spans[at].high)
        more = {at: bottoms[at] for at in plain}
    stands: dict[int, Stand] = {}
    for at, ask in asks.items():
        strip = found[at].strip
        if strip is not None:
            stands[at] = Filler(ask, strip.lefts)
        else:
            stands[at] = Stand(ask, layers[at], more[at], plain[at].arcs() if stacked else ()) if stacked else plain[at]
    return stands, complete


def _layers(asked: Together, found: list[Group], at: int, wall: str) -> list[Span]:
    """The heights of the strips of a wall that a group can block."""
    strips = [each for each in found if each.strip is not None and each.strip.wall == wall]
    return [each.strip.z for each in strips if each.strip and between(asked, found[at], each) is not None]


def _links(asked: Together, found: list[Group], *, along: bool, one_way: bool) -> Links:
    sizes = [group.asks[0].width if along else group.asks[0].height for group in found]
    gaps: list[list[int | None]] = []
    for one in found:
        pairs = [between(asked, one, other) for other in found]
        aside = [not along and (one.strip is not None or other.strip is not None) for other in found]
        gaps.append(
            [
                None if apart is None or leave else apart.along if along else apart.up
                for apart, leave in zip(pairs, aside, strict=True)
            ]
        )
    return Links(sizes, gaps, [len(group.units) or 1 for group in found], one_way)


def _pins(asked: Together, wall: str, width: int) -> set[int]:
    """Left edges at which a unit just stands clear of a stretch where walls meet."""
    corners = [corner for apart in (asked.apart, *asked.pairs.values()) for corner in apart.corners]
    spans = [corner.x for corner in corners if corner.wall == wall]
    spans += [corner.other_x for corner in corners if corner.other == wall]
    return {line for x in spans for line in (x.high, x.low - width)}


def _starts(stand: Stand, pins: set[int], stacked: bool) -> set[int]:
    """The left edges where something other than units holds a unit."""
    held = stand.lefts()
    if stacked and not isinstance(stand, Filler):
        return {left for left in held | pins if stand.corners(left, left in pins)}
    return {left for left in held | pins if (left in pins and stand.free(left)) or stand.holds(left)}


def chained(
    starts: Mapping[int, set[int]], links: Links, allowed: Callable[[int, int], bool]
) -> tuple[dict[int, set[int]], bool]:
    """Lines at which units stand in contact with units at lines of others, or at the ends of chains from there.

    Args:
        starts: the lines of each group.
        links: what chains are made of.
        allowed: whether a group may stand at a line at all: only there a chain goes on.

    Returns:
        These lines of each group (some may be its own too), and whether all chains were followed.
    """
    reached: dict[int, set[int]] = {at: set() for at in starts}
    none = (0,) * len(links.counts)
    todo = [(at, line, _with(none, at), 0) for at, lines in starts.items() for line in lines]
    seen = set(todo)
    while todo and len(seen) < MOST_LINKS:
        at, line, used, way = todo.pop()
        for other in starts:
            gap = links.gaps[at][other]
            if gap is None or used[other] == links.counts[other]:
                continue
            for on, there in ((1, line + links.sizes[at] + gap), (-1, line - gap - links.sizes[other])):
                link = (other, there, _with(used, other), on if links.one_way else 0)
                if way in (0, on) and link not in seen and allowed(other, there):
                    seen.add(link)
                    todo.append(link)
                    reached[other].add(there)
    return reached, not todo


def _with(used: tuple[int, ...], at: int) -> tuple[int, ...]:
    return (*used[:at], used[at] + 1, *used[at + 1 :])


def _spots(stand: Stand, left: int, pinned: bool, stacked: bool) -> Iterator[Spot]:
    wall, across = stand.ask.wall, 0
    if not stacked or isinstance(stand, Filler):
        for cost, bottom in stand.cheapest(left):
            yield Spot(stand.cost_across(left) + cost, left, bottom, wall)
        return
    corners, across = stand.corners(left, pinned), stand.cost_across(left)
    while corners:
        lowest = corners & -corners
        cost, bottom = stand.ranked[lowest.bit_length() - 1]
        yield Spot(across + cost, left, bottom, wall)
        corners ^= lowest
    for bottom in stand.at_rounds(left):
        yield Spot(across + stand.ask.cost_up(bottom), left, bottom, wall)
