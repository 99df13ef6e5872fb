"""Faults between what feeds what: two breakers for one panel, a generator on two circuits, lugs that are a breaker."""

from collections.abc import Iterator

from standfast.faults import Fault
from standfast.reading import Document
from standfast.reading.complaints import nearest
from standfast.reading.positions import Path
from standfast.survey.joined import INVERTER, has_inverter, unit_ids
from standfast.survey.model import Job
from standfast.survey.power import Panel

MOST_UNITS = 8
"""Units for which a control may hold words while nobody knows how many there are."""


def feeding(survey: Document[Job]) -> Iterator[Fault]:
    """Every fault between panels, generators, controls and the circuits that feed them."""
    yield from _twice(survey)
    yield from _one_name(survey)
    for number, panel in enumerate(survey.content.panels):
        yield from _fed(survey, number, panel)
    yield from _controls(survey)


def _twice(survey: Document[Job]) -> Iterator[Fault]:
    """One thing that two breakers feed, or that is fed from another panel than its breaker is in."""
    job, seen = survey.content, dict[str, str]()
    above = {panel.id: panel.fed_from for panel in job.panels}
    for number, panel in enumerate(job.panels):
        for nth, circuit in enumerate(panel.circuits):
            fed, at = circuit.feeds, ("panels", number, "circuits", nth, "feeds")
            if fed is None or (fed not in above and fed not in survey.named("generators")):
                continue
            if fed in seen:
                what = f'"{fed}" is fed by two circuits'
                yield survey.fault(at, what, f"{seen[fed]} and {panel.id}/{circuit.id}", "leave the one that feeds it")
            elif above.get(fed, panel.id) not in (panel.id, None):
                what = f'"{circuit.id}" of panel "{panel.id}" feeds "{fed}"'
                todo = "correct one of the two"
                yield survey.fault(at, what, f'that panel says fed_from = "{above[fed]}"', todo)
            seen.setdefault(fed, f"{panel.id}/{circuit.id}")


def _one_name(survey: Document[Job]) -> Iterator[Fault]:
    """A generator that has the name of something else that conductors can be joined to."""
    taken = survey.named("panels") | survey.named("arrays") | {"utility", "meter", "battery", "inverter", "inverter-1"}
    taken |= {f"battery-{number}" for number in range(1, 9)}
    for number, each in enumerate(survey.content.generators):
        if each.id in taken:
            what = f'generator "{each.id}" has the name of something else'
            yield survey.fault(("generators", number, "id"), what, "", "give it a name of its own")
        if each.connection == "inlet" and each.starts_by_itself:
            what = f'generator "{each.id}" is plugged in by hand, and starts without a person'
            todo = "correct connection, or starts_by_itself"
            yield survey.fault(
                ("generators", number, "starts_by_itself"), what, "nobody would have plugged it in", todo
            )


def _fed(survey: Document[Job], number: int, panel: Panel) -> Iterator[Fault]:
    """Main device, lugs and breaker of one panel against each other."""
    at: Path = ("panels", number)
    if panel.main_lugs and panel.main is not None:
        what = f'"{panel.id}" has main lugs only, and a main of {panel.main.text}'
        yield survey.fault((*at, "main_lugs"), what, "main lugs are no device", "leave out main, or main_lugs")
    by_breaker = [
        f"{above.id}/{circuit.id}"
        for above in survey.content.panels
        for circuit in above.circuits
        if circuit.feeds == panel.id
    ]
    if panel.fed_by in ("feed-through lugs", "tap") and by_breaker:
        what = f'"{panel.id}" is fed by {panel.fed_by}, and by the breaker {by_breaker[0]}'
        yield survey.fault((*at, "fed_by"), what, "", "leave out feeds there, or correct fed_by")
    if panel.fed_by is not None and panel.fed_from == "utility":
        what = f'"{panel.id}" is fed from the utility by {panel.fed_by}'
        yield survey.fault((*at, "fed_by"), what, "there is no panel above it", "leave out fed_by, or name the panel")


def _sources(survey: Document[Job]) -> set[str]:
    """Words for the sources that the job adds; of units whose number nobody knows, every one that there can be."""
    job = survey.content
    counted = job.equipment.quantity is not None or survey.left_out("equipment.quantity")
    units = unit_ids(job) if counted else [f"battery-{number}" for number in range(1, MOST_UNITS + 1)]
    if has_inverter(job):
        return {"battery", "inverter", INVERTER, *units}
    return {*units, "battery"} if len(units) == 1 else set(units)


def _controls(survey: Document[Job]) -> Iterator[Fault]:
    """What a control limits, and what it holds back, are things of the job."""
    limited = survey.named("panels") | {"service"}
    held = _sources(survey)
    held |= survey.named("panels", "circuits") | survey.named("generators")
    held |= {each.id for each in survey.content.loads.appliances}
    for number, control in enumerate(survey.content.controls):
        if control.limits not in limited:
            what = f'there is no panel "{control.limits}"'
            yield survey.fault(("controls", number, "limits"), what, "", nearest(control.limits, sorted(limited)))
        for nth, each in enumerate(control.sources):
            if each not in held:
                at: Path = ("controls", number, "sources", nth)
                yield survey.fault(at, f'there is no source "{each}"', "", nearest(each, sorted(held)))
