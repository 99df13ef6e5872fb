"""What a step consists of, as amounts: holes, metres, joints, pairs, switches, tests.

An amount that is not known is told, and the step is counted without it: its time is then too short, and says so.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.commissioning.due_test import DueTest
from standfast.equipment.put_up import drills
from standfast.equipment.task import Step
from standfast.fieldwork.job_steps import (
    CHECK,
    CHECK_VAN,
    CLOSED_TESTS,
    DELIVERY,
    DUST,
    HANDOVER,
    INSULATION,
    LABELS,
    LIFT,
    LIVE_TESTS,
    PAPERS,
    PULL,
    RESTORE,
    SCAN,
    SETTINGS,
)
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.putting_up import mount_id
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder
from standfast.sheet import Value
from standfast.units import convert

TESTING = (INSULATION, CLOSED_TESTS, RESTORE, SETTINGS, LIVE_TESTS)
"""Steps that do tests, and nothing else that is counted."""
ONCE = {
    PAPERS: "papers", CHECK_VAN: "van", DUST: "dust", LIFT: "lift_ready", CHECK: "look", HANDOVER: "hand_over",
}  # fmt: skip


class Amount(NamedTuple):
    """So much of one kind of work, by the words of the firm file; None where the number is not known."""

    kind: str
    number: float | None


class Maker(NamedTuple):
    """The step of a data sheet that a step of the work is, and its device."""

    device: Device
    step: Step


def maker_of(plan: Plan, step: WorkStep) -> Maker | None:
    """The step of a data sheet behind a step; None for one of the job's own."""
    device, _, id = step.id.partition(".")
    for each in plan.devices:
        if each.id == device and step.source == "data sheet":
            return next((Maker(each, made) for made in each.sheet.steps if made.id == id), None)
    return None


def amounts(plan: Plan, order: WorkOrder, step: WorkStep) -> list[Amount]:
    """What one step consists of."""
    if step.id in order.amounts:
        return [Amount(kind, number) for kind, number in order.amounts[step.id]]
    made = maker_of(plan, step)
    if made is not None:
        return list(_of_sheet(plan, order, step, made))
    own = list(_of_job(plan, order, step))
    return own or list(_of_effects(step)) or [Amount("fit", 1)]


def tests_of(order: WorkOrder, step: WorkStep) -> list[DueTest]:
    """The tests that a step does."""
    return [test for test in order.tests if order.done_at.get(test.id) == step.id]


def _of_job(plan: Plan, order: WorkOrder, step: WorkStep) -> Iterator[Amount]:
    """The job's own steps, by their ids."""
    if step.id in ONCE:
        yield Amount(ONCE[step.id], 1)
    elif step.id == DELIVERY:
        yield Amount("delivery", max(1, len(plan.devices)))
    elif step.id == SCAN:
        yield Amount("scan", len(order.holes.holes))
    elif step.id == LABELS:
        yield Amount("label", len(plan.labels))
    elif step.id == PULL:
        yield from (Amount("pull", _metres(run.length, sum(wire.number for wire in run.wires))) for run in plan.runs)
        yield Amount("fit", 1)
    elif step.id.startswith("job.mount-"):
        yield Amount("mount", 1)
        spots = sum(len(held.spots) for held in plan.held if mount_id(held.id) == step.id)
        yield from [Amount("hole", spots)] if spots else []
    elif step.id.startswith("job.run-"):
        yield from _run(plan, step)
    elif step.id.startswith("job.move-"):
        panel = next(each for each in plan.survey.job.panels if step.id == f"job.move-{each.id}")
        yield Amount("circuit", sum(circuit.state == "existing" for circuit in panel.circuits))
    elif step.id.startswith("job.existing-"):
        yield Amount("extra", 1)
    else:
        yield from _tested(order, step)


def _tested(order: WorkOrder, step: WorkStep) -> Iterator[Amount]:
    tests = len(tests_of(order, step))
    if tests or step.id in TESTING:
        yield Amount("test", tests)
        yield from _of_effects(step._replace(touches=(), torque=(), proves=()))


def _run(plan: Plan, step: WorkStep) -> Iterator[Amount]:
    for run in plan.runs:
        if step.id == f"job.run-{run.id}":
            yield Amount("raceway", _metres(run.length))
            yield Amount("raceway_end", 2)
    for cable in plan.cables:
        if step.id == f"job.run-{cable.id}":
            yield Amount("cable", _metres(cable.length))
            yield Amount("raceway_end", 2)


def _metres(length: Value, pieces: int = 1) -> float | None:
    return None if length.missing else convert(length.quantity, length.unit, "m") * pieces


def _of_sheet(plan: Plan, order: WorkOrder, step: WorkStep, made: Maker) -> Iterator[Amount]:
    """A step of a data sheet, by what it does and what it names."""
    joints = [each for each in order.joints if each.id == f"{made.device.id}/{made.step.joint}"]
    spots = sum(len(held.spots) for held in plan.held if held.of == made.device.id)
    change = made.step.does.change if made.step.does is not None else "none"
    if change == "wait":
        return
    if drills(made.step) and spots:
        yield Amount("hole", spots)
    elif joints:
        yield from (Amount("joint", _number(each.number)) for each in joints)
    elif change == "prove dead":
        yield Amount("pair", max((len(each.pairs) for each in order.isolations), default=1))
    elif change in ("remove cover", "fit cover"):
        yield Amount("cover", 1)
    elif change in ("open", "close", "lock", "unlock"):
        yield Amount("switch", max(1, len(step.turns)))
    else:
        yield Amount("lift" if (made.step.people or 0) > 1 and made.step.parts else "fit", 1)


def _of_effects(step: WorkStep) -> Iterator[Amount]:
    """Any step, by what it does to switches, covers and terminals."""
    if step.turns:
        yield Amount("switch", len(step.turns))
    if step.proves or step.id.startswith(("job.dead", "job.dead-again")):
        yield Amount("pair", sum(reading.spaces for reading in step.readings if reading.unit == "V"))
    if step.takes_off or step.puts_on:
        yield Amount("cover", 1)
    if step.torque:
        yield Amount("joint", _spaces(step))


def _spaces(step: WorkStep) -> int:
    """Joints of a step: the spaces that it has for them, without the one for the number of the tool."""
    return max(1, sum(reading.spaces for reading in step.readings) - 1)


def _number(value: Value) -> float | None:
    return None if value.missing else value.quantity


def kinds(found: Sequence[Amount]) -> list[str]:
    """The kinds of some amounts, each once."""
    return list(dict.fromkeys(each.kind for each in found))
