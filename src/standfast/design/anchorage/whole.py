"""How one unit is held: the least-cost fixing that passes, its holes, and every check with its working."""

from collections.abc import Mapping, Sequence

from standfast.design.anchorage import forces, joints, loads, stand, trying, walls, wood, wood_fit
from standfast.design.anchorage.forces import Asked
from standfast.design.anchorage.held import Anchorage, Base, Foot, FootHole, Hole, Tried
from standfast.design.anchorage.pattern import Pattern, pattern
from standfast.design.anchorage.task import JobFile, Place, SheetFile, Task, millimetres
from standfast.sheet import Check, Value, cannot_tell
from standfast.shelf import Adoption

__all__ = ["Anchorage", "Foot", "FootHole", "Hole", "Tried", "anchor"]


def anchor(
    job: JobFile,
    battery: SheetFile,
    fixings: Sequence[SheetFile],
    books: Adoption,
    place: Place,
    *,
    unit: str = "battery-1",
    prices: Mapping[str, float] | None = None,
    plug: SheetFile | None = None,
    base_anchors: Sequence[SheetFile] = (),
) -> Anchorage:
    """Hold a unit at its place: a battery unit or an inverter, which hangs on a wall or stands before it.

    Args:
        job: the job file.
        battery: data sheet of the unit.
        fixings: data sheets of screws and anchors that may be used; those for another kind of wall are passed over.
        books: the editions in force.
        place: where the unit hangs.
        unit: its name everywhere.
        prices: price of one piece by data sheet, any one currency; a fixing without a price is tried after those
            that have one, in the order given.
        plug: data sheet of a plug, where one was chosen: it is judged, and never carries a hanging unit.
        base_anchors: data sheets of anchors that may hold the foot of a unit that stands.

    Returns:
        The least-cost fixing whose checks all pass; where none passes, the one with the fewest open checks.

    Raises:
        KeyError: where the job has no wall of that name.
    """
    task = Task(unit, job, battery, place, books)
    found = pattern(task)
    shared = [*joints.checks(books, battery, unit), *(walls.plug(task, plug) if plug is not None else ())]
    hung = battery.fact("body.hung", "hung")
    if hung.missing:
        title = "It is known whether the unit hangs or stands"
        unsaid = cannot_tell(task.id("hung"), title, task.maker, hung.how, hung)
        return _answer(task, Pattern(()), None, None, [], [unsaid, *shared])
    if not hung.yes:
        return _standing(task, found, fixings, base_anchors, prices or {}, shared)
    return _hung(task, found, fixings, prices or {}, shared)


def _hung(task: Task, found: Pattern, fixings: Sequence[SheetFile], prices: Mapping[str, float],
          shared: list[Check]) -> Anchorage:  # fmt: skip
    wall = walls.footing(task)
    checks = [wall.check, walls.maker_allows(task), *shared]
    tried: list[Tried] = []
    if wall.base is not None:
        tried = trying.every(task, found, wall.base, _on_bracket(task, found, wall.base), fixings, prices)
    taken = trying.best(tried, fixings)
    if taken is not None:
        checks += taken.checks
    elif wall.base is not None:
        checks.append(trying.none_offered(task, wall.base))
    return _answer(task, found, wall.base, taken, tried, checks)


def _on_bracket(task: Task, found: Pattern, base: Base) -> list[Asked]:
    """The weight on all fasteners that hold, or on those of the upper half alone: both where nobody says which."""
    holding = wood_fit.holding(task, found) if base == "wood" else found
    if not holding.holes:
        return [[]]
    cases = loads.for_wood(task) if base == "wood" else loads.for_concrete(task)
    lower = task.battery.fact("fixing.lower_carry", "lower_carry")
    readings = (False, True) if lower.missing else (not lower.yes,)
    return [forces.asked(task, holding, cases, on_upper_rail=each) for each in readings]


def _standing(task: Task, found: Pattern, fixings: Sequence[SheetFile], base_anchors: Sequence[SheetFile],
              prices: Mapping[str, float], shared: list[Check]) -> Anchorage:  # fmt: skip
    braced = stand.brace(task, found, fixings, prices)
    footed = stand.foot(task._replace(part="foot"), base_anchors, prices)
    checks = [stand.held_by(task), *shared, *braced.checks, *footed.checks]
    held = found if braced.due else Pattern(())
    answer = _answer(task, held, braced.base, braced.taken, braced.tried, checks)
    return answer._replace(foot=footed.foot, due=braced.due)


def _answer(task: Task, found: Pattern, base: Base | None, taken: Tried | None, tried: list[Tried],
            checks: list[Check]) -> Anchorage:  # fmt: skip
    return Anchorage(
        task.unit,
        task.place.wall,
        base,
        taken.sheet if taken is not None else None,
        taken.cost if taken is not None else None,
        tuple(_row(hole.id, hole.x, hole.y, hole.off) for hole in found.holes),
        task.battery.fact("fixing.plate", "t_plate", "mm"),
        millimetres("t_lining", task.lining),
        wood.gravity(task) if base == "wood" else None,
        taken.stray if taken is not None else None,
        tuple(checks),
        tuple(tried),
    )


def _row(id: str, x: Value, y: Value, off: Value | None) -> Hole:
    return Hole(id, millimetres("x", x), millimetres("y", y), None if off is None else millimetres("off", off))
