"""Everything on a wall of the job and before it, in the frame of that wall.

Things on other faces of the same room, or outdoors, are moved into the frame by the ends of both walls in plan.
"""

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.siting.frames import Frame, exact, frame, moved
from standfast.design.siting.layout import GARAGES, Beyond, Direction, Thing, ThingKind
from standfast.design.siting.makers import maker
from standfast.design.siting.solid import TENTHS, Solid, Span
from standfast.sheet import Value
from standfast.survey.house import Obstacle, Opening, Wall
from standfast.survey.house import Room as SurveyedRoom

OUTSIDE = "outside"
_FAR = 10**9
_THINGS: dict[str, ThingKind] = {
    "panelboard": "panel", "disconnect": "disconnect", "fuse": "fuse", "meter": "meter", "inverter": "inverter",
    "socket outlet": "socket outlet", "light switch": "light switch", "junction box": "junction box",
    "water heater": "water heater", "heat pump": "heat pump", "air conditioner": "air conditioner",
    "appliance": "appliance", "gas meter": "gas meter", "gas regulator vent": "gas regulator vent", "gas pipe": "pipe",
    "water pipe": "pipe", "duct": "duct", "shelf": "shelf", "fuel store": "fuel store", "other": "other",
    "door": "door", "window": "window", "garage door": "door", "vent": "vent", "air brick": "air brick",
    "access hatch": "door",
}  # fmt: skip
_HABITABLE = ("bedroom", "habitable room", "living room", "kitchen")


class Surveyed(NamedTuple):
    """A job, the sheet of its battery, and that of its inverter where it is chosen by itself, seen from one wall.

    `devices` are the data sheets by role, for the size of chosen devices.
    """

    job: JobFile
    sheet: SheetFile
    wall: Wall
    inverter: SheetFile | None = None
    devices: Mapping[str, SheetFile] = {}

    @property
    def path(self) -> str:
        """The wall in the job file."""
        return f"walls.{self.wall.id}"

    def room(self, id: str | None) -> SurveyedRoom | None:
        """A room by its id."""
        return next((each for each in self.job.content.rooms if each.id == id), None)

    def kind(self, id: str | None) -> str | None:
        """What a room is used as; None where nobody says."""
        room = self.room(id)
        return room.kind if room is not None else (OUTSIDE if id == OUTSIDE else None)

    @property
    def outdoors(self) -> bool:
        """True where the face of the wall is outdoors."""
        return self.kind(self.wall.room) == OUTSIDE


def things(seen: Surveyed) -> Iterator[Thing]:
    """Openings, equipment, door leaves, lines and, outdoors, gas of a wall and of its neighbours."""
    wall = seen.wall
    own = frame(wall)
    for opening in wall.openings:
        for part in _opening(seen, opening, lambda solid: solid, on_wall=True):
            yield part._replace(path=f"{seen.path}.openings.{opening.id}")
    for obstacle in wall.obstacles:
        path = f"{seen.path}.obstacles.{obstacle.id}"
        volts = seen.job.fact(f"{path}.volts_to_ground", "V_ground", "V")
        thing = _obstacle(obstacle, lambda solid: solid, volts, on_wall=True)._replace(path=path)
        yield _chosen(seen, thing) if is_chosen_inverter(obstacle) else thing
    for other in seen.job.content.walls:
        there = frame(other)
        if other.id != wall.id and same_room(seen, other) and own is not None and there is not None:
            yield from _other_wall(seen, other, own, there)
    yield from _lines(seen)
    if seen.outdoors and own is not None:
        yield from _marks(seen, own)


def same_room(seen: Surveyed, other: Wall) -> bool:
    """True where another wall is a face of the same room, or both are outdoors."""
    return other.room == seen.wall.room or (seen.outdoors and seen.kind(other.room) == OUTSIDE)


def _other_wall(seen: Surveyed, other: Wall, own: Frame, there: Frame) -> Iterator[Thing]:
    def put(solid: Solid) -> Solid:
        return moved(solid, there, own)

    for opening in other.openings:
        for part in _opening(seen, opening, put, on_wall=False):
            yield part._replace(path=f"walls.{other.id}.openings.{opening.id}")
    for obstacle in other.obstacles:
        thing = _obstacle(obstacle, put, None, on_wall=False)
        yield thing._replace(path=f"walls.{other.id}.obstacles.{obstacle.id}")


def not_in_plan(seen: Surveyed) -> list[str]:
    """Other faces of the room that hold something but cannot be put beside this wall, since one of both has no ends."""
    return [
        other.id
        for other in seen.job.content.walls
        if other.id != seen.wall.id
        and same_room(seen, other)
        and (other.openings or other.obstacles)
        and (frame(other) is None or frame(seen.wall) is None)
    ]


Put = Callable[[Solid], Solid]


