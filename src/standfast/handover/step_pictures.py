"""Pictures beside the steps of the work order, where position matters: switches and locks, holes, pieces of a stack,
conductors at their terminals.

Each is made from what the steps themselves say, so a picture cannot show another position than its step.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.equipment.put_up import drills
from standfast.equipment.stacked import BRACE
from standfast.fieldwork.holes import Hole
from standfast.fieldwork.joints import USES
from standfast.fieldwork.plan import Device, Plan, Run, Use
from standfast.fieldwork.runs import named_size
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder
from standfast.handover import step_marks as marks
from standfast.handover import way_marks
from standfast.handover.step_cards import Pictures
from standfast.handover.step_marks import Made, Position
from standfast.paper.document import Picture


class Pictured(NamedTuple):
    """The pictures of the steps: which stand beside which step, and the text of each file."""

    beside: Pictures
    svg: Mapping[str, str]


def step_pictures(plan: Plan, order: WorkOrder) -> Pictured:
    """The pictures of all steps, by step."""
    turned = _switches(plan, order)
    beside: dict[str, list[Picture]] = {}
    files: dict[str, str] = {}
    held = {f"job.open-{each.id}": way_marks.picture(plan, each) for each in order.isolations}
    for number, step in enumerate(order.steps, 1):
        made = [each for each in (held.get(step.id), turned.get(step.id)) if each is not None]
        for place, each in enumerate([*made, *_of_device(plan, order, step)], 1):
            name = f"step-{number}-{place}.svg"
            files[name] = each.svg
            beside.setdefault(step.id, []).append(Picture(name, each.told, each.width))
    return Pictured(beside, files)


def _switches(plan: Plan, order: WorkOrder) -> dict[str, Made]:
    """For each step that turns switches or sets locks: every one of them before and after it, as the order stands."""
    house = order.decided.house
    now = {gate.id: Position(gate.closed, gate.locked, not gate.locks) for gate in house.site.gates}
    found: dict[str, Made] = {}
    for step in order.steps:
        before = {turn.gate: now[turn.gate] for turn in step.turns if turn.gate in now}
        for turn in step.turns:
            if turn.gate in now:
                now[turn.gate] = now[turn.gate].turned(turn.change)
        rows = [(house.called(gate), was, now[gate]) for gate, was in before.items()]
        if rows:
            found[step.id] = marks.switches(plan, rows)
    return found


def _of_device(plan: Plan, order: WorkOrder, step: WorkStep) -> Iterator[Made]:
    """Holes, pieces and terminals of the step of a data sheet."""
    device = next((each for each in plan.devices if step.id.startswith(f"{each.id}.")), None)
    if device is None:
        return
    own = next((each for each in device.sheet.steps if f"{device.id}.{each.id}" == step.id), None)
    if own is None:
        return
    if drills(own):
        for id in dict.fromkeys(each.of for each in _holes(order, device)):
            holes = [each for each in _holes(order, device) if each.of == id]
            if not any(each.x.missing or each.y.missing for each in holes):
                yield marks.holes(plan, holes, floor="/F" in holes[0].id)
    stacked = [part for part in device.sheet.parts if part.at is not None and BRACE not in part.id]
    lifted = [part for part in stacked if part.id in own.parts]
    if len(stacked) > 1 and lifted:
        yield marks.stack(plan, device, stacked, {part.id for part in lifted})
    terminal = next((each for each in device.sheet.terminals if each.id == own.joint), None)
    if terminal is not None and (
        landed := _landed(plan, device, USES.get(terminal.use or "", ()), terminal.use == "pv")
    ):
        every = [plan.told(device.sheet, each.name or each.id) for each in device.sheet.terminals]
        yield marks.terminals(plan, every, plan.told(device.sheet, terminal.name or terminal.id), landed)


def _holes(order: WorkOrder, device: Device) -> list[Hole]:
    return [hole for hole in order.holes.holes if hole.of.partition("/")[0] == device.id]


def _landed(plan: Plan, device: Device, uses: Sequence[Use], sunny: bool) -> list[str]:
    """The conductors of the job that land on terminals of a use: run, size, colour of the wire list."""
    arrays = {part.id for part in plan.installation.of_kind("array")}
    return [
        f"{run.name}: {wire.number} × {named_size(wire.size.word)} {plan.say(f'materials.{wire.use}')}"
        for run in plan.runs
        if _ends_at(run, device)
        and (not {"positive", "negative"} & set(uses) or bool(arrays & set(run.parts)) == sunny)
        for wire in run.wires
        if wire.use in uses and not wire.size.missing
    ]


def _ends_at(run: Run, device: Device) -> bool:
    return bool(run.parts) and device.id in (run.parts[0], run.parts[-1])
