"""What the maker's instructions ask: free space, height, temperature, place, wall."""

from collections.abc import Iterator

from standfast.design.siting.asking import Ask, rule
from standfast.design.siting.layout import OUTDOORS, Facts, Footing, Layout, Maker, Thing, Unit
from standfast.design.siting.openings import STRAIGHT, pairs
from standfast.design.siting.solid import Solid, clear_mm, mm, tenths
from standfast.sheet import Check, Value, at_least, at_most, chosen, measured, work

_KEY, _BOOKS = "makers_instructions", ("irc", "nfpa855", "practice")
SIDES = ("left", "right", "above", "below", "front")


@rule("maker-clearance", *_BOOKS, key=_KEY)
def maker_clearance(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Free space round each unit: to bodies, to the ends of the wall, to floor, ceiling and the opposite face."""
    for unit in layout.made:
        if unit.maker is None or unit.solid.x is None or unit.solid.y is None or unit.solid.z is None:
            continue
        asked = unit.maker.clearances
        sides = SIDES if not unit.maker.stands else tuple(side for side in SIDES if side != "below")
        for side in sides:
            if asked[side].missing:
                yield ask.unknown(f"Is there free space at {unit.name} ({side})?", asked[side].how, unit.id, side)
        for side, free in _to_edges(unit, layout).items():
            on_floor = side == "below" and not asked[side].missing and not asked[side].quantity
            if side in sides and not asked[side].missing and not on_floor:
                title = f"Is there free space at {unit.name} ({side})?"
                yield ask.clear(title, mm(free), _EDGES[side], asked[side], unit.id, side)
        for body in _round(layout, unit):
            yield from (_untold(ask, unit, body, check) for check in _to_body(ask, unit, body, unit.maker))
    for one, other in _between(layout):
        title = f"Is there as much space between {one.name} and {other.name} as their maker asks?"
        if one.maker is not None and one.maker.between is not None:
            yield ask.clear(title, clear_mm(one.solid, other.solid), STRAIGHT, one.maker.between, one.id, other.id)


def _round(layout: Layout, unit: Unit | Thing) -> list[Unit | Thing]:
    """What takes room round a unit or an inverter; not other units where their maker states a space between units."""
    bodies: list[Unit | Thing] = [each for each in layout.bodies if each.id != unit.id]
    own = isinstance(unit, Unit) and unit.maker is not None and unit.maker.between is not None
    units = [] if own else [*layout.units, *layout.near]
    return bodies + [each for each in units if each.id != unit.id and _placed(each)]


def _untold(ask: Ask, unit: Unit | Thing, body: Unit | Thing, check: Check) -> Check:
    """Beside another unit its free space is not all that counts, where the maker's space between units is not known."""
    need = unit.maker.unsaid.get("between_units") if unit.maker is not None else None
    if check.verdict != "pass" or need is None or not (isinstance(unit, Unit) and isinstance(body, Unit)):
        return check
    return ask.unknown(check.title, need, unit.id, body.id)


def _placed(unit: Unit) -> bool:
    return unit.solid.x is not None and unit.solid.y is not None


def _between(layout: Layout) -> Iterator[tuple[Unit, Unit]]:
    """Pairs of units of one room; those whose walls are not placed in plan are told of elsewhere."""
    return ((one, other) for one, other in pairs(layout) if _placed(one) and _placed(other) and not other.beyond)


_EDGES = {
    "left": "to the left end of the wall",
    "right": "to the right end of the wall",
    "above": "to the ceiling",
    "below": "to the floor",
    "front": "to the opposite face",
}


def _to_edges(unit: Unit | Thing, layout: Layout) -> dict[str, int]:
    (x, y, z), facts = unit.solid, layout.facts
    found: dict[str, int] = {}
    if x is None or y is None or z is None:
        return {}
    if facts.wall_from is not None and facts.wall_to is not None:
        found |= {"left": x.low - facts.wall_from, "right": facts.wall_to - x.high}
    if facts.ceiling is not None:
        found["above"] = facts.ceiling - z.high
    found["below"] = z.low
    faces = [each.solid.y.low for each in layout.kind("opposite face") if each.solid.y is not None]
    if faces:
        found["front"] = min(faces) - y.high
    return found


def _to_body(ask: Ask, unit: Unit | Thing, body: Unit | Thing, maker: Maker) -> Iterator[Check]:
    """The side on which a body is furthest beyond the space that is asked there."""
    sides = {side: gap for side, gap in to_sides(unit.solid, body.solid).items() if not maker.clearances[side].missing}
    if not sides:
        return
    side = max(sides, key=lambda each: (sides[each] - tenths(maker.clearances[each].quantity), -SIDES.index(each)))
    title = f"Is {body.name} outside the free space of {unit.name}?"
    yield ask.clear(title, mm(sides[side]), f"on the side: {side}", maker.clearances[side], unit.id, body.id)


def to_sides(unit: Solid, body: Solid) -> dict[str, int]:
    """Gap from each side of a unit to a body, tenths; below zero where the body begins before the side ends."""
    found: dict[str, int] = {}
    if unit.x is not None and body.x is not None:
        found |= {"left": unit.x.low - body.x.high, "right": body.x.low - unit.x.high}
    if unit.z is not None and body.z is not None:
        found |= {"above": body.z.low - unit.z.high, "below": unit.z.low - body.z.high}
    if unit.y is not None and body.y is not None:
        found["front"] = body.y.low - unit.y.high
    return found


@rule("mounting-height", *_BOOKS, key=_KEY)
def mounting_height(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Height of the lower edge between the maker's least and greatest; a limit that the sheet leaves out asks nothing.

    A unit that stands on the floor is not asked.
    """
    for unit in layout.made:
        if unit.maker is None or unit.maker.stands or unit.solid.z is None:
            continue
        title = f"Is {unit.name} at a height that its maker allows?"
        least, greatest = unit.maker.least_height, unit.maker.greatest_height
        if not least.missing:
            yield ask.clear(title, mm(unit.solid.z.low), "lower edge above the floor", least, unit.id, "least")
        elif "floor_min" in unit.maker.unsaid:
            yield ask.unknown(title, unit.maker.unsaid["floor_min"], unit.id, "least")
        if "floor_max" in unit.maker.unsaid:
            yield ask.unknown(title, unit.maker.unsaid["floor_max"], unit.id, "greatest")
        if not greatest.missing:
            there = measured("y_bottom", mm(unit.solid.z.low), "mm", "lower edge above the floor")
            if ask.placing is not None:
                high = mm(unit.solid.z.low + ask.slack)
                there = measured("y_greatest", high, "mm", "with the placing tolerance", there, ask.placing)
            yield at_most(ask.id(unit.id, "greatest"), title, ask.clause, there, greatest)


@rule("temperature", *_BOOKS, key=_KEY)
def temperature(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Temperatures of the place within those of the unit."""
    if layout.room is None:
        return
    for unit in layout.made:
        if unit.maker is not None:
            hot, cold = f"Is the place of {unit.name} cool enough?", f"Is the place of {unit.name} warm enough?"
            yield at_most(ask.id(unit.id, "high"), hot, ask.clause, layout.room.hottest, unit.maker.hottest)
            yield at_least(ask.id(unit.id, "low"), cold, ask.clause, layout.room.coldest, unit.maker.coldest)


@rule("weather", *_BOOKS, key=_KEY)
def weather(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Indoors or outdoors as the maker allows."""
    for unit in layout.units:
        if unit.maker is None or unit.place is None:
            continue
        title = f"Is {unit.name} made for indoors or outdoors, as it stands?"
        where = "outdoors" if unit.place in OUTDOORS else "indoors"
        if unit.maker.place.missing:
            yield ask.unknown(title, unit.maker.place.how, unit.id)
        elif where in unit.maker.place.word:
            yield ask.passes(title, unit.id, seen=unit.maker.place)
        else:
            yield ask.fails(title, f"it stands {where}, its maker says: {unit.maker.place.word}", unit.id)


@rule("studs", *_BOOKS, key=_KEY)
def studs(ask: Ask, layout: Layout) -> Iterator[Check]:
    """In a framed wall every column of holes lands on a stud. The screws follow the stud that is found on site."""
    if layout.facts.wall_build not in FRAMES:
        return
    for unit in layout.units:
        if unit.maker is None or unit.solid.x is None or not unit.maker.holes:
            continue
        title = f"Do the holes of {unit.name} land on studs?"
        frame = None if layout.room is None else layout.room.studs
        if frame is None:
            where = None if layout.room is None else layout.room.unknown_studs
            yield ask.unknown(title, "where the studs are" if where is None else where.how, unit.id)
            continue
        off = max(off_centre(unit.solid.x.low + column, frame.centres) for column in unit.maker.columns)
        there = measured(
            "x_off", mm(max(0, off - unit.maker.slot)), "mm", "from the middle of the nearest stud, in the slot"
        )
        yield at_most(ask.id(unit.id), title, ask.clause, there, frame.off_centre)


@rule("on-its-footing", "practice", key="standing")
def on_its_footing(ask: Ask, layout: Layout) -> Iterator[Check]:
    """The whole foot of a standing unit rests on its slab or pad."""
    if layout.room is None:
        return
    nothing = chosen("d_over", 0.0, "mm", "the foot may reach to the edge", ask.clause)
    for unit in layout.units:
        if unit.stands and unit.solid.x is not None and unit.solid.y is not None:
            yield from _on_footing(ask, layout.facts, layout.room.footing, unit, nothing)


def _on_footing(ask: Ask, facts: Facts, footing: Footing | None, unit: Unit, nothing: Value) -> Iterator[Check]:
    title = f"Does {unit.name} stand wholly on its footing?"
    (x, y, _) = unit.solid
    if footing is None or x is None or y is None:
        yield ask.unknown(title, facts.lacks("footing", "what the unit stands on"), unit.id)
        return
    if footing.top is None:
        yield ask.unknown(title, facts.lacks("footing.height", "height of its top above the floor or grade"), unit.id)
    if footing.depth is None:
        yield ask.unknown(title, facts.lacks("footing.depth", "how far it reaches out from the wall"), unit.id, "front")
    else:
        how = "from the foot to the edge of the footing"
        yield ask.clear(f"{title} (front)", mm(footing.depth - y.high), how, nothing, unit.id, "front")
        if footing.x is not None:
            ends = {"left": x.low - footing.x.low, "right": footing.x.high - x.high}
            for side, free in ends.items():
                yield ask.clear(f"{title} ({side})", mm(free), how, nothing, unit.id, side)


FRAMES = ("timber frame", "steel studs")


def off_centre(x: int, centres: tuple[int, ...]) -> int:
    """Distance of a line from the middle of the nearest stud, tenths."""
    return min(max(x - each, each - x) for each in centres)


def screw_room(stud_width: Value, diameter: Value, edge: Value) -> Value:
    """How far a screw may sit off the middle of a stud, mm.

    Args:
        stud_width: across the face, mm.
        diameter: of the screw, mm.
        edge: least distance from the edge of the wood, in diameters.
    """
    return work("x_off_max", "max(0, b_stud / 2 - n_D * D)", "mm", edge.clause, b_stud=stud_width, n_D=edge, D=diameter)
