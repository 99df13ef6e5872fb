"""The order of the work as plain data: every step, what it does to power, and what is unsafe in some order."""

from collections.abc import Iterator

from standfast.fieldwork.order.decide import Unsafe
from standfast.fieldwork.order.from_steps import step_of
from standfast.fieldwork.order.house import House
from standfast.fieldwork.order.mending import mending
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.pack import sitework
from standfast.foreman.plan import JobPlan

Data = dict[str, object]


def ordering(plan: JobPlan) -> Data:
    """The order of the work of a job in the form of ``schemas/order.json``.

    Raises:
        BadFormula: where steps wait for each other, or change one switch or cover without an order between them.
    """
    site = sitework(plan)
    order = work_order(site)
    house = order.decided.house
    return {
        "schema": 1,
        "job": plan.title,
        "adoption": plan.adoption.name,
        "work": "installation",
        "steps": [_step(order, house, each) for each in order.steps],
        "switches": [
            {"id": gate.id, "name": house.called(gate.id), "closed": gate.closed, "locked": gate.locked}
            for gate in house.site.gates
        ],
        "sources": [{"id": id, "name": house.called(id)} for id in house.site.sources],
        "unsafe": [_unsafe(order, each) for each in order.decided.unsafe],
    }


def _step(order: WorkOrder, house: House, step: WorkStep) -> Data:
    return {
        "number": order.numbers[step.id],
        "id": step.id,
        "part": step.stage,
        "text": step.text,
        "after": [order.numbers[each] for each in step.after],
        "turns": [{"switch": house.called(turn.gate), "change": turn.change} for turn in step.turns],
        "touches": list(dict.fromkeys(_called(house, step.touches))),
        "proves": list(dict.fromkeys(_called(house, step.proves))),
        "takes_off": step.takes_off or None,
        "puts_on": step.puts_on or None,
    }


def _called(house: House, terminals: tuple[str, ...]) -> Iterator[str]:
    return (house.called(each) for each in terminals)


def _unsafe(order: WorkOrder, found: Unsafe) -> Data:
    house, acts, _ = order.decided
    text = {step.id: step.text for step in order.steps}
    step = step_of(found.act or found.order[-1])
    waits = mending(house.site, acts, found)
    return {
        "step": order.numbers[step],
        "text": text[step],
        "why": found.why,
        "what": house.called(found.what),
        "source": house.called(found.source) if found.source else None,
        "through": [house.called(gate) for gate in found.gates],
        "order": list(dict.fromkeys(order.numbers[step_of(act)] for act in found.order)),
        "mended_by": [
            {"step": order.numbers[step_of(act)], "waits_for": order.numbers[step_of(before)]} for act, before in waits
        ],
    }
