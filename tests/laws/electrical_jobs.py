"""Demo jobs with one fact made worse, and the electrical design of them."""

from collections.abc import Iterator
from functools import cache
from typing import Any, NamedTuple

from standfast.design.wiring.by_book import electrical
from standfast.design.wiring.whole import Wiring
from standfast.equipment.read import KINDS, find
from standfast.foreman.demo import job_text
from standfast.reading.positions import Path
from standfast.rulebooks.nfpa70 import sizes
from standfast.shelf import adopted_on, edition
from standfast.survey import Survey
from standfast.survey.read import changed, read
from standfast.units import Quantity

NEC = edition("nfpa70", "2023")
METRIC = ("terrace", "verandah")
DEMOS = ("one_wall", "detached_pair", "stack_outdoors", "cabinet", "many_sources")
RANK = {"fail": 0, "cannot tell": 1, "pass": 2}
"""Better is greater; a check that does not apply has no rank."""


class Design(NamedTuple):
    """Wiring of a job, and every electrical verdict by the id of its check."""

    wiring: Wiring
    verdicts: dict[str, str]

    def areas(self) -> dict[str, float]:
        """Area of the conductors of every circuit that has a size, in circular mils or mm2."""
        if self.wiring.metric is not None:
            return {each.id: each.area.quantity for each in self.wiring.metric.circuits if not each.area.missing}
        found = {each.id: each.conductor.size for each in self.wiring.circuits}
        return {id: sizes.area(NEC, size).quantity for id, size in found.items() if not size.missing}


@cache
def demo(name: str) -> Survey:
    """A demo job."""
    found = read(job_text(name)).survey
    if found is None:
        raise AssertionError(name)
    return found


@cache
def as_it_is(name: str) -> Design:
    """The design of a demo job as it stands."""
    return design(demo(name))


def design(survey: Survey) -> Design:
    """The electrical trades of a job."""
    chosen = {role: getattr(survey.job.equipment, role) for role in KINDS}
    sheets = {role: sheet for role, id in chosen.items() if id is not None and (sheet := find(id).sheet) is not None}
    trades = electrical(adopted_on(survey.job.job.adoption, survey.job.job.date), sheets)
    wired, load = trades.wire(survey, {}), trades.load(survey)
    backup = trades.backup(survey, load)
    checks = [*wired.checks, *load.checks, *backup.checks]
    return Design(wired, {check.id: check.verdict for check in checks})


def with_words(survey: Survey, changes: list[tuple[Path, object]]) -> Survey:
    """The job with words changed."""
    found = changed(survey, changes)
    if found is None:
        raise AssertionError(f"{changes} makes faults")
    return found


def routes(survey: Survey, word: str) -> Iterator[tuple[Path, Any]]:
    """Where each route has a word, and what stands there."""
    for at, route in enumerate(survey.job.routes):
        if getattr(route, word) is not None:
            yield ("routes", at, word), getattr(route, word)


def sections(survey: Survey, path: Path) -> Iterator[tuple[int, Any]]:
    """The pieces of the route that a path leads into, each with its number."""
    yield from enumerate(survey.job.routes[int(path[1])].sections)


def loads(survey: Survey) -> Iterator[tuple[Path, Quantity]]:
    """Where each circuit and each appliance has its load."""
    for at, panel in enumerate(survey.job.panels):
        for number, circuit in enumerate(panel.circuits):
            if circuit.load is not None:
                yield ("panels", at, "circuits", number, "load"), circuit.load
    for at, appliance in enumerate(survey.job.loads.appliances):
        yield ("loads", "appliances", at, "rating"), appliance.rating


def never_better(before: Design, after: Design, but: tuple[str, ...] = ()) -> list[str]:
    """Checks whose verdict got better, but those whose id begins with some words."""
    return [
        f"{id}: {was} → {after.verdicts[id]}"
        for id, was in before.verdicts.items()
        if id in after.verdicts and not id.startswith(but) and was in RANK and after.verdicts[id] in RANK
        and RANK[after.verdicts[id]] > RANK[was]
    ]  # fmt: skip
