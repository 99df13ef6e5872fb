"""The public entry of siting: the place of a unit on the walls of a job, with every check, and why not elsewhere."""

from collections.abc import Mapping, Sequence

from standfast.design.installation.build import JobFile, SheetFile, battery_ids, battery_way
from standfast.design.siting import choosing, surveyed
from standfast.design.siting.asking import Ask, bound, held
from standfast.design.siting.choosing import Question, Spot
from standfast.design.siting.frames import exact, frame
from standfast.design.siting.instructions import FRAMES
from standfast.design.siting.keepouts import Keepout, keepouts
from standfast.design.siting.layout import Facts, Layout, Unit
from standfast.design.siting.placed import JudgedWall, PlacedUnit, Siting, WallTried
from standfast.design.siting.rules import judge, stated, unstated
from standfast.design.siting.solid import Solid, Span, mm, tenths
from standfast.design.siting.things import Surveyed, not_in_plan
from standfast.faults import BadFormula, NotInEdition
from standfast.sheet import Check, Clause, Value, cannot_tell, measured, missing
from standfast.shelf import Adoption
from standfast.survey.house import Wall

NOT_FOR_JOBS = frozenset({"repurposed-battery", "low-door", "wheel-stop", "bollard", "unit-spacing"})
"""Rules that a job of one listed unit does not ask by themselves."""


def site(adoption: Adoption, job: JobFile, sheets: Mapping[str, SheetFile]) -> Siting:
    """Put the battery unit of a job on a wall.

    Args:
        adoption: the books in force.
        job: the job file.
        sheets: data sheets by role: ``battery``, and where chosen ``fastener``.

    Returns:
        The place with the fewest open checks, then the cheapest; on the wished wall and edges where the job fixes them.

    Raises:
        BadFormula: where the job has no wall, or the sheet of the battery has no size.
    """
    battery = sheets["battery"]
    lacking = [word for word in ("width", "height", "depth") if getattr(battery.content.body, word) is None]
    if lacking:
        raise BadFormula(f"{battery.file}: body.{', body.'.join(lacking)} of the battery is not stated")
    walls = [wall for wall in job.content.walls if job.content.wishes.wall in (None, wall.id)]
    if not walls:
        raise BadFormula(f"{job.file}: the job has no wall for the battery: write [[walls]]")
    screw, edge = _screw(adoption, sheets)
    tried = [_on_wall(adoption, Surveyed(job, battery, wall), edge, screw) for wall in walls]
    best = min(tried, key=lambda each: (sum(check.open for check in each.checks), _cost(each)))
    return best._replace(walls=tuple(_told(each) for each in tried))


def why_not(adoption: Adoption, siting: Siting, unit: str, left_mm: float, bottom_mm: float) -> list[Check]:
    """The checks that stand in the way where a unit is at another place of its wall, each with how much it misses."""
    place = siting.place(unit)
    layout = _put(siting.on(place.wall).layout, place.unit, tenths(left_mm), tenths(bottom_mm))
    return [check for check in _checks(adoption, layout) if check.open]


def _screw(adoption: Adoption, sheets: Mapping[str, SheetFile]) -> tuple[Value, Value]:
    """Diameter of the screw, mm, and its least distance from the edge of a stud, in diameters."""
    role = sheets.get("fastener")
    if role is None:
        screw = missing("D", "mm", "equipment.fastener: choose the screw that holds the unit")
    else:
        screw = role.fact("fastener.diameter", "D", "mm")
    try:
        return screw, held(adoption, ("nds",), "edge_parallel")
    except NotInEdition as refusal:
        return screw, missing("n_D", "1", str(refusal))


def _tolerant(adoption: Adoption, facts: Facts) -> Facts:
    """The facts with a placing tolerance: the survey's, else that of tape and level; never none."""
    if facts.placing is not None:
        return facts
    return facts._replace(placing=held(adoption, ("practice",), "placing_tolerance"))


def _on_wall(adoption: Adoption, seen: Surveyed, edge: Value, screw: Value) -> Siting:
    wall, wishes = seen.wall, seen.job.content.wishes
    bare, unit = surveyed.layout(seen, edge, screw), surveyed.unit(seen, battery_ids(seen.job)[0])
    bare = bare._replace(units=(unit,), facts=_tolerant(adoption, bare.facts))
    asks = in_force(adoption, bare)
    asked = _question(adoption, seen, bare, unit, keepouts(asks, bare, unit))
    if wishes.wall == wall.id:
        left, bottom = (None if each is None else exact(each) for each in (wishes.left, wishes.bottom))
        asked = asked._replace(left=left, bottom=bottom)
    spot = choosing.cheapest(asked) or choosing.least_bad(asked) or Spot(0, 0, 0)
    layout = _put(bare, unit, spot.left, spot.bottom)
    checks = [*_checks(adoption, layout), *_unseen(adoption, seen, unit)]
    place = PlacedUnit(
        unit.id,
        wall.id,
        measured("x_left", mm(spot.left), "mm", "chosen among the vertices of the free space of the wall"),
        measured("y_bottom", mm(spot.bottom), "mm", "chosen among the vertices of the free space of the wall"),
        _run(asked, spot),
        layout.units[0],
    )
    return Siting((place,), tuple(checks), (JudgedWall(wall.id, layout, asked),), ())


