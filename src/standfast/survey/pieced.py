"""Faults in runs that are told piece by piece: their sections make up the run and lie where it lies."""

from collections.abc import Iterator

from standfast.faults import Fault
from standfast.reading import Document, engine
from standfast.reading.positions import Path
from standfast.reading.quantities import amount
from standfast.survey.model import Job
from standfast.survey.power import Route
from standfast.units import show

AS_LONG_MM = 25.4
"""Sections that are measured each by itself and make up the run to this are as long as it: common practice."""


def pieced(survey: Document[Job]) -> Iterator[Fault]:
    """Every fault in the sections of routes."""
    for number, route in enumerate(survey.content.routes):
        at: Path = ("routes", number, "sections")
        yield from engine.same(survey, at, [each.id for each in route.sections])
        yield from _long(survey, at, route)
        for nth, section in enumerate(route.sections):
            if section.on_roof and route.wet is False:
                what = f'section "{section.id}" lies on a roof, but route "{route.id}" says wet = false'
                yield survey.fault((*at, nth, "on_roof"), what, "a roof is outdoors", "correct one of the two")


def _long(survey: Document[Job], at: Path, route: Route) -> Iterator[Fault]:
    """The sections together are as long as the run."""
    if route.sections and route.length is None and route.along == "wall":
        what = f'route "{route.id}" has sections, and its length follows the wall'
        yield survey.fault(at, what, "sections make up a length that is known", "write its length instead of along")
    lengths = [each.length for each in route.sections if each.length is not None]
    if route.length is None or not lengths or len(lengths) < len(route.sections):
        return
    whole, parts = amount(route.length, "mm"), sum(amount(each, "mm") for each in lengths)
    if max(whole - parts, parts - whole) > AS_LONG_MM:
        both = f"{show(round(parts / 304.8, 2), 'ft')} together, the run {show(round(whole / 304.8, 2), 'ft')}"
        what = f'the sections of route "{route.id}" are {both}'
        yield survey.fault(
            at, what, "a run is as long as its pieces", "measure the pieces again, or add the one left out"
        )
