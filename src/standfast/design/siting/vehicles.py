"""Vehicles: the driving path in a garage, and what stands between a vehicle and a unit."""

from collections.abc import Iterator

from standfast.design.siting.asking import RULES, Ask, provided, rule
from standfast.design.siting.layout import GARAGES, Layout, Room, Thing, Unit
from standfast.design.siting.openings import STRAIGHT
from standfast.design.siting.solid import clear_mm, gap, mm, tenths
from standfast.sheet import Check, Value, measured, not_applicable
from standfast.units import show

PROTECTION = "vehicle_protection"
_UNDERSIDE = "underside above the floor"


@rule("vehicle-path", "crc", "irc")
def vehicle_path(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Units on the end wall straight behind the vehicle door: above the path, or protected."""
    for unit, door in _end_wall(layout):
        title = f"Is {unit.name} above the driving path?"
        if layout.facts.garage_wall is None:
            yield ask.unknown(
                title, layout.facts.lacks("vehicle_path.wall", "whether the wall faces the vehicle door"), unit.id
            )
        elif _beside(unit, door) < ask.slack:
            yield provided(_above(ask, unit, path_height(ask, door, layout), title), PROTECTION)


@rule("low-door", "crc", "irc")
def low_door(ask: Ask, layout: Layout) -> Iterator[Check]:
    """The lower path behind a low vehicle door; it judges nothing by itself but lowers the path of its neighbours."""
    return iter(())


@rule("beside-vehicle-path", "crc", "irc")
def beside_vehicle_path(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Units on the end wall beside the path and lower than it: far enough aside, or protected."""
    limit = ask.distance("beside_vehicle_path", layout.facts.limits_in)
    for unit, door in _end_wall(layout):
        title = f"Is {unit.name} far enough beside the driving path?"
        if layout.facts.garage_wall is None:
            yield ask.unknown(
                title, layout.facts.lacks("vehicle_path.wall", "whether the wall faces the vehicle door"), unit.id
            )
            continue
        aside = _beside(unit, door)
        if aside >= ask.slack and _underside(unit) - ask.slack < tenths(path_height(ask, door, layout).quantity):
            yield provided(ask.clear(title, mm(aside), "gap along the wall", limit, unit.id), PROTECTION)


def _end_wall(layout: Layout) -> Iterator[tuple[Unit, Thing]]:
    if layout.facts.garage_wall == "side":
        return
    for unit in layout.units:
        for door in layout.kind("garage door projection"):
            yield unit, door


def _beside(unit: Unit, door: Thing) -> int:
    return gap(unit.solid.x, door.solid.x) or 0


def _underside(unit: Unit) -> int:
    return unit.solid.z.low if unit.solid.z is not None else 0


def path_height(ask: Ask, door: Thing, layout: Layout) -> Value:
    """Height of the driving path: less behind a low door, where that exception is applied."""
    low = ask.beside.get("low-door")
    if low is not None and door.clear_height is not None:
        most = low.distance("low_door_height", layout.facts.limits_in)
        if mm(door.clear_height) <= most.quantity:
            return low.distance("low_door", layout.facts.limits_in)
    return ask.distance("vehicle_path", layout.facts.limits_in)


def _above(ask: Ask, unit: Unit, limit: Value, title: str) -> Check:
    return ask.clear(title, mm(_underside(unit)), _UNDERSIDE, limit, unit.id)


@rule("end-wall-height", "permitguide")
def end_wall_height(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Units on an end wall: high enough, or protected. A side wall, and a wall without vehicles, asks nothing."""
    limit = ask.distance("end_wall_height", layout.facts.limits_in)
    for unit in layout.units:
        title = f"Is {unit.name} high enough on the end wall?"
        if layout.facts.garage_wall is None and _without_vehicles(layout, unit):
            continue
        if layout.facts.garage_wall is None:
            yield ask.unknown(
                title, layout.facts.lacks("vehicle_path.wall", "whether the wall faces the vehicle door"), unit.id
            )
        elif layout.facts.garage_wall == "back":
            yield provided(_above(ask, unit, limit, title), PROTECTION)


@rule("vehicle-damage", "irc", "nfpa855")
def vehicle_damage(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Units that a vehicle can hit are behind a barrier. Which those are is for the rules of the driving path."""
    if layout.room is None:
        return
    reading = [each for id in _PATH_RULES if id in ask.beside for each in RULES[id].judge(ask.beside[id], layout)]
    for unit in layout.units:
        title = f"Is {unit.name} protected from vehicles?"
        hit = [each for each in reading if each.condition == PROTECTION and f"/{unit.id}" in each.id]
        unknown = [each for each in reading if each.verdict == "cannot tell" and f"/{unit.id}" in each.id]
        check = _protected(ask, layout, layout.room, unit, title, hit, unknown)
        if check.verdict == "pass" and not hit:
            yield _as_read(ask, layout, unit, check)
        else:
            yield check


def _without_vehicles(layout: Layout, unit: Unit) -> bool:
    """True where a job says that no vehicle can reach the wall, or the unit stands in no garage."""
    return layout.room is not None and (layout.room.vehicles is False or unit.place not in GARAGES)


_PATH_RULES = ("vehicle-path", "beside-vehicle-path", "end-wall-height")
"""Rules that say which units a vehicle can hit; the local ones and the guideline, as far as they are in force."""


def _protected(
    ask: Ask, layout: Layout, room: Room, unit: Unit, title: str, hit: list[Check], unknown: list[Check]
) -> Check:
    if room.vehicles is False:
        return not_applicable(ask.id(unit.id), title, ask.clause, "no vehicle can reach this wall")
    if room.vehicles is None:
        need = layout.facts.lacks("vehicles", "false where no vehicle can reach this wall, or its vehicle_path")
        return ask.unknown(title, need, unit.id)
    if hit:
        if room.protection.missing:
            return ask.unknown(title, room.protection.how, unit.id)
        if room.protection.word == "none":
            return ask.fails(title, f"a vehicle can hit it ({hit[0].clause}) and nothing protects it", unit.id)
        return ask.passes(title, unit.id, condition=PROTECTION, reason=f"protected by a {room.protection.word}")
    if unknown:
        return ask.unknown(title, unknown[0].reason, unit.id)
    return ask.passes(title, unit.id, reason="it stands where the rules of the driving path ask for no protection")


def _as_read(ask: Ask, layout: Layout, unit: Unit, check: Check) -> Check:
    """A unit that no rule of the driving path asks to protect: with what was surveyed, and by whose reading.

    The clause itself may say no more than *subject to vehicle damage*. Which units that is, another text says; where
    none in force does, nobody can tell but the authority.
    """
    readers = [ask.beside[id].clause for id in _PATH_RULES if id in ask.beside]
    if not readers:
        return ask.unknown(
            check.title, "which units a vehicle can hit: no rule in force says it, the authority does", unit.id
        )
    own = any(each.book == ask.clause.book for each in readers)
    reading = (
        ""
        if own
        else f"the authority reads it as {readers[0]} does, since {ask.clause} does not say what a vehicle can hit"
    )
    return check._replace(demand=_surveyed(layout, unit), condition=reading)


def _surveyed(layout: Layout, unit: Unit) -> Value:
    """How high the unit is above the floor, and what the survey says of its wall."""
    walls = {"back": "the wall faces the vehicle door", "side": "the wall runs beside the vehicle"}
    said = [walls[layout.facts.garage_wall]] if layout.facts.garage_wall is not None else []
    for door in layout.kind("garage door projection"):
        if layout.facts.garage_wall == "back" and unit.solid.x is not None:
            said.append(f"{show(mm(_beside(unit, door)), 'mm')} along the wall from the driving path")
    return measured("z_unit", mm(_underside(unit)), "mm", "; ".join([_UNDERSIDE, *said]))


@rule("wheel-stop", "crc", "irc")
def wheel_stop(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Clear distance from each wheel stop to each unit."""
    yield from _guards(ask, layout, layout.kind("wheel stop"), "wheel_stop")


@rule("bollard", "crc", "irc")
def bollard(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Clear distance from each bollard to each unit."""
    yield from _guards(ask, layout, layout.kind("bollard"), "bollard")


def _guards(ask: Ask, layout: Layout, guards: list[Thing], key: str) -> Iterator[Check]:
    limit = ask.distance(key, layout.facts.limits_in)
    for unit in layout.units:
        for guard in guards:
            title = f"Is {guard.name} far enough from {unit.name}?"
            yield ask.clear(title, clear_mm(unit.solid, guard.solid), STRAIGHT, limit, unit.id, guard.id)
