"""Every entry sealed: where raceways and cables go into an enclosure or through a wall, when the conductors are in.

Before the covers: who seals an entry reaches into it. With what follows from the run, from what the data sheet of the
device names for its entries, and from the rows of sealant of the bill of materials. Common practice of the trade.
"""

from collections.abc import Container, Iterator
from typing import NamedTuple

from standfast.fieldwork import fronts
from standfast.fieldwork.entries import entry_rows
from standfast.fieldwork.fixings import sealing_rows
from standfast.fieldwork.job_steps import INSULATION, SHUTDOWN, job_step
from standfast.fieldwork.making_dead import entered
from standfast.fieldwork.order.house import cover_id
from standfast.fieldwork.order.of_sheet import terminals
from standfast.fieldwork.plan import Device, Plan, Run
from standfast.fieldwork.runs import raceway_words
from standfast.fieldwork.sheet_steps import wired_behind
from standfast.fieldwork.steps import Reading, WorkStep

ENCLOSURES, WALLS = "job.seal-entries", "job.seal-walls"
ENTRY = "entry"
"""In what a data sheet says a thing of its boxes is for: "cable entry"."""


class Entry(NamedTuple):
    """Where one run or cable goes into one enclosure: id and name of the enclosure, and what is done there."""

    place: str
    name: str
    text: str


def seal_id(device: str) -> str:
    """Id of the step that seals the entries of a unit or inverter."""
    return f"job.seal-{device}"


def has_entries(plan: Plan, device: str) -> bool:
    """True where something goes into a unit or inverter that this job seals there."""
    return any(each.place == device for each in entries(plan))


def entries(plan: Plan) -> list[Entry]:
    """Every entry of the runs and cables of the job, and of the cable of the emergency shutdown."""
    return [*_of_runs(plan), *_of_cables(plan), *_of_shutdown(plan)]


def steps(plan: Plan) -> list[WorkStep]:
    """The entries of each unit and inverter, those of panels and switches together, the walls."""
    found = entries(plan)
    devices = {each.id: each for each in plan.devices}
    steps = [_at_device(plan, each, [entry for entry in found if entry.place == id]) for id, each in devices.items()]
    rest = [entry for entry in found if entry.place not in devices]
    return [*(step for step in steps if step is not None), *_elsewhere(plan, rest), *_walls(plan)]


def _at_device(plan: Plan, device: Device, found: list[Entry]) -> WorkStep | None:
    if not found:
        return None
    shut = wired_behind(device.sheet)
    opened = tuple(f"{device.id}.{id}" for ids in shut.values() for id in ids)
    named = [item.name for item in (*device.sheet.box.contents, *device.sheet.box.not_in_box)
             if ENTRY in (item.use or "").lower()]  # fmt: skip
    step = _step(plan, seal_id(device.id), (INSULATION, *opened), found)
    if named:
        things = ", ".join(plan.told(device.sheet, each) for each in named)
        step = step._replace(text=f"{step.text} {plan.say('order.seal_named', things=things)}")
    return step._replace(touches=tuple(terminals(device)), behind=_covers(device, shut))


def _covers(device: Device, shut: Container[str]) -> tuple[str, ...]:
    """The covers that those steps fit."""
    does = [step.does for step in device.sheet.steps if step.id in shut]
    return tuple(dict.fromkeys(cover_id(device.id, each.to) for each in does if each is not None and each.to))


def _elsewhere(plan: Plan, found: list[Entry]) -> list[WorkStep]:
    if not found:
        return []
    places = list(dict.fromkeys(each.place for each in found))
    step = _step(plan, ENCLOSURES, (INSULATION,), found)
    reached = tuple(dict.fromkeys(name for place in places for name in entered(plan, place)))
    return [step._replace(touches=reached, behind=fronts.behind(plan, places))]


def _step(plan: Plan, id: str, after: tuple[str, ...], found: list[Entry]) -> WorkStep:
    names = ", ".join(dict.fromkeys(each.name for each in found))
    step = job_step(plan, id, "connect", after, key="seal", names=names)
    seen = tuple(Reading(plan.say("order.seal_at", name=each.name, entry=each.text), "", ticked=True) for each in found)
    return step._replace(hands=True, readings=seen, evidence=(plan.say("order.keep_photo"),))


def _walls(plan: Plan) -> list[WorkStep]:
    """What the bill of materials has sealant for, one after another; none where it has none."""
    rows = [*entry_rows(plan), *sealing_rows(plan)]
    if not rows:
        return []
    seen = (Reading(plan.say("order.seal_with", where=row.use, what=row.what), "", ticked=True) for row in rows)
    laid = [*(f"job.run-{each.id}" for each in plan.runs), *(f"job.run-{each.id}" for each in plan.cables)]
    laid += [SHUTDOWN] if plan.shut_down else []
    step = job_step(plan, WALLS, "check", (*laid, INSULATION), key="seal_walls")
    return [step._replace(readings=tuple(seen), evidence=(plan.say("order.keep_photo"),))]


def _of_runs(plan: Plan) -> Iterator[Entry]:
    for run in plan.runs:
        for place in run.parts:
            if plan.installation.parts[place].kind != "array":
                yield _entry(plan, place, _raceway(plan, run))


def _raceway(plan: Plan, run: Run) -> str:
    if run.raceway.missing or run.trade_size.missing:
        return plan.say("order.seal_unknown", name=run.name)
    key = "seal_raceway" if run.wet is False else "seal_raceway_wet"
    return plan.say(f"order.{key}", name=run.name, **raceway_words(plan, run))


def _of_cables(plan: Plan) -> Iterator[Entry]:
    links = {link.id: link for link in plan.installation.links}
    for cable in plan.cables:
        armoured = not cable.cable.missing and "armoured" in cable.cable.word
        key = "seal_gland_armoured" if armoured else "seal_gland"
        for place in (links[cable.id].a, links[cable.id].b):
            yield _entry(plan, place, plan.say(f"order.{key}", name=cable.name))


def _of_shutdown(plan: Plan) -> Iterator[Entry]:
    for device in plan.shut_down:
        yield _entry(plan, device.id, plan.say("order.seal_shutdown"))


def _entry(plan: Plan, part: str, text: str) -> Entry:
    """An entry of the enclosure that a part is in: a breaker is in its panel, a built-in inverter in its unit."""
    graph = plan.installation
    here, owner = graph.parts[part], part.partition("/")[0]
    if here.kind == "inverter" and owner != part:
        here = graph.parts[owner]
    if here.kind == "breaker":
        here = next((each for each, _ in graph.beside(part) if each.kind == "busbar"), here)
    return Entry(here.id, here.name, text)
