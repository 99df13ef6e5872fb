"""A removal or service as a work order that a crew is planned for: what each step consists of, and its waits."""

from collections.abc import Iterable, Iterator, Mapping

from standfast.aftercare.coming_back import closed_of
from standfast.aftercare.making import (
    ASSESSED,
    CONDITION,
    DEAD,
    DEAD_HOUSE,
    DISCHARGE,
    LIFT,
    SEEN,
    SEEN_HOUSE,
    STOP,
    SUPPLY,
    TELL,
)
from standfast.aftercare.removal import Removal
from standfast.aftercare.retests import CLOSE_WHEN
from standfast.aftercare.service import Service
from standfast.commissioning.due_test import DueTest
from standfast.equipment.task import Step
from standfast.fieldwork.holds import holds
from standfast.fieldwork.holes import HoleCard
from standfast.fieldwork.isolation import CONDUCTORS, MOST, Isolation
from standfast.fieldwork.joints import joints
from standfast.fieldwork.order.redo import done_again
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.tests_at import READ_BACK
from standfast.fieldwork.work_order import Decided, WorkOrder
from standfast.reading.quantities import amount

Kinds = tuple[tuple[str, float | None], ...]
ONCE: Mapping[str, Kinds] = {
    TELL: (("papers", 1),), CONDITION: (("look", 1),), DISCHARGE: (("extra", None),), LIFT: (("lift_ready", 1),),
    ASSESSED: (("extra", None),), SUPPLY: (("look", 1),), STOP: (("switch", 1),), DEAD: (("look", 1),),
    DEAD_HOUSE: (("look", 1),),
    "house.seal": (("extra", 1),), "house.directory": (("papers", 1),), "house.notice": (("papers", 1),),
    "house.papers": (("hand_over", 1),), "in.new": (("delivery", 1),), "in.read-back": (("test", 1),),
    "in.end": (("hand_over", 1),), "firmware.before": (("papers", 1),), "firmware.update": (("extra", None),),
}  # fmt: skip
"""Steps by the kinds of work of the firm file. How long a unit discharges, an assessment or an update takes nobody
knows."""
TESTING = {"house.dead-tests": "dead", "house.live": "live", "in.tests": "dead", "in.live": "live"}


def of_removal(plan: Plan, made: Removal) -> WorkOrder:
    """A removal as a work order.

    Args:
        plan: the job as built.
        made: its removal.
    """
    order = _order(plan, made.steps, made.decided, made.tests, made.parted.panels)
    gone = [part for part in made.leaves.parts if part.id in made.taken]
    own: dict[str, Kinds] = {
        f"house.out-{panel.id}": (("circuit", sum(made.taken[part.id] == f"house.out-{panel.id}" for part in gone)),)
        for panel in made.leaves.panels
    }
    wires = len(CONDUCTORS[plan.survey.job.supply.system or MOST])
    for part in made.leaves.bypassed:
        own[made.taken[part.id]] = (("mount", 1), ("joint", 4 * wires))  # out at both sides, joined at both
    for part in gone:
        own.setdefault(made.taken[part.id], (("mount", 1),))
    own["house.labels"] = (("label", len(plan.labels)),)
    steps = {step.id: step for step in made.steps}
    own["house.bond"] = (("test", len(steps["house.bond"].readings)),)
    own["house.closed"] = (("look", 1),)
    kept = {id: found for id, found in own.items() if not id.startswith("aside.")}
    outside = frozenset({ASSESSED} & set(steps))
    return order._replace(amounts={**kept, **order.amounts}, outside=outside)


def of_service(plan: Plan, made: Service) -> WorkOrder:
    """A service as a work order.

    Args:
        plan: the job as built.
        made: the service.
    """
    order = _order(plan, made.steps, made.decided, made.tests, ())
    return order._replace(together=made.together)


def _order(
    plan: Plan, steps: tuple[WorkStep, ...], decided: Decided, tests: tuple[DueTest, ...], panels: Iterable[Isolation]
) -> WorkOrder:  # fmt: skip
    numbers = {step.id: number for number, step in enumerate(steps, 1)}
    amounts = {step.id: found for step in steps if (found := _amounts(plan, step, tests)) is not None}
    waits = {step.id: wait for step in steps if (wait := _wait_min(plan, step, tests)) is not None}
    unknown = {step.id: (("extra", None),) for step in steps if step.waited and waits.get(step.id) is None}
    shown = {step.shows: step.id for step in steps if step.shows}
    done_at = {test.id: shown.get(test.shows, "") or _closed_at(plan, test, numbers) or _doing(test, numbers)
               for test in tests}  # fmt: skip
    return WorkOrder(
        (), plan.say("removal.rule"), (), (), steps, numbers, tuple(panels), tuple(joints(plan)),
        HoleCard((), (), (), (), ""), tests, decided, holds(plan, steps, tests),
        done_again(decided.acts, list(numbers)),
        done_at=done_at, amounts={**amounts, **unknown}, waits_min=waits,
    )  # fmt: skip


