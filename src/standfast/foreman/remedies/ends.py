"""Breakers of sources brought to the end of a busbar: into free spaces, or in exchange with what sits there."""

from collections.abc import Iterator

from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies.change import New
from standfast.reading.positions import Path
from standfast.survey.agreed import rows, source_circuits
from standfast.survey.power import Panel

Slot = tuple[int, ...]
Words = list[tuple[Path, New]]


def at_end(plan: JobPlan, path: Path, panel: Panel) -> Words | None:
    """The words that bring every source of a panel to its last rows; none where they sit there, None where no way is.

    Args:
        plan: the job.
        path: of the panel.
        panel: the panel.
    """
    if panel.spaces is None:
        return []
    sources = [number for number in source_circuits(plan.survey.job, panel) if panel.circuits[number].spaces]
    if _together(panel, sources):
        return []
    held = {number: circuit.spaces for number, circuit in enumerate(panel.circuits) if circuit.spaces}
    for number in sources:
        slot = next((each for each in slots(panel.spaces) if _fits(each, number, sources, held)), None)
        if slot is None:
            return None
        own = list(held[number])
        for other in [each for each, spaces in held.items() if each != number and set(spaces) & set(slot)]:
            held[other] = tuple(own.pop(0) for _ in held[other])
        held[number] = slot
    was = {number: circuit.spaces for number, circuit in enumerate(panel.circuits)}
    return [((*path, "circuits", number, "spaces"), slot) for number, slot in held.items() if slot != was[number]]


def _together(panel: Panel, sources: list[int]) -> bool:
    """Whether nothing but sources sits between each source and the last row."""
    last = ((panel.spaces or 0) + 1) // 2
    taken = {row for number in sources for row in rows(panel.circuits[number])}
    return not taken or taken == set(range(min(taken), last + 1))


def slots(spaces: int) -> Iterator[Slot]:
    """Places for breakers of two poles from the end of a panel, right and left in turn."""
    for low in range(spaces - 2, 1, -4):
        yield from ((low, low + 2), (low - 1, low + 1))


def _fits(slot: Slot, number: int, sources: list[int], held: dict[int, Slot]) -> bool:
    """Whether a source can take a slot: as many poles; what sits there is no source and goes where the source was."""
    there = [each for each, spaces in held.items() if each != number and set(spaces) & set(slot)]
    whole = all(set(held[each]) <= set(slot) for each in there)
    return len(held[number]) == len(slot) and whole and not set(there) & set(sources)
