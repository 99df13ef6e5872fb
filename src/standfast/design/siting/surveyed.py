"""A wall of the job as a layout: everything on it and before it, in the frame of that wall.

Things on other faces of the same room, or outdoors, are moved into the frame of the wall by the ends of both in plan.
Where two walls do not stand square, a thing becomes the smallest box of this frame round it, which is never farther
away than the thing itself.
"""

import math
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import NamedTuple

from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.siting.instructions import screw_room
from standfast.design.siting.layout import (
    GARAGES,
    Beyond,
    Direction,
    Facts,
    Layout,
    Maker,
    Place,
    Room,
    RoomKind,
    Studs,
    Thing,
    ThingKind,
    Unit,
)
from standfast.design.siting.solid import TENTHS, Solid, Span
from standfast.sheet import Value, chosen, missing
from standfast.survey.house import Obstacle, Opening, Wall
from standfast.survey.house import Room as SurveyedRoom
from standfast.units import Quantity

OUTSIDE = "outside"
_FAR = 10**9
_PLACES: dict[str, Place] = {
    "attached garage": "attached garage", "detached garage": "detached garage", "detached shed": "detached shed",
    "utility closet": "utility closet", "utility room": "utility room", "storage room": "storage room",
    "basement": "basement", "closet": "closet", "bedroom": "bedroom", "habitable room": "habitable room",
    "living room": "habitable room", "kitchen": "habitable room", "hall": "corridor", "bathroom": "bathroom",
    "laundry": "laundry", "roof space": "roof space", "outside": "exterior wall",
}  # fmt: skip
_BEYOND: dict[str, RoomKind] = {
    "bedroom": "bedroom",
    "hall": "hall",
    "attached garage": "attached garage",
    "outside": "outside",
}
_THINGS: dict[str, ThingKind] = {
    "panelboard": "panel", "disconnect": "disconnect", "meter": "meter", "inverter": "inverter",
    "socket outlet": "socket outlet", "light switch": "light switch", "junction box": "junction box",
    "water heater": "water heater", "heat pump": "heat pump", "air conditioner": "air conditioner",
    "appliance": "appliance", "gas meter": "gas meter", "gas regulator vent": "gas regulator vent", "gas pipe": "pipe",
    "water pipe": "pipe", "duct": "duct", "shelf": "shelf", "fuel store": "fuel store", "other": "other",
    "door": "door", "window": "window", "garage door": "door", "vent": "vent", "air brick": "air brick",
    "access hatch": "door",
}  # fmt: skip
FACING: dict[str, float] = {"bare": 1, "insulated wall": 1, "grounded wall": 2, "live parts": 3}
"""What faces the wall, as the condition of the table of working space."""
_HABITABLE = ("bedroom", "habitable room", "living room", "kitchen")


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


class Surveyed(NamedTuple):
    """A job and the sheet of its battery, seen from one wall."""

    job: JobFile
    sheet: SheetFile
    wall: Wall

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


def layout(seen: Surveyed, stud_edge: Value, screw: Value) -> Layout:
    """The wall of a job as a layout, without units.

    Args:
        seen: the job, the sheet of the battery and the wall.
        stud_edge: least distance of a screw from the edge of a stud, in diameters.
        screw: diameter of the screw, mm.
    """
    return Layout((), tuple(_things(seen)), _facts(seen), _room(seen, stud_edge, screw))


def unit(seen: Surveyed, id: str) -> Unit:
    """A battery unit that is not placed yet, with its width, depth and height from its sheet."""
    body, room = seen.sheet.content.body, seen.room(seen.wall.room)
    size = [0 if each is None else exact(each) for each in (body.width, body.depth, body.height)]
    beyond = seen.kind(room.opens_into) if room is not None and room.opens_into else None
    return Unit(
        id,
        Solid(None, Span(0, size[1]), Span(0, size[2])),
        size[0],
        seen.sheet.fact("energy.rated", "E_unit", "kWh"),
        _PLACES.get(seen.kind(seen.wall.room) or ""),
        _BEYOND.get(beyond or ""),
        _maker(seen.sheet),
    )


def _maker(sheet: SheetFile) -> Maker:
    fixing = sheet.content.fixing
    slot = 0 if fixing is None or fixing.slot is None else exact(fixing.slot) // 2
    listings = tuple(sorted({each.standard for each in sheet.content.listing}))
    place = sheet.place("listing")
    return Maker(
        {
            side: sheet.fact(f"clearances.{side}", f"c_{side}", "mm")
            for side in ("left", "right", "above", "below", "front")
        },
        sheet.fact("clearances.floor_min", "y_least", "mm"),
        sheet.fact("clearances.floor_max", "y_greatest", "mm"),
        sheet.fact("body.switch_height", "y_switch", "mm"),
        Value("listings", listings, "", "given", place)
        if listings
        else missing("listings", "", f"{place}: no listing"),
        sheet.fact("environment.temperature_min", "T_min", "°C"),
        sheet.fact("environment.temperature_max", "T_max", "°C"),
        sheet.fact("environment.place", "place"),
        sheet.fact("energy.chemistry", "chemistry"),
        tuple((exact(x), exact(y)) for x, y in fixing.holes) if fixing is not None else (),
        slot,
    )


