"""What nobody's code asks but everybody does: things do not overlap, and what the owner wants."""

from collections.abc import Iterator
from itertools import combinations

from standfast.design.siting.asking import Ask, rule
from standfast.design.siting.layout import BODIES, OPENINGS, Facts, Layout, Thing, Unit
from standfast.design.siting.solid import Solid, gap, mm
from standfast.design.siting.working_space import reach
from standfast.sheet import Check, Value, chosen


@rule("overlap", "practice", key="clear_of_things")
def overlap(ask: Ask, layout: Layout) -> Iterator[Check]:
    """No unit overlaps a thing or an opening of its wall, or leaves the wall; no new thing of it overlaps another."""
    if layout.room is None:
        return
    nothing = chosen("d_touch", 0.0, "mm", "things may touch", ask.clause)
    for unit in layout.units:
        if unit.solid.x is None or unit.solid.z is None:
            continue
        for thing in in_the_way(layout, unit.solid):
            yield _beside(ask, unit, thing, nothing)
        for other in layout.near:
            yield from _round_the_corner(ask, unit, other, nothing)
        facts = layout.facts
        for side, free_to in (
            ("left", None if facts.wall_from is None else unit.solid.x.low - facts.wall_from),
            ("right", None if facts.wall_to is None else facts.wall_to - unit.solid.x.high),
            ("top", None if facts.ceiling is None else facts.ceiling - unit.solid.z.high),
        ):
            title = f"Is {unit.name} wholly on the wall ({side})?"
            if free_to is None:
                yield ask.unknown(title, _end(facts, side), unit.id, side)
            else:
                yield ask.clear(title, mm(free_to), "to the end of the wall", nothing, unit.id, side)
    for new, thing in pairs_with_new(layout):
        yield _beside(ask, new, thing, nothing)
    for unit, other in combinations(layout.units, 2):
        yield _beside(ask, unit, other, nothing)


def _end(facts: Facts, side: str) -> str:
    return facts.lacks("height", "height of the wall") if side == "top" else facts.lacks("length", "length of the wall")


def _round_the_corner(ask: Ask, unit: Unit, other: Unit, nothing: Value) -> Iterator[Check]:
    """A unit and one on another wall of the room, each pair once; walls not placed in plan are told of elsewhere."""
    free = [gap(*axes) for axes in zip(unit.solid, other.solid, strict=True)]
    known = [each for each in free if each is not None]
    if unit.id < other.id and len(known) == len(free):
        title = f"Is {unit.name} beside {other.name}, not on it?"
        yield ask.clear(title, mm(max(known)), "greatest gap along the axes", nothing, unit.id, other.id)


def _beside(ask: Ask, body: Unit | Thing, thing: Unit | Thing, nothing: Value) -> Check:
    """Whether a body keeps off a thing, by the greater of the gaps along the wall and up."""
    free = max(gap(body.solid.x, thing.solid.x) or 0, gap(body.solid.z, thing.solid.z) or 0)
    title = f"Is {body.name} beside {thing.name}, not on it?"
    return ask.clear(title, mm(free), "greatest gap along the axes", nothing, body.id, thing.id)


def pairs_with_new(layout: Layout) -> Iterator[tuple[Thing, Thing]]:
    """Each new thing of the wall with every other thing and opening of it, each pair once; two old ones are no pair.

    Everything on a wall reaches back to it, so that depth keeps no two of them apart.
    """
    hung = [each for each in layout.things if each.on_wall and each.kind in BODIES | OPENINGS]
    for one, other in combinations(hung, 2):
        if one.new or other.new:
            yield (one, other) if one.new else (other, one)


def in_the_way(layout: Layout, unit: Solid) -> list[Thing]:
    """Openings of the wall, and bodies that reach into the depth of the unit."""
    front = 0 if unit.y is None else unit.y.high
    openings = [each for each in layout.things if each.kind in OPENINGS and each.on_wall]
    return openings + [each for each in layout.bodies if each.solid.y is None or each.solid.y.low < front]


@rule("owner-reach", "practice", key="owner_wish")
def owner_reach(ask: Ask, layout: Layout) -> Iterator[Check]:
    """The switch at a height that the owner wants."""
    if layout.room is not None and layout.room.owner_reach is not None:
        for unit in layout.units:
            yield reach(ask, unit, layout.room.owner_reach)


@rule("owner-way", "practice", key="owner_wish")
def owner_way(ask: Ask, layout: Layout) -> Iterator[Check]:
    """The clear way that the owner wants in front of the wall."""
    if layout.room is None or layout.room.owner_clear is None:
        return
    for unit in layout.units:
        title = f"Does the way past {unit.name} stay as wide as the owner wants?"
        faces = [gap(unit.solid.y, each.solid.y) for each in layout.kind("opposite face")]
        known = [each for each in faces if each is not None]
        if not known:
            yield ask.unknown(title, layout.facts.lacks("facing", "distance to the opposite face"), unit.id)
        else:
            how = "from the front of the unit to the opposite face"
            yield ask.clear(title, mm(min(known)), how, layout.room.owner_clear, unit.id)