def in_force(adoption: Adoption, layout: Layout) -> dict[str, Ask]:
    """The rules in force, bound, with the placing tolerance."""
    asked = {id: bound(adoption, id) for id in stated(adoption) if id not in NOT_FOR_JOBS}
    return {id: each._replace(beside=asked, placing=layout.facts.placing) for id, each in asked.items()}


def _checks(adoption: Adoption, layout: Layout) -> list[Check]:
    return judge(adoption, layout, [id for id in stated(adoption) if id not in NOT_FOR_JOBS])


def _question(adoption: Adoption, seen: Surveyed, layout: Layout, unit: Unit, found: Sequence[Keepout]) -> Question:
    lift = held(adoption, ("practice",), "lift_run")
    asked = choosing.question(unit, found, _target(seen), round(lift.quantity))
    studs = None if layout.room is None else layout.room.studs
    if studs is None or layout.facts.wall_build not in FRAMES:
        return asked
    off_allowed = 0.0 if studs.off_centre.missing else studs.off_centre.quantity
    dear, stray = (held(adoption, ("practice",), key) for key in ("off_stud_run", "off_centre_run"))
    off, by = tenths(dear.quantity * 1000), round(stray.quantity)
    return choosing.framed(asked, unit, studs.centres, off_allowed, off, by)


def _target(seen: Surveyed) -> tuple[int, int] | None:
    """Where the run of the battery goes: the middle of its disconnect or panel, seen in the frame of the wall."""
    job = seen.job
    try:
        way = battery_way(job)
    except BadFormula:
        return None
    own = frame(seen.wall)
    for wall in sorted(job.content.walls, key=lambda each: each.id != seen.wall.id):
        for obstacle in wall.obstacles:
            if obstacle.panel is None or obstacle.panel != way[0]:
                continue
            x = exact(obstacle.left) + exact(obstacle.width) // 2
            z = exact(obstacle.bottom) + exact(obstacle.height) // 2
            there = frame(wall)
            if wall.id == seen.wall.id:
                return x, z
            if own is not None and there is not None:
                return round(own.here(there.plan(x, 0))[0]), z
    return None


def _put(layout: Layout, unit: Unit, left: int, bottom: int) -> Layout:
    """The layout with the unit at a place."""
    height = 0 if unit.solid.z is None else unit.solid.z.high - unit.solid.z.low
    solid = Solid(Span(left, left + unit.width), unit.solid.y, Span(bottom, bottom + height))
    return layout._replace(units=(unit._replace(solid=solid),))


def _run(asked: Question, spot: Spot) -> Value:
    if asked.target is None:
        return missing("l_run", "mm", "panels: the panel of the battery is on no surveyed wall (panel of an obstacle)")
    plain = asked._replace(studs=(), lift_cost=0).cost(spot.left, spot.bottom)
    how = "from the middle of the unit to the middle of its panel, along the wall and up"
    return measured("l_run", plain / 2 / 10, "mm", how)


def _unseen(adoption: Adoption, seen: Surveyed, unit: Unit) -> list[Check]:
    """What the survey does not let anybody judge."""
    clause = _practice(adoption)
    found = [
        cannot_tell(
            f"siting.walls-in-plan/{unit.id}/{wall}",
            f"Is {unit.name} far enough from what is on {wall}?",
            clause,
            f"walls.{wall}: where it stands in plan is not known (start and end of it and of {seen.wall.id})",
        )
        for wall in not_in_plan(seen)
    ]
    found += [
        cannot_tell(
            f"siting.{id}/{unit.id}",
            f"What does {book.short} {book.edition} ask of {unit.name}: {id.replace('-', ' ')}?",
            book.unheld(),
            f"{book.short} {book.edition} is held in part only: no clause is held for {key!r}",
        )
        for id, book, key in unstated(adoption)
        if id not in NOT_FOR_JOBS
    ]
    if (seen.job.content.equipment.quantity or 1) > 1:
        reason = "places for more than one unit are not worked out"
        found.append(cannot_tell(f"siting.units/{unit.id}", "Do all units fit?", clause, reason))
    return found


def _practice(adoption: Adoption) -> Clause:
    """The clause under which things do not overlap."""
    return bound(adoption, "overlap").clause


def _cost(siting: Siting) -> tuple[int, int]:
    unit, asked = siting.places[0].unit.solid, siting.judged[0].question
    return (0, asked.cost(unit.x.low, unit.z.low)) if unit.x is not None and unit.z is not None else (1, 0)


def _told(siting: Siting) -> WallTried:
    stopping = tuple(check.id for check in siting.checks if check.open)
    return WallTried(siting.judged[0].wall, len(stopping), _cost(siting)[1], stopping)


def wall_of(job: JobFile, place: PlacedUnit) -> Wall:
    """The wall of the job on which a unit stands."""
    return next(wall for wall in job.content.walls if wall.id == place.wall)