def _facts(seen: Surveyed) -> Facts:
    wall, job = seen.wall, seen.job
    room, path = seen.room(wall.room), wall.vehicle_path
    ceiling = wall.height or (room.ceiling if room is not None else None)
    sides = {"end wall": "back", "side wall": "side"}
    side = sides.get(path.wall or "") if path is not None else None
    facing = FACING.get(wall.facing_is or "")
    kind = wall.build_up.kind
    return Facts(
        garage_wall="back" if side == "back" else "side" if side == "side" else None,
        garage_separated=room.separated if room is not None else None,
        room_lining=room.lining if room is not None else None,
        flood_hazard_area=job.content.conditions.flood_hazard_area,
        likely_worked_on_live=True,
        volts_to_ground=seen.sheet.fact("electrical.volts_to_ground", "V_ground", "V"),
        facing_condition=None
        if facing is None
        else chosen(
            "condition",
            facing,
            "1",
            f"what faces the wall: {wall.facing_is}",
            None,
            job.fact(f"{seen.path}.facing_is", "facing"),
        ),
        wall_build=kind,
        ceiling=None if ceiling is None else exact(ceiling),
        wall_from=0,
        wall_to=exact(wall.length),
        placing=job.fact("tolerances.placing", "t_placing", "mm") if job.has("tolerances.placing") else None,
    )


def _room(seen: Surveyed, stud_edge: Value, screw: Value) -> Room:
    job, wall, room = seen.job, seen.wall, f"rooms.{seen.wall.room}"
    indoors = seen.room(wall.room) is not None
    own_heat = indoors and job.has(f"{room}.ambient_high")
    hot = f"{room}.ambient_high" if own_heat else "conditions.temperature_high"
    wishes = job.content.wishes
    vehicles = True if wall.vehicle_path is not None else wall.vehicles
    if vehicles is None and not seen.outdoors and seen.kind(wall.room) not in GARAGES:
        vehicles = False
    protection = f"{seen.path}.vehicle_path.protection"
    none = missing("d_protection", "mm", f"{protection}_distance")
    return Room(
        job.fact(f"{room}.detection", "detection") if indoors else missing("detection", "", "detector of the place"),
        vehicles,
        job.fact(protection, "protection") if wall.vehicle_path is not None else missing("protection", "", protection),
        job.fact(f"{protection}_distance", "d_protection", "mm") if wall.vehicle_path is not None else none,
        job.fact(hot, "T_high", "°C"),
        job.fact("conditions.temperature_low", "T_low", "°C"),
        tuple(_stored(seen)),
        _studs(seen, stud_edge, screw),
        job.fact("wishes.handle_height", "h_wish", "mm") if wishes.handle_height is not None else None,
        job.fact("wishes.keep_clear", "w_wish", "mm") if wishes.keep_clear is not None else None,
    )


def _stored(seen: Surveyed) -> Iterator[tuple[Place, Value]]:
    """Other storage in every room where storage could be; unknown in the room of the unit, none where nobody said."""
    if seen.outdoors and seen.room(seen.wall.room) is None:
        need = f'rooms: write a room of kind "outside" for wall {seen.wall.id}, with its other_storage'
        yield "exterior wall", missing("E_other", "kWh", need)
    for room in seen.job.content.rooms:
        if room.kind in _PLACES and (room.id == seen.wall.room or room.other_storage is not None):
            yield _PLACES[room.kind], seen.job.fact(f"rooms.{room.id}.other_storage", "E_other", "kWh")


def _studs(seen: Surveyed, stud_edge: Value, screw: Value) -> Studs | None:
    build = seen.wall.build_up
    if build.first_stud is None or build.stud_spacing is None:
        return None
    first, step, end = exact(build.first_stud), build.stud_spacing.number * TENTHS, exact(seen.wall.length)
    back = first // step
    centres = tuple(round(first + number * step) for number in range(-int(back), int((end - first) / step) + 1))
    width = seen.job.fact(f"{seen.path}.build_up.stud_width", "b_stud", "mm")
    return Studs(centres, screw_room(width, screw, stud_edge))


def _things(seen: Surveyed) -> Iterator[Thing]:
    wall = seen.wall
    own = frame(wall)
    for opening in wall.openings:
        yield from _opening(seen, opening, lambda solid: solid, on_wall=True)
    for obstacle in wall.obstacles:
        volts = seen.job.fact(f"{seen.path}.obstacles.{obstacle.id}.volts_to_ground", "V_ground", "V")
        yield _obstacle(obstacle, lambda solid: solid, volts, on_wall=True)
    for other in seen.job.content.walls:
        there = frame(other)
        if other.id != wall.id and _same_room(seen, other) and own is not None and there is not None:
            yield from _other_wall(seen, other, own, there)
    yield from _lines(seen)
    if seen.outdoors and own is not None:
        yield from _marks(seen, own)


def _same_room(seen: Surveyed, other: Wall) -> bool:
    return other.room == seen.wall.room or (seen.outdoors and seen.kind(other.room) == OUTSIDE)


def _other_wall(seen: Surveyed, other: Wall, own: Frame, there: Frame) -> Iterator[Thing]:
    def put(solid: Solid) -> Solid:
        return moved(solid, there, own)

    for opening in other.openings:
        yield from _opening(seen, opening, put, on_wall=False)
    for obstacle in other.obstacles:
        yield _obstacle(obstacle, put, None, on_wall=False)


def not_in_plan(seen: Surveyed) -> list[str]:
    """Other faces of the room that hold something but cannot be put beside this wall, since one of both has no ends."""
    return [
        other.id
        for other in seen.job.content.walls
        if other.id != seen.wall.id
        and _same_room(seen, other)
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
    return Thing(obstacle.id, _THINGS[obstacle.kind], solid, on_wall=on_wall, new=obstacle.state == "new", volts=volts)


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
