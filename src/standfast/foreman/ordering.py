"""The order of the work as plain data: every step, what it does to power, and what is unsafe in some order."""

from collections.abc import Iterator, Mapping, Sequence

from standfast.aftercare.goal import reached
from standfast.aftercare.rules import Rule
from standfast.aftercare.service import WHATS, service
from standfast.aftercare.supply import for_owner
from standfast.commissioning.due_test import DueTest
from standfast.faults import FaultsFound
from standfast.fieldwork.covering import faults
from standfast.fieldwork.joints import Joint
from standfast.fieldwork.order.decide import Unsafe
from standfast.fieldwork.order.from_steps import step_of
from standfast.fieldwork.order.house import House
from standfast.fieldwork.order.mending import mending
from standfast.fieldwork.order.redo import done_again
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep, tightened
from standfast.fieldwork.work_order import Decided, work_order
from standfast.foreman.crew import day_of, schedule_data
from standfast.foreman.pack import sitework
from standfast.foreman.plan import JobPlan
from standfast.foreman.removals import held, planned, removal_day, service_day

Data = dict[str, object]


def ordering(plan: JobPlan) -> Data:
    """The order of the work of a job in the form of ``schemas/order.json``.

    Raises:
        FaultsFound: where a torque or test of the job is done by no tool that the firm file lists.
        BadFormula: where steps wait for each other, or change one switch or cover without an order between them.
    """
    site = sitework(plan)
    _reached(plan, site)
    order = work_order(site)
    told = _told(plan, "installation", order.steps, order.decided)
    return told | {"schedule": schedule_data(site, order, day_of(plan, site, order))}


def _reached(
    plan: JobPlan, site: Plan, tightened: Sequence[Joint] | None = None, tests: Sequence[DueTest] | None = None
) -> None:  # fmt: skip
    """Nothing where the firm's own tools do all that a work asks, or the job has no firm file.

    Raises:
        FaultsFound: where a torque or test is done by no tool that the firm file lists.
    """
    short = [] if plan.firm is None else faults(plan.firm, site, tightened, tests)
    if short:
        raise FaultsFound([plan.folder.placed(each) for each in short])


def removing(plan: JobPlan, word: str = "sound") -> Data:
    """The removal of a job in the same form, with what the rules of carriage ask and what the model reaches.

    Args:
        plan: the job.
        word: the condition in which the battery leaves, one of `CONDITIONS`.

    Raises:
        FaultsFound: where a test of the house that stays is done by no tool that the firm file lists.
        BadFormula: where steps wait for each other.
    """
    site = sitework(plan)
    made = next(each for each in planned(plan, site).values() if each.condition == word)
    _reached(plan, site, (), made.tests)
    goal, worked = reached(made, [each.id for each in made.steps]), removal_day(plan, site, made)
    told = _told(plan, f"removal, {made.condition}", made.steps, made.decided)
    schedule = schedule_data(worked.plan, worked.order, worked.day)
    if made.supply is not None:
        schedule["owner"] = [*for_owner(site, made.supply), *worked.for_owner]
        told["supply"] = {
            word: [each.name for each in found]
            for word, found in (("kept", made.supply.kept), ("dark", made.supply.dark), ("backed", made.supply.backed))
        } | {"through": list(made.supply.through)}
    return told | {
        "carriage": [each._asdict() for each in made.asked],
        "rules": [_rule(made.numbers, each) for each in held(plan, site, made)],
        "tests": [_test(each) for each in made.tests],
        "schedule": schedule,
        "reached": {
            "left": list(goal.left), "closed": list(goal.closed), "unfed": list(goal.unfed),
            "locked": list(goal.locked),
            "bonds": [{"part": row.part, "where": row.where, "verdict": row.verdict} for row in made.bonds.rows],
        },
    }  # fmt: skip


def serving(plan: JobPlan, word: str, unit: str = "") -> Data:
    """A service of a job in the same form.

    Args:
        plan: the job.
        word: what is replaced or updated, one of `WHATS`.
        unit: id of the unit or inverter; empty for the first that has such a part, and for the firmware of all.

    Raises:
        FaultsFound: where a torque or test of the service is done by no tool that the firm file lists.
        BadFormula: where steps wait for each other.
        NotInEdition: where the job has no such unit or part.
    """
    site = sitework(plan)
    made = service(site, next(each for each in WHATS if each == word), unit)
    _reached(plan, site, tightened(site, made.steps), made.tests)
    worked = service_day(plan, site, made)
    told = _told(plan, f"service, {made.what}", made.steps, made.decided)
    return told | {
        "units": [{"id": each.id, "name": each.name} for each in made.units],
        "tests": [_test(each) for each in made.tests],
        "schedule": schedule_data(worked.plan, worked.order, worked.day),
    }


def _rule(numbers: Mapping[str, int], rule: Rule) -> Data:
    return {
        "rule": rule.book, "first": rule.first, "then": rule.then or None, "verdict": rule.verdict,
        "before": [numbers[id] for id in rule.before], "after": [numbers[id] for id in rule.after],
    }  # fmt: skip


def _test(test: DueTest) -> Data:
    return {
        "id": test.id, "when": test.when, "what": test.what, "how": test.how, "limit": test.limit or None,
        "ground": test.ground or None, "readings": [{"what": each.what, "unit": each.unit} for each in test.readings],
    }  # fmt: skip


def _told(plan: JobPlan, work: str, steps: Sequence[WorkStep], decided: Decided) -> Data:
    house = decided.house
    order, redo = _Steps(steps), done_again(decided.acts, [each.id for each in steps])
    return {
        "schema": 1,
        "job": plan.title,
        "adoption": plan.adoption.name,
        "work": work,
        "steps": [
            _step(order, house, each) | {"redo": [order.numbers[id] for id in redo.get(each.id, ())]} for each in steps
        ],
        "switches": [
            {"id": gate.id, "name": house.called(gate.id), "closed": gate.closed, "locked": gate.locked}
            for gate in house.site.gates
        ],
        "sources": [{"id": id, "name": house.called(id)} for id in house.site.sources],
        "unsafe": [_unsafe(order, decided, each) for each in decided.unsafe],
    }


class _Steps:
    """Steps in their order, with their numbers."""

    def __init__(self, steps: Sequence[WorkStep]) -> None:
        self.steps = steps
        self.numbers = {each.id: number for number, each in enumerate(steps, 1)}


def _step(order: _Steps, house: House, step: WorkStep) -> Data:
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


def _unsafe(order: _Steps, decided: Decided, found: Unsafe) -> Data:
    house, acts, _ = decided
    text = {step.id: step.text for step in order.steps}
    step = step_of(found.act or found.order[-1])
    waits = mending(house.site, acts, found)
    return {
        "step": order.numbers[step],
        "text": text[step],
        "why": found.why,
        "what": text.get(step_of(found.what)) or house.called(found.what),
        "source": house.called(found.source) if found.source else None,
        "through": [house.called(gate) for gate in found.gates],
        "order": list(dict.fromkeys(order.numbers[step_of(act)] for act in found.order)),
        "mended_by": [
            {"step": order.numbers[step_of(act)], "waits_for": order.numbers[step_of(before)]} for act, before in waits
        ],
    }
