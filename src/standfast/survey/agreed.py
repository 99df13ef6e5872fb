"""Faults between two places of the job file that state one fact: the service and its panel, a breaker and its space."""

from collections.abc import Iterator

from standfast.faults import Fault
from standfast.reading import Document
from standfast.reading.positions import Path
from standfast.survey.joined import owner
from standfast.survey.model import Job
from standfast.survey.power import Circuit, Panel

SAID_TWICE = ("main", "busbar")
"""Ratings that stand in [supply] and in the panel that the utility feeds."""
ENDS = ("opposite end", "same end")


def agreed(survey: Document[Job]) -> Iterator[Fault]:
    """Every fact that is said twice, and differently."""
    yield from _service(survey)
    yield from _fault_currents(survey)
    for number, panel in enumerate(survey.content.panels):
        yield from _position(survey, number, panel)


def service_panel(job: Job) -> int | None:
    """The number of the panel that holds the service disconnect; None where that stands by itself, or nobody knows."""
    fed = [number for number, panel in enumerate(job.panels) if panel.fed_from == "utility"]
    outside = job.supply.emergency_disconnect == "at the meter"
    apart = outside and job.supply.emergency_disconnect_mark in (None, "service disconnect")
    return fed[0] if len(fed) == 1 and not apart else None


def _service(survey: Document[Job]) -> Iterator[Fault]:
    job = survey.content
    number = service_panel(job)
    if number is None:
        return
    panel = job.panels[number]
    for word in SAID_TWICE:
        first, second = getattr(job.supply, word), getattr(panel, word)
        if first is not None and second is not None and first.number != second.number:
            what = f'{word} is "{second.text}" in panel "{panel.id}" and "{first.text}" in [supply]'
            why = "the panel that the utility feeds is the service equipment"
            yield survey.fault(
                ("panels", number, word), what, why, f"make supply.{word} and panels.{panel.id}.{word} one"
            )


def _fault_currents(survey: Document[Job]) -> Iterator[Fault]:
    """A least fault current above the greatest: one of them is of another place, or they were exchanged."""
    most, least = survey.content.supply.fault_current, survey.content.supply.least_fault_current
    if most is not None and least is not None and least.number > most.number:
        what = f'least_fault_current is "{least.text}" and fault_current is "{most.text}"'
        why = "the least cannot be more than the greatest"
        yield survey.fault(("supply", "least_fault_current"), what, why, "ask the utility for both, at the service")


def source_circuits(job: Job, panel: Panel) -> list[int]:
    """The circuits of a panel, by their numbers, through which a source that is on it or beyond it feeds its busbar."""
    return [number for number, circuit in enumerate(panel.circuits) if _feeds(job, circuit, frozenset({panel.id}))]


def _feeds(job: Job, circuit: Circuit, seen: frozenset[str]) -> bool:
    if circuit.source_output is not None or owner(job, circuit):
        return True
    below = next((each for each in job.panels if each.id == circuit.feeds and each.id not in seen), None)
    return below is not None and any(_feeds(job, each, seen | {below.id}) for each in below.circuits)


def rows(circuit: Circuit) -> set[int]:
    """The rows of a panel that a breaker takes, counted from the space with number 1: two spaces to a row."""
    return {(space + 1) // 2 for space in circuit.spaces}


def _position(survey: Document[Job], number: int, panel: Panel) -> Iterator[Fault]:
    """Breakers of sources that shall sit at an end, and do not."""
    if panel.source_position not in ENDS or panel.spaces is None:
        return
    circuits = [(nth, panel.circuits[nth]) for nth in source_circuits(survey.content, panel)]
    placed = [(nth, circuit) for nth, circuit in circuits if circuit.spaces]
    taken, last = {row for _, circuit in placed for row in rows(circuit)}, (panel.spaces + 1) // 2
    sides: dict[bool, str] = {}
    for nth, circuit in placed:
        own = rows(circuit)
        low, high = set(range(1, max(own))) <= taken, set(range(min(own), last + 1)) <= taken
        at: Path = ("panels", number, "circuits", nth, "spaces")
        said = f'"{circuit.id}" takes spaces {list(circuit.spaces)} of {panel.spaces}'
        todo = f"correct the spaces, or panels.{panel.id}.source_position"
        if not low and not high:
            why = f'source_position of "{panel.id}" is "{panel.source_position}", and these are at no end'
            yield survey.fault(at, said, why, todo)
        elif low != high:
            sides.setdefault(high, circuit.id)
            if (not high) in sides:
                why = f'"{sides[not high]}" is at the other end; source_position of "{panel.id}" names one'
                yield survey.fault(at, said, why, todo)
