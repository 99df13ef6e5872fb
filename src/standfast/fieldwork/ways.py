"""How runs and cables go between their ends, as far as the walls of the job tell: rooms, and quarter bends."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.siting.placed import PlacedUnit
from standfast.design.wiring.along import Middle, bends, laid_flat, middle, of_unit
from standfast.sheet import Value, chosen, missing
from standfast.survey.joined import devices
from standfast.survey.power import Route
from standfast.survey.read import Survey


class Way(NamedTuple):
    """The way of one route.

    Attributes:
        rooms: rooms of the walls that its ends are on, by id; None where nobody knows.
        bends: quarter bends between the ends, those at the enclosures not counted; missing where the way is not known.
    """

    rooms: tuple[str, str] | None
    bends: Value


def ways(job: Survey, places: Sequence[PlacedUnit]) -> dict[str, Way]:
    """The way of every route, by its id.

    Args:
        job: the job file.
        places: where the units stand.
    """
    return {route.id: _way(job, route, places) for route in job.job.routes}


def _way(job: Survey, route: Route, places: Sequence[PlacedUnit]) -> Way:
    ends = [_end(job, end, places) for end in (route.from_, route.to)]
    first, second = ends
    need = f'routes.{route.id}: along = "wall" where it follows the wall, else count its bends when it is fitted'
    unknown = missing("n_bend", "1", need)
    if first is None or second is None:
        return Way(None, unknown)
    room = {wall.id: wall.room for wall in job.job.walls}
    rooms = (room[first.wall], room[second.wall])
    surface = laid_flat(job, first.wall, second.wall) if route.along == "wall" else None
    found = None if surface is None else bends(surface, first, second)
    if found is None:
        return Way(rooms, unknown)
    how = f"along the wall, across and up, from the middle of {route.from_} to that of {route.to}"
    return Way(rooms, chosen("n_bend", float(found), "1", how, None))


def _end(job: Survey, end: str, places: Sequence[PlacedUnit]) -> Middle | None:
    place = next((each for each in places if each.id == devices(job.job).get(end, end)), None)
    return middle(job, end) if place is None else of_unit(place)
