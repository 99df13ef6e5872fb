"""A wall of the job as a layout: the facts of the survey and of the data sheet that the rules of siting ask for."""

from collections.abc import Iterator

from standfast.design.siting.frames import exact
from standfast.design.siting.instructions import screw_room
from standfast.design.siting.layout import (
    GARAGES,
    Facts,
    Footing,
    Layout,
    Place,
    Room,
    RoomKind,
    Studs,
    Unit,
)
from standfast.design.siting.makers import maker, tested_spacing
from standfast.design.siting.solid import TENTHS, Solid, Span
from standfast.design.siting.surroundings import IGNITION
from standfast.design.siting.things import Surveyed, things
from standfast.sheet import Value, chosen, measured, missing

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
FACING: dict[str, float] = {"bare": 1, "insulated wall": 1, "grounded wall": 2, "live parts": 3}
"""What faces the wall, as the condition of the table of working space."""


def layout(seen: Surveyed, stud_edge: Value, screw: Value) -> Layout:
    """The wall of a job as a layout, without units.

    Args:
        seen: the job, the sheet of the battery and the wall.
        stud_edge: least distance of a screw from the edge of a stud, in diameters.
        screw: diameter of the screw, mm.
    """
    return Layout((), tuple(things(seen)), _facts(seen), _room(seen, stud_edge, screw))


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
        place(seen),
        _BEYOND.get(beyond or ""),
        maker(seen.sheet),
    )


def place(seen: Surveyed) -> Place | None:
    """Where a unit at this wall is: outdoors one that stands is on the ground, one that hangs on the wall."""
    found = _PLACES.get(seen.kind(seen.wall.room) or "")
    stands = seen.sheet.content.body.hung is False
    return "outdoors ground" if found == "exterior wall" and stands else found


def _facts(seen: Surveyed) -> Facts:
    wall, job = seen.wall, seen.job
    room, path = seen.room(wall.room), wall.vehicle_path
    ceiling = wall.height or (room.ceiling if room is not None else None)
    sides = {"end wall": "back", "side wall": "side"}
    side = sides.get(path.wall or "") if path is not None else None
    facing = FACING.get(wall.facing_is or "")
    kind = wall.build_up.kind
    accepted = _accepted(seen).get(SPACING)
    return Facts(
        listed_spacing=tested_spacing(seen.sheet),
        spacing_test_accepted=None if accepted is None or accepted.missing else accepted.yes,
        m1307_3_applied=_ignition(seen),
        garage_wall="back" if side == "back" else "side" if side == "side" else None,
        garage_separated=room.separated if room is not None else None,
        room_lining=room.lining if room is not None else None,
        escape_route=room.escape_route if room is not None else None,
        fire_separation=room.fire_separation if room is not None else None,
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
        wall=seen.path,
        room=f"rooms.{wall.room}",
    )


def _room(seen: Surveyed, stud_edge: Value, screw: Value) -> Room:
    job, wall, room = seen.job, seen.wall, f"rooms.{seen.wall.room}"
    indoors = seen.room(wall.room) is not None
    hot, cold = (
        f"conditions.temperature_{end}"
        if not indoors or job.left_out(f"{room}.ambient_{end}")
        else f"{room}.ambient_{end}"
        for end in ("high", "low")
    )
    wishes = job.content.wishes
    vehicles = True if wall.vehicle_path is not None else wall.vehicles
    if vehicles is None and not seen.outdoors and seen.kind(wall.room) not in GARAGES:
        vehicles = False
    protection = f"{seen.path}.vehicle_path.protection"
    none = missing("d_protection", "mm", f"{protection}_distance")
    return Room(
        job.fact(f"{room}.detection", "detection")
        if indoors
        else missing("detection", "", f"{room}.detection: the detector of the place"),
        vehicles,
        job.fact(protection, "protection") if wall.vehicle_path is not None else missing("protection", "", protection),
        job.fact(f"{protection}_distance", "d_protection", "mm") if wall.vehicle_path is not None else none,
        job.fact(hot, "T_high", "°C"),
        job.fact(cold, "T_low", "°C"),
        tuple(_stored(seen)),
        _studs(seen, stud_edge, screw),
        job.fact("wishes.handle_height", "h_wish", "mm") if wishes.handle_height is not None else None,
        job.fact("wishes.keep_clear", "w_wish", "mm") if wishes.keep_clear is not None else None,
        _footing(seen),
        _accepted(seen),
        _unknown_studs(seen),
    )


def _footing(seen: Surveyed) -> Footing | None:
    footing = seen.wall.footing
    if footing is None:
        return None
    left, width = footing.left, footing.width
    stretch = None if left is None or width is None else Span(exact(left), exact(left) + exact(width))
    depth, top = (None if each is None else exact(each) for each in (footing.depth, footing.height))
    return Footing(stretch, depth, top)


SPACING = "unit spacing"


def _accepted(seen: Surveyed) -> dict[str, Value]:
    """The answers of the authority by what was asked; of several to one question the one that helps least."""
    found: dict[str, Value] = {}
    for each in seen.job.content.acceptances:
        answer = seen.job.fact(f"acceptances.{each.id}.accepted", "accepted")
        before = found.get(each.what)
        if before is None or answer.missing or not (before.missing or answer.yes):
            found[each.what] = answer
    return found


def _ignition(seen: Surveyed) -> bool | None:
    """Whether the authority asks for the height of ignition sources; None where it has not answered."""
    answer = _accepted(seen).get(IGNITION)
    return None if answer is None or answer.missing else not answer.yes


def _stored(seen: Surveyed) -> Iterator[tuple[Place, Value]]:
    """Other storage in every room of a kind in which storage can be limited, unknown where nobody said.

    What stands outdoors counts for the wall and for the ground, since a room does not say on which of them it is.
    """
    if seen.outdoors and seen.room(seen.wall.room) is None:
        need = f'rooms: write a room of kind "outside" for wall {seen.wall.id}, with its other_storage'
        unknown = missing("E_other", "kWh", need)
        yield "exterior wall", unknown
        yield "outdoors ground", unknown
    for room in seen.job.content.rooms:
        energy = seen.job.fact(f"rooms.{room.id}.other_storage", "E_other", "kWh")
        if room.kind in _PLACES:
            yield _PLACES[room.kind], energy
        if room.kind == "outside":
            yield "outdoors ground", energy


def _unknown_studs(seen: Surveyed) -> Value | None:
    asked = [seen.job.fact(f"{seen.path}.build_up.{word}", word, "mm") for word in ("first_stud", "stud_spacing")]
    where = measured("x_studs", 0.0, "mm", "from the first stud on", *asked)
    return where if where.missing else None


def _studs(seen: Surveyed, stud_edge: Value, screw: Value) -> Studs | None:
    build = seen.wall.build_up
    if build.first_stud is None or build.stud_spacing is None:
        return None
    first, step, end = exact(build.first_stud), build.stud_spacing.number * TENTHS, exact(seen.wall.length)
    back = first // step
    centres = tuple(round(first + number * step) for number in range(-int(back), int((end - first) / step) + 1))
    width = seen.job.fact(f"{seen.path}.build_up.stud_width", "b_stud", "mm")
    return Studs(centres, screw_room(width, screw, stud_edge))
