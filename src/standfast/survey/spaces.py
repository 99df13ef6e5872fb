"""Spaces of a panel: which circuits take them as found, which as it will be, and whether the counts agree."""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.faults import Fault
from standfast.reading import Document
from standfast.reading.positions import Path
from standfast.survey.model import Job
from standfast.survey.power import Circuit, Panel


class Held(NamedTuple):
    """A circuit in a panel: its spaces there, how many poles it has (None where nobody said), the place in the job."""

    circuit: Circuit
    spaces: tuple[int, ...]
    poles: int | None
    path: Path


def as_found(job: Job, panel: str) -> list[Held]:
    """The circuits that a panel holds before the work: those that stay in it, and those that are moved out of it."""
    found = []
    for number, each in enumerate(job.panels):
        for nth, circuit in enumerate(each.circuits):
            way: Path = ("panels", number, "circuits", nth)
            if circuit.moved_from == panel:
                found.append(_held(circuit, circuit.moved_spaces, (*way, "moved_spaces")))
            elif each.id == panel and each.state != "new" and circuit.state != "new" and circuit.moved_from is None:
                found.append(_held(circuit, circuit.spaces, (*way, "spaces")))
    return found


def as_built(job: Job, panel: str) -> list[Held]:
    """The circuits that a panel holds after the work."""
    return [
        _held(circuit, circuit.spaces, ("panels", number, "circuits", nth, "spaces"))
        for number, each in enumerate(job.panels)
        if each.id == panel
        for nth, circuit in enumerate(each.circuits)
    ]


def counted(survey: Document[Job], number: int, panel: Panel) -> Iterator[Fault]:
    """Every fault in the spaces of one panel.

    Args:
        survey: the job as read.
        number: of the panel in the job.
        panel: the panel.
    """
    job, at = survey.content, ("panels", number)
    found, built = as_found(job, panel.id), as_built(job, panel.id)
    seen: set[str] = set()
    for held in (found, built):
        for fault in _taken(survey, panel, held):
            if fault.what not in seen:
                seen.add(fault.what)
                yield fault
    yield from _moved(survey, number, panel)
    if panel.spaces is None or panel.free_spaces is None:
        return
    if panel.free_spaces > panel.spaces:
        what = f"free_spaces ({panel.free_spaces}) is more than spaces ({panel.spaces})"
        yield survey.fault((*at, "free_spaces"), what, "", "count again")
        return
    yield from _free(survey, number, panel, built if panel.state == "new" else found)


def _held(circuit: Circuit, spaces: tuple[int, ...], path: Path) -> Held:
    return Held(circuit, spaces, len(spaces) or circuit.poles, path)


def _taken(survey: Document[Job], panel: Panel, held: list[Held]) -> Iterator[Fault]:
    """Two breakers in one space, and spaces that the panel has not."""
    taken: dict[int, str] = {}
    for each in held:
        for space in each.spaces:
            name = each.circuit.id
            if space in taken:
                what = f'space {space} is taken by "{taken[space]}" and by "{name}"'
                yield survey.fault(each.path, what, "", "look into the panel again")
            elif space < 1 or (panel.spaces is not None and space > panel.spaces):
                what = f'"{name}" is in space {space}'
                why = f'panel "{panel.id}" has {panel.spaces} spaces' if panel.spaces else "spaces count from 1"
                yield survey.fault(each.path, what, why, "check the number")
            taken.setdefault(space, name)


def _moved(survey: Document[Job], number: int, panel: Panel) -> Iterator[Fault]:
    """Words about a move that cannot be true."""
    for nth, circuit in enumerate(panel.circuits):
        at: Path = ("panels", number, "circuits", nth)
        if circuit.moved_from is None and circuit.moved_spaces:
            what = f'"{circuit.id}" has moved_spaces, but no panel that it is moved from'
            yield survey.fault((*at, "moved_spaces"), what, "", 'write moved_from = "…", the id of that panel')
        if circuit.moved_from is not None and circuit.state == "new":
            what = f'"{circuit.id}" is new and is moved from "{circuit.moved_from}"'
            yield survey.fault((*at, "moved_from"), what, "a new circuit was nowhere before", "change one of the two")
        count = len(circuit.moved_spaces)
        if count and circuit.poles is not None and count != circuit.poles:
            what = f'"{circuit.id}" has {circuit.poles} poles and {count} moved_spaces'
            yield survey.fault((*at, "moved_spaces"), what, "a pole takes a space", "list one space for each pole")


def _free(survey: Document[Job], number: int, panel: Panel, held: list[Held]) -> Iterator[Fault]:
    """More circuits than the counted spaces hold. Fewer are no fault: the rest of the panel is not listed yet."""
    if panel.spaces is None or panel.free_spaces is None:
        return
    taken = sum(each.poles for each in held if each.poles is not None)
    left = panel.spaces - taken
    if left >= panel.free_spaces:
        return
    what = f'free_spaces of "{panel.id}" is {panel.free_spaces}, but the listed circuits leave {max(left, 0)}'
    why = f"they take {taken} of {panel.spaces} spaces"
    todo = "look which of them are in it, or count the free spaces again"
    yield survey.fault(("panels", number, "free_spaces"), what, why, todo)
