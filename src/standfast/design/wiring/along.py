"""Lengths of routes that follow the walls of a room: across and up, between the middles of their two ends.

Two walls that meet in a corner are laid flat beside each other. A run keeps off doors and windows: it goes across at
the height of one of its ends, or along the edge of an opening that lies between.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.design.siting.frames import exact
from standfast.design.siting.placed import PlacedUnit
from standfast.design.siting.solid import TENTHS, Span
from standfast.design.wiring.material import JobFile
from standfast.sheet import Value, measured, missing
from standfast.survey.house import Wall
from standfast.survey.joined import devices
from standfast.survey.power import Route
from standfast.units import convert, show

CORNER = 250
"""Two ends of walls that are nearer than this, in tenths of a millimetre, are one corner."""


class Middle(NamedTuple):
    """The middle of an end of a route, on its wall: along it and up, tenths and halves of them."""

    wall: str
    x: float
    z: float


class Surface(NamedTuple):
    """Walls laid flat, from the left end of the first: where each begins, their openings, the lowest ceiling."""

    begins: dict[str, int]
    openings: tuple[tuple[Span, Span], ...]
    ceiling: int | None


def lengths(job: JobFile, places: Sequence[PlacedUnit]) -> dict[str, Value]:
    """The length of every route that follows the walls, in ft, by the id of the route.

    Args:
        job: the job file.
        places: where the units stand.
    """
    return {route.id: _length(job, route, places) for route in job.content.routes if follows(route)}


def follows(route: Route) -> bool:
    """True where the length of a route follows the walls."""
    return route.along == "wall" and route.length is None


def middle(job: JobFile, end: str) -> Middle | None:
    """The middle of a panel or device that the job puts on a wall, by the word that routes have for it."""
    known = devices(job.content)
    device = known.get(end, end)
    hung = [(wall.id, thing) for wall in job.content.walls for thing in wall.obstacles]
    found = [each for each in hung if each[1].panel == end or known.get(each[1].id, each[1].id) == device]
    if not found and device.endswith("disconnect"):
        named = {*known, "island-switch"}
        found = [each for each in hung if each[1].kind == "disconnect" and each[1].state == "new"]
        found = [each for each in found if each[1].id not in named]
    if not found and device.endswith("/dc-overcurrent"):
        found = [each for each in hung if each[1].kind == "fuse" and each[1].state == "new"]
    if len(found) != 1:
        return None
    wall, thing = found[0]
    return Middle(
        wall, exact(thing.left) + exact(thing.width) // 2, exact(thing.bottom) + exact(thing.height) // 2
    )  # fmt: skip


def of_unit(place: PlacedUnit) -> Middle | None:
    """The middle of a unit where it stands."""
    x, _, z = place.unit.solid
    if x is None or z is None:
        return None
    return Middle(place.wall, (x.low + x.high) / 2, (z.low + z.high) / 2)


def laid_flat(job: JobFile, one: str, other: str) -> Surface | None:
    """The walls from one to another of the same room, laid flat; None where they do not meet corner by corner."""
    walls = {wall.id: wall for wall in job.content.walls}
    ways = [way for way in (_rightwards(walls, one, other), _rightwards(walls, other, one)) if way]
    if not ways:
        return None
    way = min(ways, key=lambda each: sum(exact(wall.length) for wall in each))
    begins, at, openings = dict[str, int](), 0, list[tuple[Span, Span]]()
    for wall in way:
        begins[wall.id] = at
        for each in wall.openings:
            left, bottom = at + exact(each.left), exact(each.bottom)
            openings.append((Span(left, left + exact(each.width)), Span(bottom, bottom + exact(each.height))))
        at += exact(wall.length)
    heights = [exact(wall.height) for wall in way if wall.height is not None]
    return Surface(begins, tuple(openings), min(heights, default=None))


def run(surface: Surface, one: Middle, other: Middle) -> float | None:
    """The shortest way across and up that keeps off the openings, tenths; None where there is none."""
    least = min(_ways(surface, one, other), default=None)
    return None if least is None else least[0]


def bends(surface: Surface, one: Middle, other: Middle) -> int | None:
    """Quarter bends of the shortest way across and up, and round the corners of the room; of several ways equally short
    the one with the fewest. None where there is no way. Offsets at the enclosures are not among them."""
    least = min(_ways(surface, one, other), default=None)
    return None if least is None else least[1]


def _ways(surface: Surface, one: Middle, other: Middle) -> Iterator[tuple[float, int]]:
    """The length and the quarter bends of each way across and up that keeps off the openings."""
    (x, z), (u, w) = (flat(surface, each) for each in (one, other))
    across = (min(x, u), max(x, u))
    round_corners = sum(across[0] < begin < across[1] for begin in surface.begins.values())
    for height in _heights(surface, z, w):
        if any(_cut(each, across, (height, height)) for each in surface.openings):
            continue
        if any(_cut(each, (at, at), (min(up, height), max(up, height)))
               for at, up in ((x, z), (u, w)) for each in surface.openings):  # fmt: skip
            continue
        turned = (z != height) + (w != height) if across[0] < across[1] else 0
        yield across[1] - across[0] + _apart(z, height) + _apart(w, height), turned + round_corners


def flat(surface: Surface, point: Middle) -> tuple[float, float]:
    """A point where the walls are laid flat."""
    return surface.begins[point.wall] + point.x, point.z


def _heights(surface: Surface, *ends: float) -> Iterator[float]:
    """The heights of both ends, and the edges of openings over or under which there is wall."""
    yield from ends
    for _, (low, high) in surface.openings:
        yield from (each for each in (low, high) if each > 0 and (surface.ceiling is None or each < surface.ceiling))


def _cut(opening: tuple[Span, Span], x: tuple[float, float], z: tuple[float, float]) -> bool:
    """Whether a line goes through the inside of an opening."""
    across, up = opening
    return x[0] < across.high and across.low < x[1] and z[0] < up.high and up.low < z[1]


def _rightwards(walls: dict[str, Wall], start: str, goal: str) -> list[Wall]:
    """The walls from one to another, each beginning where the one before ends; empty where they do not get there."""
    way = [walls[start]]
    while way[-1].id != goal:
        after = [each for each in walls.values() if each.room == way[0].room and _meet(way[-1], each)]
        if len(after) != 1 or after[0] in way:
            return []
        way.append(after[0])
    return way


def _meet(left: Wall, right: Wall) -> bool:
    if left.end is None or right.start is None:
        return False
    ends = ((exact(one), exact(other)) for one, other in zip(left.end, right.start, strict=True))
    return all(_apart(*each) <= CORNER for each in ends)


def _apart(one: float, other: float) -> float:
    return max(one - other, other - one)


def _length(job: JobFile, route: Route, places: Sequence[PlacedUnit]) -> Value:
    extra = job.fact(f"routes.{route.id}.extra", "L_extra", "ft")
    known = devices(job.content)
    points = []
    for end in (route.from_, route.to):
        place = next((each for each in places if each.id == known.get(end, end)), None)
        point = of_unit(place) if place is not None else middle(job, end)
        if point is None:
            need = f"walls: an obstacle that is {end}, or routes.{route.id}.length"
            return missing("L", "ft", need, extra)
        points.append(point)
    surface = laid_flat(job, points[0].wall, points[1].wall)
    way = None if surface is None else run(surface, *points)
    if surface is None or way is None:
        why = "no way along the walls of one room leads from one end to the other"
        return missing("L", "ft", f"routes.{route.id}.length: {why}", extra)
    if extra.missing:
        return missing("L", "ft", extra.how, extra)
    on_wall = convert(way / TENTHS, "mm", "ft")
    how = (
        f"along the wall, across and up between the middles of {route.from_} and {route.to}: {show(on_wall, 'ft')}, "
        f"and {show(extra.quantity, 'ft')} for bends and terminations"
    )
    return measured("L", on_wall + extra.quantity, "ft", how, extra)