def _opening(seen: Surveyed, opening: Opening, put: Put, *, on_wall: bool) -> Iterator[Thing]:
    left, bottom = exact(opening.left), exact(opening.bottom)
    x, z = Span(left, left + exact(opening.width)), Span(bottom, bottom + exact(opening.height))
    beyond = seen.kind(opening.leads_into)
    yield Thing(
        opening.id,
        _THINGS[opening.kind],
        put(Solid(x, Span(0, 0), z)),
        leads_into_dwelling=None if beyond is None else beyond not in (OUTSIDE, *GARAGES, "detached shed"),
        opens_into=_beyond(beyond),
        is_exit=opening.exit,
        on_wall=on_wall,
    )
    if opening.kind == "door" and opening.swings in (None, "into this room"):
        yield from _leaf(opening, x, z, put, on_wall)


def _beyond(kind: str | None) -> Beyond | None:
    if kind is None:
        return None
    if kind in _HABITABLE:
        return "habitable room"
    return "outside" if kind == OUTSIDE else "attached garage" if kind == "attached garage" else "non habitable room"


def _leaf(opening: Opening, x: Span, z: Span, put: Put, on_wall: bool) -> Iterator[Thing]:
    """The leaf of a door that opens into the room; where its hinge is not known, one for either side."""
    leaf = x.high - x.low
    for side, hinge, end in (("left", x.low, x.high), ("right", x.high, x.low)):
        if opening.hinge not in (None, side):
            continue
        at, closed = put(Solid(Span(hinge, hinge), Span(0, 0), z)), put(Solid(Span(end, end), Span(0, 0), z))
        opened = put(Solid(Span(hinge, hinge), Span(leaf, leaf), z))
        ways = [_way(at, closed), _way(at, opened)]
        name = f"{opening.id}-leaf" + ("" if opening.hinge else f"-{side}")
        yield Thing(name, "door leaf", at, leaf=leaf, closed_towards=ways[0], opens_towards=ways[1], on_wall=on_wall)


def _way(hinge: Solid, end: Solid) -> Direction | None:
    """Direction from the hinge to an end of the leaf, along the nearer axis."""
    if hinge.x is None or hinge.y is None or end.x is None or end.y is None:
        return None
    dx, dy = end.x.low - hinge.x.low, end.y.low - hinge.y.low
    if dx * dx >= dy * dy:
        return "plus x" if dx > 0 else "minus x"
    return "plus y" if dy > 0 else "minus y"


def _obstacle(obstacle: Obstacle, put: Put, volts: Value | None, *, on_wall: bool) -> Thing:
    left, bottom = exact(obstacle.left), exact(obstacle.bottom)
    x, z = Span(left, left + exact(obstacle.width)), Span(bottom, bottom + exact(obstacle.height))
    depth = None if obstacle.depth is None else Span(0, exact(obstacle.depth))
    solid = put(Solid(x, depth or Span(0, 0), z))
    if depth is None:
        solid = solid._replace(y=None)
    own = True if is_chosen_inverter(obstacle) else None
    new = obstacle.state == "new"
    kind = _THINGS[obstacle.kind]
    return Thing(obstacle.id, kind, solid, part_of_system=own, on_wall=on_wall, new=new, volts=volts)


def is_chosen_inverter(obstacle: Obstacle) -> bool:
    """True for an inverter that this job puts up: it is the one whose data sheet was chosen."""
    return obstacle.kind == "inverter" and obstacle.state == "new"


def _chosen(seen: Surveyed, thing: Thing) -> Thing:
    """The chosen inverter with what its data sheet says."""
    if seen.inverter is None:
        return thing
    volts = thing.volts
    if volts is None or volts.missing:
        volts = seen.inverter.fact("electrical.volts_to_ground", "V_ground", "V")
    return thing._replace(maker=maker(seen.inverter), volts=volts)


def _lines(seen: Surveyed) -> Iterator[Thing]:
    """The opposite face, the strip behind the vehicle door, the flood level."""
    wall, conditions = seen.wall, seen.job.content.conditions
    if wall.facing is not None:
        yield Thing("opposite-face", "opposite face", Solid(y=Span(exact(wall.facing), _FAR)))
    if wall.vehicle_path is not None:
        strip = Span(exact(wall.vehicle_path.left), exact(wall.vehicle_path.right))
        high = wall.vehicle_path.clear_height
        clear = None if high is None else exact(high)
        yield Thing("driving-path", "garage door projection", Solid(x=strip), clear_height=clear)
    if conditions.flood_elevation is not None:
        level = exact(conditions.flood_elevation)
        yield Thing("flood-level", "base flood level", Solid(z=Span(level, level)))


def _marks(seen: Surveyed, own: Frame) -> Iterator[Thing]:
    """Gas vents and meters of the plot, for a wall outdoors."""
    for mark in seen.job.content.land.marks:
        if mark.kind in ("gas regulator vent", "gas meter"):
            x, y = own.here((float(mark.at[0].number * TENTHS), float(mark.at[1].number * TENTHS)))
            z = None if mark.height is None else Span(exact(mark.height), exact(mark.height))
            kind: ThingKind = "gas meter" if mark.kind == "gas meter" else "gas regulator vent"
            yield Thing(mark.id, kind, Solid(Span(round(x), round(x)), Span(round(y), round(y)), z), on_wall=False)
