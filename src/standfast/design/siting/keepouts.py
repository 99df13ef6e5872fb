"""Where a unit may not stand on a wall, rule by rule: the fast form of the rules that hang on its place.

The units of the layout stand already; those on other walls of the job count too.

A keep-out is a rectangle of the wall. The outline of the unit may not overlap it, or, where it has a reach, may not
come nearer than that by the true distance, so its corners are round. All of it is whole tenths, larger by the placing
tolerance already. Edges are free: a unit may stand exactly on a limit.
"""

import math
from collections.abc import Callable, Iterator
from typing import NamedTuple

from standfast.design.siting.asking import Ask
from standfast.design.siting.instructions import SIDES, to_sides
from standfast.design.siting.layout import OUTDOORS, SERVICED, Layout, Thing, Unit
from standfast.design.siting.openings import counts_or_unknown, spacing
from standfast.design.siting.solid import Solid, Span, gap, tenths
from standfast.design.siting.vehicles import path_height
from standfast.design.siting.wishes import in_the_way
from standfast.design.siting.working_space import blockers, dedicated, deep, serviced, tall, width_needed

END = 10**9
"""Farther than any wall, in tenths."""
ALL = Span(-END, END)


class Keepout(NamedTuple):
    """One rule's keep-out round one thing.

    Attributes:
        rule: the rule.
        thing: what it is about.
        x: along the wall.
        z: above the floor.
        reach2: square of the distance that the outline keeps from the rectangle; 0 where it may touch it.
    """

    rule: str
    thing: str
    x: Span
    z: Span
    reach2: int = 0

    def refuses(self, x: Span, z: Span) -> bool:
        """True where a unit of that outline would break the rule."""
        across = max(self.x.low - x.high, x.low - self.x.high)
        up = max(self.z.low - z.high, z.low - self.z.high)
        if not self.reach2:
            return across < 0 and up < 0
        return max(across, 0) ** 2 + max(up, 0) ** 2 < self.reach2

    @property
    def reach(self) -> int:
        """The least whole distance that is far enough."""
        root = math.isqrt(self.reach2)
        return root if root * root == self.reach2 else root + 1


def keepouts(asks: dict[str, Ask], layout: Layout, unit: Unit) -> list[Keepout]:
    """All keep-outs of a wall for a unit of a size, by the rules that are in force."""
    return [each for id, shape in SHAPES.items() if id in asks for each in shape(asks[id], layout, unit)]


Shape = Callable[[Ask, Layout, Unit], Iterator[Keepout]]


def standing(layout: Layout, unit: Unit) -> list[Unit]:
    """The other units that have a place."""
    return [each for each in layout.every if each.id != unit.id and each.solid.x is not None]


def _with_standing(layout: Layout, unit: Unit) -> Layout:
    """The wall with the other units of it that have a place."""
    return layout._replace(units=tuple(each for each in standing(layout, unit) if each in layout.units))


def _apart(ask: Ask, unit: Unit, thing: Thing | Unit, limit: int) -> Iterator[Keepout]:
    """A true distance; the part of it that lies out of the wall's plane is taken off first."""
    out = max(gap(unit.solid.y, thing.solid.y) or 0, 0)
    left = (limit + ask.slack) ** 2 - out * out
    if left > 0:
        yield Keepout(ask.rule, thing.id, thing.solid.x or ALL, thing.solid.z or ALL, left)


