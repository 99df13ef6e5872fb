"""Things round a unit that a distance keeps away: gas, flammables, water, door leaves, boundaries."""

import math
from collections.abc import Iterator

from standfast.design.siting.asking import Ask, rule
from standfast.design.siting.layout import GARAGES, Direction, Layout, Thing, Unit
from standfast.design.siting.openings import STRAIGHT
from standfast.design.siting.solid import TENTHS, Solid, Span, clear_mm, gap, mm
from standfast.faults import BadFormula
from standfast.sheet import Check, cannot_tell, measured, not_applicable, work

_SQUARE = "square to it"
_UNDERSIDE = "underside above the floor"


@rule("gas-relief-vent", "nfpa54")
def gas_relief_vent(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Relief vents of gas regulators: radial."""
    yield from _radial(ask, layout, layout.kind("gas regulator vent"))


@rule("gas-cylinder", "as1596")
def gas_cylinder(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Gas cylinders that are exchanged: radial."""
    for thing in layout.kind("gas cylinder"):
        if thing.filling is None:
            yield ask.unknown(f"Is {thing.name} far enough?", f"how {thing.name} is filled", thing.id)
    yield from _radial(ask, layout, [each for each in layout.kind("gas cylinder") if each.filling == "exchange"])


@rule("flammables", "pas63100")
def flammables(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Stored flammables, fuel tanks and gas cylinders: radial."""
    yield from _radial(ask, layout, layout.kind("gas cylinder", "fuel store"))


def _radial(ask: Ask, layout: Layout, things: list[Thing]) -> Iterator[Check]:
    limit = ask.distance(ask.rule.replace("-", "_"), layout.facts.limits_in)
    for unit in layout.units:
        for thing in things:
            title = f"Is {unit.name} far enough from {thing.name}?"
            yield ask.clear(title, clear_mm(unit.solid, thing.solid), STRAIGHT, limit, unit.id, thing.id)


@rule("ignition-height", "crc", "irc")
def ignition_height(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Height above a garage floor, where the authority takes the system for an appliance with an ignition source.

    Whether it does is disputed. A unit that is high enough stands under both readings; a lower one hangs on the answer
    of the authority, and where nobody asked it cannot be told.
    """
    applied = layout.facts.m1307_3_applied
    if layout.room is None and not applied:
        return
    limit = ask.distance("ignition_height", layout.facts.limits_in)
    for unit in layout.units:
        if unit.solid.z is not None and unit.place in (None, *GARAGES):
            title = f"Is {unit.name} high enough above the garage floor?"
            check = ask.clear(title, mm(unit.solid.z.low), _UNDERSIDE, limit, unit.id)
            yield check if applied or check.verdict == "pass" else _as_answered(ask, layout, check)


def _as_answered(ask: Ask, layout: Layout, check: Check) -> Check:
    """A unit that is lower, where the authority did not say that it asks for the height."""
    answer = None if layout.room is None else layout.room.accepted.get(IGNITION)
    if answer is None:
        reason = f"acceptances: {_DISPUTED}: ask the authority, and write its answer as [[acceptances]] {IGNITION!r}"
        there = [] if check.demand is None else [check.demand]
        return cannot_tell(check.id, check.title, ask.clause, reason, *there)
    if answer.missing:
        return cannot_tell(check.id, check.title, ask.clause, answer.how, answer)
    return not_applicable(check.id, check.title, ask.clause, f"the authority accepts it lower ({answer.how})")


IGNITION = "ignition height"
_DISPUTED = "whether storage counts as an appliance with an ignition source is disputed"


@rule("flood-level", "crc", "irc")
def flood_level(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Height above the base flood level."""
    for unit in layout.units:
        title = f"Is {unit.name} above the flood level?"
        if layout.facts.flood_hazard_area is None:
            yield ask.unknown(
                title, "conditions.flood_hazard_area: whether the place is in a flood hazard area", unit.id
            )
        elif layout.facts.flood_hazard_area:
            yield from _over_flood(ask, layout, unit, title)


def _over_flood(ask: Ask, layout: Layout, unit: Unit, title: str) -> Iterator[Check]:
    levels = [each.solid.z for each in layout.kind("base flood level") if each.solid.z is not None]
    if not levels or unit.solid.z is None:
        yield ask.unknown(title, "conditions.flood_elevation: the base flood elevation", unit.id)
        return
    level = measured("z_flood", mm(max(each.high for each in levels)), "mm", "level above the floor")
    freeboard = ask.distance("flood_level", layout.facts.limits_in)
    limit = work("z_least", "z_flood + freeboard", "mm", ask.clause, level, freeboard=freeboard)
    yield ask.clear(title, mm(unit.solid.z.low), _UNDERSIDE, limit, unit.id)


@rule("repurposed-battery", "crc", "irc")
def repurposed_battery(ask: Ask, layout: Layout) -> Iterator[Check]:
    """An unlisted battery from a vehicle: approved, outdoors or in a detached shed, and square distances from it."""
    for unit in layout.units:
        title = f"May {unit.name}, unlisted, stand there?"
        if layout.facts.battery is None:
            yield ask.unknown(title, f"whether {unit.name} is listed", unit.id)
        elif layout.facts.battery == "unlisted repurposed vehicle":
            yield from _unlisted(ask, layout, unit, title)


def _unlisted(ask: Ask, layout: Layout, unit: Unit, title: str) -> Iterator[Check]:
    if layout.facts.authority_approved is None:
        yield ask.unknown(title, "whether the authority approved it", unit.id)
    elif not layout.facts.authority_approved:
        yield ask.fails(title, "the authority has not approved it", unit.id)
    elif unit.place is not None and unit.place not in ask.words("repurposed_battery_places"):
        yield ask.fails(title, f"it stands in: {unit.place}", unit.id)
    else:
        limit = ask.distance("repurposed_battery", layout.facts.limits_in)
        bodies = [shed.solid for shed in layout.kind("shed")] or [unit.solid]
        for body in bodies:
            for thing in layout.kind("house wall", "property line", "public way"):
                title = f"Is it far enough from {thing.name}?"
                yield ask.clear(title, mm(_square_to(body, thing.solid)), _SQUARE, limit, unit.id, thing.id)


def _square_to(body: Solid, line: Solid) -> int:
    """Distance square to a line; of a box, to the nearer of its faces that look at the body."""
    across, out = gap(body.x, line.x) or 0, gap(body.y, line.y) or 0
    if _thin(line.x) and not _thin(line.y):
        return max(across, 0)
    if _thin(line.y) and not _thin(line.x):
        return max(out, 0)
    return max(across, out, 0)


def _thin(span: Span | None) -> bool:
    return span is not None and span.low == span.high


@rule("door-swing", "practice")
def door_swing(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Door leaves: the quarter disc between closed and open."""
    for unit in layout.units:
        for door in layout.kind("door leaf"):
            title = f"Is {unit.name} clear of the leaf of {door.name}?"
            if door.leaf is None or door.closed_towards is None or door.opens_towards is None:
                yield ask.unknown(title, door.lacks("swings", f"width and swing of {door.id}"), unit.id, door.id)
                continue
            nearest = _nearest_in_swing(unit, door, door.closed_towards, door.opens_towards)
            if nearest is not None:
                leaf = measured("leaf", mm(door.leaf), "mm", "width of the leaf")
                how = "from the hinge to the nearest point of the unit in the quarter"
                yield ask.clear(title, nearest, how, leaf, unit.id, door.id)


def _nearest_in_swing(unit: Unit, door: Thing, closed: Direction, opened: Direction) -> float | None:
    """Distance in mm from the hinge to the part of the unit in the quarter of the leaf; None where none is in it."""
    if closed[-1] == opened[-1]:
        raise BadFormula(f"{door.id} closes and opens along one axis: {closed}, {opened}")
    over = gap(unit.solid.z, door.solid.z)
    if over is not None and over >= 0:
        return None
    ways = {way[-1]: way.startswith("plus") for way in (closed, opened)}
    nearest = []
    for axis in ("x", "y"):
        body, hinge = (unit.solid.x, door.solid.x) if axis == "x" else (unit.solid.y, door.solid.y)
        if body is None or hinge is None:
            return None
        near, far = (
            (body.low - hinge.low, body.high - hinge.low)
            if ways[axis]
            else (hinge.low - body.high, hinge.low - body.low)
        )
        if far <= 0:
            return None
        nearest.append(max(near, 0))
    return math.hypot(*nearest) / TENTHS
