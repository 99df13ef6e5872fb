"""Faults of measure: outlines that are no outlines, and things that do not fit on the wall they are said to be on."""

from collections.abc import Iterator
from fractions import Fraction
from math import dist

from standfast.faults import Fault
from standfast.reading import Document
from standfast.reading.positions import Path
from standfast.survey.house import Obstacle, Opening, Polygon, Wall
from standfast.survey.model import Job
from standfast.survey.shapes import corners, flaw
from standfast.units import feet_inches

PLACING_MM = Fraction(10)
"""Common practice: how well tape and level place a thing, where the job does not say."""


STUDS_MM = (Fraction(100), Fraction(1300))
"""Common practice: studs stand 12, 16, 19.2 or 24 in apart, in sheds and on posts up to 48 in; beyond is a slip."""


def measured(survey: Document[Job]) -> Iterator[Fault]:
    """Every fault of measure in the job."""
    yield from _outlines(survey)
    for number, wall in enumerate(survey.content.walls):
        yield from _on_wall(survey, ("walls", number), wall)


def _studs(survey: Document[Job], at: Path, wall: Wall) -> Iterator[Fault]:
    spacing = wall.build_up.stud_spacing
    if spacing is None or STUDS_MM[0] <= spacing.number <= STUDS_MM[1]:
        return
    number, _, unit = spacing.text.partition(" ")
    other = f': did you mean "{number} in"?' if unit in ("ft", "mm", "cm", "m") and number in _USUAL else ""
    what = f"stud_spacing is {spacing.text}"
    yield survey.fault(at, what, "studs stand 4 in to 51 in apart (common practice)", f"measure again{other}")


_USUAL = ("12", "16", "19.2", "24")
"""Common practice: distances of studs in inches."""


def _outlines(survey: Document[Job]) -> Iterator[Fault]:
    land = survey.content.land
    outlines: list[tuple[Path, Polygon]] = [
        *((("land", word), outline) for word, outline in (("lot", land.lot), ("driveway", land.driveway)) if outline),
        *((("land", "buildings", number, "outline"), each.outline) for number, each in enumerate(land.buildings)),
    ]
    for path, outline in outlines:
        wrong = flaw(corners(outline))
        if wrong:
            todo = "give its corners in order, each once, all the way round"
            yield survey.fault(path, f"{path[-1]} is no outline", wrong, todo)


def _on_wall(survey: Document[Job], at: Path, wall: Wall) -> Iterator[Fault]:
    slack = wall_slack(survey.content)
    yield from _ends(survey, at, wall, slack)
    for number, opening in enumerate(wall.openings):
        yield from _thing(survey, (*at, "openings", number), wall, opening, slack)
    for number, obstacle in enumerate(wall.obstacles):
        yield from _thing(survey, (*at, "obstacles", number), wall, obstacle, slack)
    for number, one in enumerate(wall.openings):
        for other in wall.openings[:number]:
            if _overlap(one, other):
                what = f'"{one.id}" and "{other.id}" overlap'
                yield survey.fault((*at, "openings", number), what, "two openings cannot", "measure both again")
    yield from _studs(survey, (*at, "build_up", "stud_spacing"), wall)
    first, path = wall.build_up.first_stud, wall.vehicle_path
    if first is not None and first.number > wall.length.number + slack:
        yield _beyond(survey, (*at, "build_up", "first_stud"), wall, "first_stud", first.number)
    if path is not None and path.right.number > wall.length.number + slack:
        yield _beyond(survey, (*at, "vehicle_path", "right"), wall, "vehicle_path", path.right.number)
    if path is not None and path.right.number <= path.left.number:
        what = f"right ({path.right.text}) is not beyond left ({path.left.text})"
        yield survey.fault((*at, "vehicle_path", "right"), what, "", "count both from the left end of the wall")


def wall_slack(job: Job) -> Fraction:
    """How far two measures of one thing may differ, in mm: each of them is off by the placing tolerance at most."""
    stated = job.tolerances.placing
    return 2 * (PLACING_MM if stated is None else stated.number)


def _ends(survey: Document[Job], at: Path, wall: Wall, slack: Fraction) -> Iterator[Fault]:
    """The length of the wall against its ends in plan."""
    if wall.start is None or wall.end is None:
        return
    (ax, ay), (bx, by) = corners((wall.start, wall.end))
    between = dist((float(ax), float(ay)), (float(bx), float(by)))
    if not -slack <= Fraction(between) - wall.length.number <= slack:
        what = f'wall "{wall.id}": its ends in plan are {feet_inches(between)} apart'
        why = f"its length is {wall.length.text}"
        yield survey.fault((*at, "length"), what, why, "measure again, or correct start and end")


def _thing(survey: Document[Job], at: Path, wall: Wall, thing: Opening | Obstacle, slack: Fraction) -> Iterator[Fault]:
    right, top = thing.left.number + thing.width.number, thing.bottom.number + thing.height.number
    if right > wall.length.number + slack:
        yield _beyond(survey, (*at, "left"), wall, f'"{thing.id}"', right)
    if wall.height is not None and top > wall.height.number + slack:
        what = f'"{thing.id}" reaches {feet_inches(float(top))} above the floor'
        why = f'wall "{wall.id}" is {wall.height.text} high'
        yield survey.fault((*at, "bottom"), what, why, "measure bottom and height again")


def _beyond(survey: Document[Job], path: Path, wall: Wall, name: str, reach: Fraction) -> Fault:
    what = f"{name} reaches {feet_inches(float(reach))} from the left end"
    why = f'wall "{wall.id}" is {wall.length.text} long'
    return survey.fault(path, what, why, "measure from the left end, seen facing the wall")


def _overlap(one: Opening, other: Opening) -> bool:
    apart = (
        one.left.number >= other.left.number + other.width.number
        or other.left.number >= one.left.number + one.width.number
        or one.bottom.number >= other.bottom.number + other.height.number
        or other.bottom.number >= one.bottom.number + one.height.number
    )
    return not apart