def _closed_at(plan: Plan, test: DueTest, numbers: Mapping[str, int]) -> str:
    """The step of a service that does a test while power comes back; empty where the work has none for it."""
    at = closed_of(plan, test) if test.when in CLOSE_WHEN else ""
    return at if at in numbers else ""


def _doing(test: DueTest, numbers: Mapping[str, int]) -> str:
    """The step that does a test which no step of a data sheet shows; empty where the work has none for it."""
    if test.key == READ_BACK and "in.read-back" in numbers:
        return "in.read-back"
    kind = "dead" if test.when in ("before power", "connected") else "live"
    return next((id for id, tested in TESTING.items() if tested == kind and id in numbers), "")


def _amounts(plan: Plan, step: WorkStep, tests: Iterable[DueTest]) -> Kinds | None:
    """What a step of removal or service consists of; None where it is counted by what it does."""
    if step.id in TESTING:
        here = [test for test in tests if not _closed_at(plan, test, {closed_of(plan, test): 1})]
        return (("test", sum(_doing(test, {step.id: 1}) == step.id for test in here)),)
    if step.id in (SEEN, SEEN_HOUSE):
        return (("switch", len(step.readings)),)
    if step.waited:
        return ()
    if step.id.startswith("out."):
        return (("joint", _terminals(plan, step)),)
    if step.id.startswith("undo."):
        return _undone(plan, step)
    if step.id.startswith("back.") and not step.turns:
        return (("look", 1),)
    return ONCE.get(step.id)


def _terminals(plan: Plan, step: WorkStep) -> float:
    """Conductors that a step takes out; one where the data sheet does not count its terminals."""
    _, device, terminal = step.id.split(".", 2)
    for each in plan.devices:
        for one in each.sheet.terminals if each.id == device else ():
            if one.id == terminal:
                return float(one.count or 1)
    return 1


def _undone(plan: Plan, step: WorkStep) -> Kinds:
    """Joints undone, connectors parted, parts lifted down: as many as the data sheet has put up."""
    device, made = _made(plan, step)
    if device is None or made is None:
        return (("fit", 1),)
    found = list[tuple[str, float | None]]()
    joint = next((one for one in device.sheet.joints if one.id == made.joint), None)
    if joint is not None:
        found.append(("joint", float(joint.count or 1)))
    parts = [part for part in device.sheet.parts if part.id in made.parts]
    if parts and made.does is not None and made.does.change == "fit":
        lifted = sum(float(part.count or 1) for part in parts)
        found.append(("lift" if (made.people or 0) > 1 else "fit", lifted))
    return tuple(found) or (("fit", 1),)


def _made(plan: Plan, step: WorkStep) -> tuple[Device | None, Step | None]:
    """The device of a step that undoes another, and the step of its data sheet that it undoes."""
    _, device, id = step.id.removesuffix(".off").split(".", 2)
    for each in plan.devices:
        if each.id == device:
            return each, next((one for one in each.sheet.steps if one.id == id), None)
    return None, None


def _wait_min(plan: Plan, step: WorkStep, tests: Iterable[DueTest]) -> float | None:
    """Minutes that pass after a step and hold nobody; None where it is asked of what it does."""
    if step.id.startswith("off.wait-"):
        device = next(each for each in plan.devices if step.id == f"off.wait-{each.id}")
        return max(_discharge_min(device), default=None)
    if step.id in TESTING:
        values = [test.value for test in tests if _doing(test, {step.id: 1}) == step.id]
        return sum(each.quantity / 60 for each in values if each is not None and not each.missing and each.unit == "s")
    return None


def _discharge_min(device: Device) -> Iterator[float]:
    """Times that the data sheet states until charges are gone."""
    waits = [each.does.time for each in device.sheet.steps if each.does is not None and each.does.change == "wait"]
    waits.append(None if device.sheet.dc is None else device.sheet.dc.discharge_time)
    yield from (amount(each, "min") for each in waits if each is not None)
