"""The public entry of siting: the places of the units on the walls of a job, every check, and why not elsewhere."""

from collections.abc import Mapping, Sequence

from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.siting.choosing import Question
from standfast.design.siting.ground import Ground, ground, in_force, put, wish_of
from standfast.design.siting.judged import checks_of, judged
from standfast.design.siting.placed import JudgedWall, PlacedUnit, Siting, WallTried
from standfast.design.siting.several import Chosen, Grounds, Standing, choose, with_units
from standfast.design.siting.sight import sight
from standfast.design.siting.solid import mm, tenths
from standfast.design.siting.things import Surveyed
from standfast.faults import BadFormula
from standfast.sheet import Check, Value, measured, missing
from standfast.shelf import Adoption
from standfast.survey.house import Wall
from standfast.survey.joined import unit_ids

__all__ = ["grounds_of", "in_force", "site", "sited", "wall_of", "why_not"]

_HOW = "chosen among the vertices of the free space of the wall"
_HOW_SEVERAL = "chosen together with the other units, among the vertices of the free space of the walls"


def site(adoption: Adoption, job: JobFile, sheets: Mapping[str, SheetFile]) -> Siting:
    """Put the battery units of a job on its walls.

    Args:
        adoption: the books in force.
        job: the job file.
        sheets: data sheets by role: ``battery``, and where chosen ``fastener`` and ``inverter``.

    Returns:
        For one unit the wall with the fewest open checks, then the cheapest place. Several units stand on the walls on
        which one of them alone would leave the fewest checks open, on all the others too where they do not fit there,
        cheapest together. Walls and edges that the job fixes are kept.

    Raises:
        BadFormula: where the job has no wall, or the sheet of the battery has no size.
    """
    grounds = grounds_of(adoption, job, sheets)
    units = unit_ids(job.content)
    allowed = [[each for each in grounds if wish_of(job, unit).wall in (None, each)] for unit in units]
    if not all(allowed):
        raise BadFormula(f"{job.file}: the job has no wall for the battery: write [[walls]]")
    tried = {
        wall: sited(adoption, grounds, choose(adoption, grounds, units[:1], [[wall]]))
        for wall in dict.fromkeys(wall for each in allowed for wall in each)
    }
    if len(units) == 1:
        best = min(tried.values(), key=_worth)
    else:
        best = sited(adoption, grounds, _several(adoption, grounds, units, allowed, tried))
    return best._replace(walls=tuple(_told(wall, each) for wall, each in tried.items()))


def why_not(adoption: Adoption, siting: Siting, unit: str, left_mm: float, bottom_mm: float) -> list[Check]:
    """The checks that stand in the way where a unit is at another place of its wall, each with how much it misses."""
    place = siting.place(unit)
    layout = siting.on(place.wall).layout
    moved = put(place.unit, tenths(left_mm), tenths(bottom_mm))
    units = tuple(moved if each.id == unit else each for each in layout.units)
    return [check for check in checks_of(adoption, layout._replace(units=units)) if check.open]


def grounds_of(adoption: Adoption, job: JobFile, sheets: Mapping[str, SheetFile]) -> dict[str, Ground]:
    """Every wall of the job."""
    battery = sheets["battery"]
    lacking = [word for word in ("width", "height", "depth") if getattr(battery.content.body, word) is None]
    if lacking:
        raise BadFormula(f"{battery.file}: body.{', body.'.join(lacking)} of the battery is not stated")
    if not job.content.walls:
        raise BadFormula(f"{job.file}: the job has no wall for the battery: write [[walls]]")
    inverter = sheets.get("inverter")
    return {
        wall.id: ground(adoption, Surveyed(job, battery, wall, inverter, sheets), sheets) for wall in job.content.walls
    }


def _several(
    adoption: Adoption,
    grounds: Grounds,
    units: Sequence[str],
    allowed: Sequence[Sequence[str]],
    tried: Mapping[str, Siting],
) -> Chosen:
    """The places of several units: on the best walls, or on all that are allowed where those do not hold them."""
    open = {wall: sum(check.open for check in each.checks) for wall, each in tried.items()}
    best = [[wall for wall in each if open[wall] == min(open[other] for other in each)] for each in allowed]
    found = choose(adoption, grounds, units, best)
    if found.bound is not None or best == list(allowed):
        return found
    spread = choose(adoption, grounds, units, allowed)
    return found if spread.bound is None else spread


def sited(adoption: Adoption, grounds: Grounds, chosen: Chosen, how: str = "") -> Siting:
    """The units at their places, judged; `how` says how these were chosen, where it was not by siting alone."""
    how = how or (_HOW if len(chosen.units) == 1 else _HOW_SEVERAL)
    walls = dict.fromkeys(each.wall for each in chosen.units)
    layouts = {wall: with_units(grounds, wall, chosen.units) for wall in walls}
    places = tuple(_placed(grounds[each.wall], each, how) for each in chosen.units)
    questions = {each.wall: each.question for each in reversed(chosen.units)}
    walls_judged = tuple(JudgedWall(wall, layouts[wall], questions[wall]) for wall in walls)
    checks = judged(adoption, grounds, chosen.units)
    return Siting(places, checks, walls_judged, (), chosen.bound, chosen.proven, chosen.need)


def _placed(at: Ground, each: Standing, how: str) -> PlacedUnit:
    seen, distance = sight(at.seen.job, at.bare, each.unit)
    return PlacedUnit(
        each.unit.id,
        each.wall,
        measured("x_left", mm(each.spot.left), "mm", how),
        measured("y_bottom", mm(each.spot.bottom), "mm", how),
        _run(each.question, each),
        each.unit,
        seen,
        distance,
    )


def _run(asked: Question, each: Standing) -> Value:
    if asked.target is None:
        return missing("l_run", "mm", "panels: the panel of the battery is on no surveyed wall (panel of an obstacle)")
    plain = asked._replace(studs=(), lift_cost=0).cost(each.spot.left, each.spot.bottom)
    how = "from the middle of the unit to the middle of its panel, or of its inverter, along the wall and up"
    return measured("l_run", plain / 2 / 10, "mm", how)


def _cost(siting: Siting) -> int:
    """What the places cost, halves of a tenth of run."""
    unit, asked = siting.places[0], siting.judged[0].question
    return asked.cost(tenths(unit.left.quantity), tenths(unit.bottom.quantity))


def _worth(siting: Siting) -> tuple[int, int]:
    return sum(check.open for check in siting.checks), _cost(siting)


def _told(wall: str, siting: Siting) -> WallTried:
    stopping = tuple(check.id for check in siting.checks if check.open)
    return WallTried(wall, len(stopping), _cost(siting), stopping)


def wall_of(job: JobFile, place: PlacedUnit) -> Wall:
    """The wall of the job on which a unit stands."""
    return next(wall for wall in job.content.walls if wall.id == place.wall)
