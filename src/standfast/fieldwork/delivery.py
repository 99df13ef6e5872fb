"""The delivery check: what must be in each box, what is written down of each unit and module, and damage with what to
do about it. Each row is a tick, or a space to write in."""

from typing import Literal, NamedTuple

from standfast.equipment.model import Part
from standfast.fieldwork.plan import Device, Plan

DAMAGE = ("packaging", "indicator", "drop", "dent", "swelling", "smell", "wet", "warm")
"""What is looked for, by the key of its text."""
Kind = Literal["contents", "serial number", "firmware", "state of charge", "damage"]


class Boxed(NamedTuple):
    """A thing in a box: of which device, what, how many (None where the data sheet does not say), what for."""

    device: str
    what: str
    number: float | None
    use: str


class Received(NamedTuple):
    """One row of the delivery check.

    Attributes:
        device: name of the device; empty for damage, which is looked for at every box and unit.
        kind: what kind of row it is.
        what: what is counted, read or looked for.
        number: how many; empty where that is not said.
        todo: what is done where it is not as it should be.
    """

    device: str
    kind: Kind
    what: str
    number: str
    todo: str


def delivery(plan: Plan) -> list[Received]:
    """The delivery check of a job: device by device, then damage."""
    rows: list[Received] = []
    for device in plan.devices:
        rows += _of(plan, device)
    act = plan.say("van.damage_todo")
    return [*rows, *(Received("", "damage", plan.say(f"van.damage_{key}"), "", act) for key in DAMAGE)]


def boxes(plan: Plan) -> list[Boxed]:
    """Everything that comes in the boxes, as the data sheets list it."""
    return [
        Boxed(
            device.name,
            plan.told(device.sheet, item.name),
            None if item.count is None else float(item.count),
            plan.told(device.sheet, item.use or ""),
        )
        for device in plan.devices
        for item in device.sheet.box.contents
    ]


def numbered(device: Device) -> list[tuple[str, int | None]]:
    """What of a device bears a serial number of its own: itself, and each piece of the parts at whose step its data
    sheet has serial numbers kept; None where it does not say how many pieces there are."""
    kept = {name for step in device.sheet.steps if "serial number" in step.evidence for name in step.parts}
    parts: list[Part] = [part for part in device.sheet.parts if part.id in kept or part.name in kept]
    return [(device.sheet.name, 1), *((part.name, part.count) for part in parts)]


def _of(plan: Plan, device: Device) -> list[Received]:
    say, unknown = plan.say, plan.say("common.not_known")
    contents = [each for each in boxes(plan) if each.device == device.name]
    rows = [
        Received(device.name, "contents", each.what, unknown if each.number is None else f"{each.number:g}",
                 say("van.contents_todo"))
        for each in contents
    ]  # fmt: skip
    if not contents:
        rows.append(Received(device.name, "contents", say("van.contents_unknown"), unknown, say("van.contents_ask")))
    for name, count in numbered(device):
        if count is None:
            what = say("van.serial", name=name)
            rows.append(Received(device.name, "serial number", what, unknown, say("van.serial_todo")))
            continue
        for place in range(1, count + 1):
            one = name if count == 1 else say("van.serial_of", name=name, place=place, count=count)
            what = say("van.serial", name=one)
            rows.append(Received(device.name, "serial number", what, "1", say("van.serial_todo")))
    rows.append(Received(device.name, "firmware", say("van.firmware"), "", say("van.firmware_todo")))
    if device.role == "battery":
        rows.append(Received(device.name, "state of charge", say("van.charge"), "", say("van.charge_todo")))
    return rows
