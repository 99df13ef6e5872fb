"""One battery unit fewer: the last one, with its circuit and its runs."""

from collections.abc import Iterator

from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies.change import Ladder, New, ladder, one
from standfast.reading.positions import Path
from standfast.sheet import Check
from standfast.survey.joined import devices, has_inverter, owner, unit_ids


def units(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """The last unit left out, where there are several with an inverter inside each."""
    job, names = plan.survey.job, unit_ids(plan.survey.job)
    if len(names) < 2 or has_inverter(job):
        return
    last, known = names[-1], devices(job)
    words: list[tuple[Path, New]] = []
    for number, panel in enumerate(job.panels):
        gone = [nth for nth, circuit in enumerate(panel.circuits) if owner(job, circuit) == last]
        words += [(("panels", number, "circuits", nth), None) for nth in reversed(gone)]
    for number, route in reversed(list(enumerate(job.routes))):
        if any(known.get(end, end).partition("/")[0] == last for end in (route.from_, route.to)):
            words.append((("routes", number), None))
    for number, wish in reversed(list(enumerate(job.wishes.units))):
        if wish.id == last:
            words.append((("wishes", "units", number), None))
    words.append((("equipment", "quantity"), len(names) - 1))
    yield ladder([one(f"leave {last.replace('-', ' ')} out", *words)])
