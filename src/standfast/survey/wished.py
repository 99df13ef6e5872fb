"""Faults between the number of battery units and where they shall be."""

from collections.abc import Iterator

from standfast.faults import Fault
from standfast.reading import Document, engine
from standfast.reading.positions import Path
from standfast.survey.joined import unit_ids
from standfast.survey.model import Job

MOST = 8
"""Battery units that a job can have."""


def wished(survey: Document[Job]) -> Iterator[Fault]:
    """More units than have names, wishes for units that are not there, and wishes that could mean any of them."""
    wishes, count = survey.content.wishes, survey.content.equipment.quantity or 1
    if count > MOST:
        what, todo = f"quantity is {count}: a job holds {MOST} units at most", "split the work into two jobs"
        yield survey.fault(("equipment", "quantity"), what, "", todo)
        return
    yield from engine.same(survey, ("wishes", "units"), [each.id for each in wishes.units])
    units = unit_ids(survey.content)
    for number, each in enumerate(wishes.units):
        if each.id not in units:
            todo = "correct the quantity, or name another unit"
            path = ("wishes", "units", number, "id")
            yield survey.fault(path, f'there is no unit "{each.id}"', f"quantity is {count}", todo)
    for word, value in (("left", wishes.left), ("bottom", wishes.bottom)):
        if count > 1 and value is not None:
            what = f"wishes.{word} could mean any of {count} units"
            yield survey.fault(("wishes", word), what, "", "write it under [[wishes.units]], with the id of a unit")
    yield from _without_wall(survey)


def _without_wall(survey: Document[Job]) -> Iterator[Fault]:
    """A left edge that counts from the end of no wall."""
    wishes = survey.content.wishes
    edges: list[tuple[Path, object, str | None]] = [(("wishes", "left"), wishes.left, wishes.wall)]
    for number, each in enumerate(wishes.units):
        edges.append((("wishes", "units", number, "left"), each.left, each.wall or wishes.wall))
    for path, left, wall in edges:
        if left is not None and wall is None:
            why = "it counts from the left end of a wall"
            yield survey.fault(path, "a left edge is wished, but no wall", why, "name the wall, or take the edge out")
