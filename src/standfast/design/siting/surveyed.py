"""A wall of the job as a layout: the facts of the survey and of the data sheet that the rules of siting ask for."""

from collections.abc import Iterator

from standfast.design.installation.build import SheetFile
from standfast.design.siting.frames import exact
from standfast.design.siting.instructions import screw_room
from standfast.design.siting.layout import (
    GARAGES,
    Facts,
    Layout,
    Maker,
    Place,
    Room,
    RoomKind,
    Studs,
    Unit,
)
from standfast.design.siting.solid import TENTHS, Solid, Span
from standfast.design.siting.things import Surveyed, things
from standfast.sheet import Value, chosen, missing

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
