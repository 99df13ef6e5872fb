"""Where the switch of the emergency shutdown is, and whether its cable leaves the building of the units."""

from collections.abc import Iterable
from itertools import pairwise

from standfast.fieldwork.plan import Plan
from standfast.survey.shapes import Corner, corners

MARK = "emergency shutdown"


def apart(plan: Plan) -> bool:
    """True where the switch is on or by one building of the site plan, and a unit that waits for it in another.

    False also where the plan does not show both: what is not drawn there is asked for by the checks of the switch.
    """
    units = {each.id for each in plan.shut_down}
    walls = {held.wall for held in plan.held if held.of in units}
    ends = [wall.start for wall in plan.survey.job.walls if wall.id in walls and wall.start is not None]
    marks = [mark.at for mark in plan.survey.job.land.marks if mark.kind == MARK]
    here, there = (_buildings(plan, corners(points)) for points in (ends, marks))
    return bool(here and there) and not here <= there


def _buildings(plan: Plan, points: Iterable[Corner]) -> set[str]:
    """The building that each point is in, on or nearest to."""
    outlines = {each.id: corners(each.outline) for each in plan.survey.job.land.buildings}
    return {min(outlines, key=lambda id: _distance(point, outlines[id])) for point in points} if outlines else set()


def _distance(point: Corner, outline: list[Corner]) -> float:
    """From a point to an outline, mm; 0 inside it."""
    here = complex(*point)
    sides = list(pairwise([complex(*corner) for corner in (*outline, outline[0])]))
    crossed = 0
    for start, end in sides:
        if (start.imag > here.imag) != (end.imag > here.imag):
            at = start.real + (here.imag - start.imag) / (end.imag - start.imag) * (end.real - start.real)
            crossed += at > here.real
    return 0.0 if crossed % 2 else min(_to_side(here, start, end) for start, end in sides)


def _to_side(here: complex, start: complex, end: complex) -> float:
    """From a point to a stretch between two corners."""
    along = end - start
    part = ((here - start) * along.conjugate()).real / abs(along) ** 2
    return abs(here - (start + min(1.0, max(0.0, part)) * along))
