"""How a unit that stands is held: by its brace at the wall, by the anchors of its foot, or by both."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.anchorage import ground, loads, tipping, trying, walls, wood_fit
from standfast.design.anchorage.forces import Asked
from standfast.design.anchorage.held import Base, Foot, FootHole, Tried
from standfast.design.anchorage.pattern import Pattern
from standfast.design.anchorage.ratios import governing, ratio, within
from standfast.design.anchorage.task import SheetFile, Task, millimetres
from standfast.faults import Refusal
from standfast.sheet import Check, Value, cannot_tell, chosen, settle

SHARING = "the maker does not say how much of the tipping the anchored foot takes before the brace does"
SWING_OUT = (
    "nothing holds the foot and friction does not count: anchor the foot as well where the maker has holes for it, or "
    "brace the unit at the height of its centre of gravity"
)


class Braced(NamedTuple):
    """The brace at the wall: what it holds in, every fixing tried, the one taken, its checks, whether one is due."""

    base: Base | None
    tried: list[Tried]
    taken: Tried | None
    checks: list[Check]
    due: bool


class Footed(NamedTuple):
    """The foot and its checks."""

    foot: Foot
    checks: list[Check]


def held_by(task: Task) -> Check:
    """Does the maker say what holds the unit? Nothing is worked out before it does."""
    title, said = "The maker says what holds the standing unit", task.battery.fact("fixing.held_by", "held_by")
    if said.missing:
        return cannot_tell(task.id("held-by"), title, task.maker, said.how, said)
    return Check(task.id("held-by"), title, task.maker, "pass", demand=said)


def brace(task: Task, found: Pattern, fixings: Sequence[SheetFile], prices: Mapping[str, float]) -> Braced:
    """The fixings of the brace in the wall; nothing where the maker has the foot hold all."""
    fixing = task.battery.content.fixing
    how = fixing.held_by if fixing is not None else None
    if how is None or how == "foot":
        return Braced(None, [], None, [], due=False)
    wall = walls.footing(task)
    checks = [wall.check, walls.maker_allows(task)]
    if wall.base is None:
        return Braced(None, [], None, checks, due=True)
    try:
        asked = _on_brace(task, found, wall.base, alone=how == "brace")
    except Refusal as refusal:
        title, clause = "What the brace carries can be worked out", task.practice.clause("standing")
        return Braced(
            wall.base, [], None, [*checks, cannot_tell(task.id("brace"), title, clause, str(refusal))], due=True
        )
    tried = trying.every(task, found, wall.base, [asked], fixings, prices)
    taken = trying.best(tried, fixings)
    checks += taken.checks if taken is not None else [trying.none_offered(task, wall.base)]
    if how == "brace" and found.holes:
        checks.append(_foot_stays(task, found))
    return Braced(wall.base, tried, taken, checks, due=True)


def _on_brace(task: Task, found: Pattern, base: Base, *, alone: bool) -> Asked:
    holding = wood_fit.holding(task, found) if base == "wood" else found
    if not holding.holes:
        return []
    cases = loads.of_standing(task, "allowable" if base == "wood" else "strength", anchors=base == "concrete")
    return tipping.brace(task, holding, cases, alone=alone)


def _foot_stays(task: Task, found: Pattern) -> Check:
    id, title = task.id("foot-stays"), "The foot stays where it is though nothing holds it"
    clause = task.practice.clause("standing")

    def ask() -> Check:
        used: list[Value] = []
        for case in loads.of_standing(task, "strength", anchors=False):
            used += [ratio(case.name, M, holds, clause) for M, holds in tipping.swing(task, found, case)]
        return within(id, title, governing(used, clause), task.books.book("aci318"), clause, SWING_OUT)

    return settle(id, title, clause, ask)


def foot(task: Task, anchors: Sequence[SheetFile], prices: Mapping[str, float]) -> Footed:
    """The ground under the unit, and its anchors where the maker has the foot hold something.

    Args:
        task: the foot of the unit.
        anchors: data sheets that may hold it.
        prices: price of one piece by data sheet.
    """
    fixing = task.battery.content.fixing
    how, found = fixing.held_by if fixing is not None else None, ground.holes(task)
    plain = loads.of_standing(task, "strength", anchors=False)
    checks = list(_settled(task, plain))
    taken = None
    if how in ("foot", "brace and foot") and ground.concrete(task):
        tried, more = _anchors(task, found, anchors, prices, alone=how == "foot")
        taken = trying.best(tried, anchors)
        checks += [ground.drilled(task), *more, *(taken.checks if taken is not None else ())]
    spots = found.holes if how in ("foot", "brace and foot") else ()
    holes = tuple(FootHole(hole.id, millimetres("x", hole.x), millimetres("y", hole.y)) for hole in spots)
    plate = task.battery.fact("fixing.base_plate", "t_plate", "mm")
    sheet, cost = (taken.sheet, taken.cost) if taken is not None else (None, None)
    return Footed(Foot(sheet, holes, plate, cost), checks)


def _settled(task: Task, cases: list[loads.Case]) -> Iterator[Check]:
    try:
        yield from ground.checks(task, cases)
    except Refusal as refusal:
        title, clause = "The ground under the unit can be worked out", task.practice.clause("standing")
        yield cannot_tell(task.id("ground"), title, clause, str(refusal))


def _anchors(task: Task, found: Pattern, anchors: Sequence[SheetFile], prices: Mapping[str, float], *,
             alone: bool) -> tuple[list[Tried], list[Check]]:  # fmt: skip
    """Every anchor that was offered for the foot, and what stands in the way of trying any."""
    title = "The anchors of the foot can be worked out"
    if not found.holes:
        return [], [cannot_tell(task.id("holes"), title, task.maker, task.unsaid("base_holes"))]
    if not anchors:
        return [], [trying.none_offered(task, "concrete")]
    try:
        readings = _on_foot(task, found, alone=alone)
        return trying.every(task, found, "concrete", readings, anchors, prices, ground.sides(task)), []
    except Refusal as refusal:
        return [], [cannot_tell(task.id("anchors"), title, task.practice.clause("standing"), str(refusal))]


def _on_foot(task: Task, found: Pattern, *, alone: bool) -> list[Asked]:
    """As the maker states it, and with all of the tipping on the foot where a brace shares in it."""
    cases = loads.of_standing(task, "strength", anchors=True)
    if alone:
        whole = chosen("k_tip", 1.0, "1", "the foot holds all", task.maker)
        return [tipping.foot(task, found, cases, whole, towards=True)]
    none = chosen("k_tip", 0.0, "1", "the brace keeps the unit from tipping off its wall", task.maker)
    most = task.practice.bounding("foot_holds_tipping", SHARING)
    return [tipping.foot(task, found, cases, each, towards=False) for each in (none, most)]