def _openings(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    if unit.place in (None, *OUTDOORS):
        limit = tenths(ask.distance("opening_clearance", layout.facts.limits_in).quantity)
        for thing in counts_or_unknown(ask, layout):
            yield from _apart(ask, unit, thing, limit)


def _gas(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    limit = tenths(ask.distance("gas_relief_vent", layout.facts.limits_in).quantity)
    for thing in layout.kind("gas regulator vent"):
        yield from _apart(ask, unit, thing, limit)


def _spacing(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    for other in standing(layout, unit):
        yield from _apart(ask, unit, other, tenths(spacing(ask, layout.facts).quantity))


def _below(ask: Ask, thing: str, height: int, x: Span = ALL) -> Keepout:
    """Everything lower than a height."""
    return Keepout(ask.rule, thing, x, Span(-END, height + ask.slack))


def _flood(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    if layout.facts.flood_hazard_area:
        freeboard = tenths(ask.distance("flood_level", layout.facts.limits_in).quantity)
        for level in layout.kind("base flood level"):
            if level.solid.z is not None:
                yield _below(ask, level.id, level.solid.z.high + freeboard)


def _end_wall(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    if layout.facts.garage_wall == "back" and _hit_counts(layout):
        yield _below(ask, "end wall", tenths(ask.distance("end_wall_height", layout.facts.limits_in).quantity))


def _path(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    yield from _strips(ask, layout, 0)


def _beside_path(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    yield from _strips(ask, layout, tenths(ask.distance("beside_vehicle_path", layout.facts.limits_in).quantity))


def _strips(ask: Ask, layout: Layout, aside: int) -> Iterator[Keepout]:
    if layout.facts.garage_wall == "back" and _hit_counts(layout):
        for door in layout.kind("garage door projection"):
            if door.solid.x is not None:
                strip = door.solid.x.grown(aside + ask.slack, aside + ask.slack)
                yield _below(ask, door.id, tenths(path_height(ask, door, layout).quantity), strip)


def _hit_counts(layout: Layout) -> bool:
    """True where nothing is known to protect the unit from vehicles."""
    return layout.room is None or layout.room.protection.missing or layout.room.protection.word == "none"


def _working_width(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    """The unit and what stands on the other side of a panel leave it the width that it needs."""
    for panel in serviced(layout):
        if panel.solid.x is None or panel.solid.y is None or unit.solid.y is None:
            continue
        if not panel.solid.y.high < unit.solid.y.high:
            continue
        need = tenths(width_needed(ask, panel.solid.x, layout).quantity) + ask.slack
        bodies = blockers(ask, _with_standing(layout, unit), panel)
        lefts = [each.high for each in bodies if each.high <= panel.solid.x.low]
        rights = [each.low for each in bodies if each.low >= panel.solid.x.high]
        lefts += [] if layout.facts.wall_from is None else [layout.facts.wall_from]
        rights += [] if layout.facts.wall_to is None else [layout.facts.wall_to]
        high = max([panel.solid.x.high, *([max(lefts) + need] if lefts else [])])
        low = min([panel.solid.x.low, *([min(rights) - need] if rights else [])])
        yield Keepout(ask.rule, panel.id, Span(low, high), Span(-END, tall(ask, panel)))
    yield from _round_the_corner(ask, layout, unit)


def _round_the_corner(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    """Before the equipment of a wall that meets this one, where it begins nearer to the corner than a unit is deep."""
    for panel in layout.kind(*SERVICED) if layout.room is not None else []:
        x, y, out = panel.solid.x, panel.solid.y, unit.solid.y
        if not panel.on_wall and x is not None and y is not None and out is not None and y.low < out.high:
            yield Keepout(ask.rule, panel.id, x.grown(deep(ask), deep(ask)), Span(-END, tall(ask, panel)))


def _unit_width(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    """Stretches between bodies that stand before the unit, where its own working space is too narrow."""
    need = max(tenths(ask.distance("working_width", layout.facts.limits_in).quantity), unit.width) + ask.slack
    bodies = sorted(blockers(ask, _with_standing(layout, unit), unit))
    for each in bodies:
        yield Keepout(ask.rule, "working space", each, ALL)
    at = layout.facts.wall_from
    for low, high in [*bodies, *([] if layout.facts.wall_to is None else [Span(layout.facts.wall_to, END)])]:
        if at is not None and at < low < at + need:
            yield Keepout(ask.rule, "working space", Span(at, low), ALL)
        at = high if at is None else max(at, high)


def _dedicated(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    for panel in layout.kind("panel"):
        space = dedicated(ask, panel)
        if space.x is not None and space.z is not None:
            yield _grown(ask, panel.id, space.x, space.z)


def _grown(ask: Ask, thing: str, x: Span, z: Span) -> Keepout:
    return Keepout(ask.rule, thing, x.grown(ask.slack, ask.slack), z.grown(ask.slack, ask.slack))


def _handle(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    if ask.rule == "handle-height":
        limit = ask.distance("handle_height", layout.facts.limits_in)
    elif layout.room is not None and layout.room.owner_reach is not None:
        limit = layout.room.owner_reach
    else:
        return
    if unit.maker is not None and not unit.maker.switch_height.missing:
        yield _over(ask, tenths(limit.quantity) - tenths(unit.maker.switch_height.quantity), unit)


def _over(ask: Ask, height: int, unit: Unit) -> Keepout:
    """Everything that would lift the lower edge over a height."""
    tall_unit = 0 if unit.solid.z is None else unit.solid.z.high - unit.solid.z.low
    return Keepout(ask.rule, "height", ALL, Span(height - ask.slack + tall_unit, END))


def _mounting(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    if unit.maker is None or unit.maker.stands:
        return
    if not unit.maker.least_height.missing:
        yield _below(ask, "floor", tenths(unit.maker.least_height.quantity))
    if not unit.maker.greatest_height.missing:
        yield _over(ask, tenths(unit.maker.greatest_height.quantity), unit)


def _overlap(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    for thing in in_the_way(layout, unit.solid):
        if thing.solid.x is not None and thing.solid.z is not None:
            yield _grown(ask, thing.id, thing.solid.x, thing.solid.z)
    for other in standing(layout, unit):
        if not other.beyond and other.solid.z is not None and _reaches(unit, other):
            yield _grown(ask, other.id, other.solid.x or ALL, other.solid.z)
    yield from _ends(ask, layout, dict.fromkeys(SIDES, 0))


def _reaches(unit: Unit, other: Unit) -> bool:
    """True where another unit reaches into the depth of one."""
    return other.solid.y is None or unit.solid.y is None or other.solid.y.low < unit.solid.y.high


def _ends(ask: Ask, layout: Layout, free: dict[str, int]) -> Iterator[Keepout]:
    """The ends of the wall, floor and ceiling, with the free space asked before each."""
    facts = layout.facts
    if facts.wall_from is not None:
        yield Keepout(ask.rule, "left end", Span(-END, facts.wall_from + free["left"] + ask.slack), ALL)
    if facts.wall_to is not None:
        yield Keepout(ask.rule, "right end", Span(facts.wall_to - free["right"] - ask.slack, END), ALL)
    if facts.ceiling is not None:
        yield Keepout(ask.rule, "ceiling", ALL, Span(facts.ceiling - free["above"] - ask.slack, END))
    if free["below"]:
        yield _below(ask, "floor", free["below"])


def _clearances(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    if unit.maker is None:
        return
    asked = unit.maker.clearances
    free = {side: 0 if asked[side].missing else tenths(asked[side].quantity) for side in SIDES}
    if unit.maker.stands:
        free["below"] = 0
    yield from _ends(ask, layout, free)
    between = unit.maker.between
    others = [each for each in standing(layout, unit) if not each.beyond]
    if between is not None:
        for other in others:
            yield from _apart(ask, unit, other, tenths(between.quantity))
    for body in (*layout.bodies, *(others if between is None else ())):
        front = to_sides(Solid(y=unit.solid.y), Solid(y=body.solid.y)).get("front")
        if front is None or front < free["front"] + ask.slack:
            yield _free(ask, body, free["right"], free["left"], free["above"], free["below"])
    for thing in layout.made:
        if isinstance(thing, Thing) and thing.maker is not None:
            own = {side: 0 if each.missing else tenths(each.quantity) for side, each in thing.maker.clearances.items()}
            yield _free(ask, thing, own["left"], own["right"], own["below"], own["above"])


def _free(ask: Ask, body: Thing | Unit, left: int, right: int, below: int, above: int) -> Keepout:
    """A body with so much free space round it."""
    x, z = body.solid.x or ALL, body.solid.z or ALL
    grown = x.grown(left + ask.slack, right + ask.slack)
    return Keepout(ask.rule, body.id, grown, z.grown(below + ask.slack, above + ask.slack))


def _doors(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    """The quarter disc of a leaf, cut at the depth of the unit."""
    for door in layout.kind("door leaf"):
        x, y, out = door.solid.x, door.solid.y, unit.solid.y
        if (
            x is None
            or y is None
            or out is None
            or door.leaf is None
            or not door.closed_towards
            or not door.opens_towards
        ):
            continue
        ways = {way[-1]: way.startswith("plus") for way in (door.closed_towards, door.opens_towards)}
        if len(ways) < 2:
            continue
        near, far = (out.low - y.low, out.high - y.low) if ways["y"] else (y.low - out.high, y.low - out.low)
        left = (door.leaf + ask.slack) ** 2 - max(near, 0) ** 2
        if far > 0 and left > 0:
            reach = Keepout("", "", ALL, ALL, left).reach
            swept = Span(x.low, x.low + reach) if ways["x"] else Span(x.low - reach, x.low)
            yield Keepout(ask.rule, door.id, swept, door.solid.z or ALL)


def _footing(ask: Ask, layout: Layout, unit: Unit) -> Iterator[Keepout]:
    """Beyond the ends of the pad of a standing unit."""
    footing = None if layout.room is None else layout.room.footing
    if unit.stands and footing is not None and footing.x is not None and footing.depth is not None:
        yield Keepout(ask.rule, "footing", Span(-END, footing.x.low + ask.slack), ALL)
        yield Keepout(ask.rule, "footing", Span(footing.x.high - ask.slack, END), ALL)


SHAPES: dict[str, Shape] = {
    "opening-clearance": _openings,
    "unit-spacing": _spacing,
    "gas-relief-vent": _gas,
    "flood-level": _flood,
    "vehicle-path": _path,
    "beside-vehicle-path": _beside_path,
    "end-wall-height": _end_wall,
    "working-width": _working_width,
    "unit-working-width": _unit_width,
    "dedicated-space": _dedicated,
    "handle-height": _handle,
    "owner-reach": _handle,
    "maker-clearance": _clearances,
    "mounting-height": _mounting,
    "on-its-footing": _footing,
    "overlap": _overlap,
    "door-swing": _doors,
}
"""Rule to the function that draws its keep-outs. A rule that is not here does not hang on the place on the wall."""
