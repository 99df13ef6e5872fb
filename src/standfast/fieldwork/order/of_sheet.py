"""What a step of a data sheet does to switches, covers and terminals, in the names that the house of the order has."""

from typing import NamedTuple

from standfast.design.installation.graph import SWITCHES
from standfast.equipment.contradicted import endangers
from standfast.equipment.task import Change as Done
from standfast.equipment.task import Step
from standfast.fieldwork.order.acts import Change, Turn
from standfast.fieldwork.order.house import cover_id, gate_id, secondary_id
from standfast.fieldwork.plan import Device, Plan

TURNS: dict[Done, Change] = {
    "open": "open", "close": "close", "lock": "lock", "unlock": "unlock", "plug in": "close", "unplug": "open",
}  # fmt: skip
SEATED: tuple[Done, ...] = ("plug in", "unplug", "put in", "take out")
"""Changes of what is joined or seated; a plug is that of a connector or of a sensor."""
OWN_BREAKER = {"battery breaker": "battery", "inverter breaker": "inverter"}
"""What data sheets call the breaker of their circuit, which is a part of the house."""


class Effects(NamedTuple):
    """The last fields of a step of the work, in their order."""

    turns: tuple[Turn, ...] = ()
    touches: tuple[str, ...] = ()
    proves: tuple[str, ...] = ()
    waited: tuple[str, ...] = ()
    takes_off: str = ""
    puts_on: str = ""
    behind: tuple[str, ...] = ()
    shut: tuple[str, ...] = ()


def effects(plan: Plan, device: Device, step: Step, *, hands: bool) -> Effects:
    """What one step of a device's data sheet does.

    Args:
        plan: the job.
        device: the device.
        step: the step.
        hands: true where hands reach to conductors; where the step names no terminals, all of the device count.
    """
    named = [zone for zone in device.sheet.zones if zone.name in step.touches]
    touched = [f"{device.id}:{side}" for zone in named for side in zone.sides if side != "cells"]
    if hands and not named:
        touched = terminals(device)
    behind = tuple(dict.fromkeys(cover_id(device.id, zone.under) for zone in named if zone.under is not None))
    found = Effects(touches=tuple(dict.fromkeys(touched)), behind=behind)
    if step.does is None or step.does.to is None:
        return found
    change, to = step.does.change, step.does.to
    if change == "remove cover":
        return found._replace(takes_off=cover_id(device.id, to))
    if change == "fit cover":
        return found._replace(puts_on=cover_id(device.id, to))
    if change == "prove dead":
        return found._replace(proves=_of_zone(device, to), touches=())
    if change == "wait":
        return found._replace(waited=_of_zone(device, to))
    if change in SEATED:
        return _seated(plan, found, device, change, to)
    if change in TURNS:
        return found._replace(turns=_turns(plan, device, TURNS[change], to), shut=_shut(device, step))
    return found


def _seated(plan: Plan, found: Effects, device: Device, change: Done, to: str) -> Effects:
    """A secondary that is joined or parted, a transformer or temporary part that is put in or taken out."""
    sensors = {each.name: endangers(each) for each in device.sheet.sensors}
    if change in ("plug in", "unplug") and to not in sensors:
        return found._replace(turns=_turns(plan, device, TURNS[change], to))
    if to in sensors and not sensors[to]:
        return found
    id = secondary_id(device.id, to) if change in ("plug in", "unplug") else cover_id(device.id, to)
    return found._replace(puts_on=id) if change in ("plug in", "put in") else found._replace(takes_off=id)


def _shut(device: Device, step: Step) -> tuple[str, ...]:
    """No switch is closed while a cover of its device is off; connectors lie behind one."""
    if step.does is None or step.does.change != "close":
        return ()
    return covers(device)


def hiding(device: Device, step: Step) -> tuple[str, ...]:
    """The covers that hide the joint of a step: of the zones that it touches, for a terminal else every one."""
    made = device.sheet
    if step.joint is None:
        return ()
    named = [zone for zone in made.zones if zone.name in step.touches]
    if not named and step.joint in {terminal.id for terminal in made.terminals}:
        return covers(device)
    return tuple(dict.fromkeys(cover_id(device.id, zone.under) for zone in named if zone.under is not None))


def covers(device: Device) -> tuple[str, ...]:
    """Every cover of a device."""
    found = (cover_id(device.id, zone.under) for zone in device.sheet.zones if zone.under is not None)
    return tuple(dict.fromkeys(found))


def terminals(device: Device) -> list[str]:
    """All terminals of a device but those of its cells."""
    sides = dict.fromkeys(side for zone in device.sheet.zones for side in zone.sides if side != "cells")
    return [f"{device.id}:{side}" for side in sides]


def _of_zone(device: Device, name: str) -> tuple[str, ...]:
    zones = [zone for zone in device.sheet.zones if zone.name == name]
    return tuple(f"{device.id}:{side}" for zone in zones for side in zone.sides)


def _turns(plan: Plan, device: Device, change: Change, to: str) -> tuple[Turn, ...]:
    """One change of a gate inside; of the device's own breaker every switch on the way to it, from the device on."""
    if any(gate.name == to for gate in device.sheet.gates):
        return (Turn(gate_id(device.id, to), change),)
    if OWN_BREAKER.get(to) != device.role:
        return ()
    found = []
    for part in own_way(plan, device):
        if part != f"{device.id}/breaker":
            found.append(Turn(part, "unlock"))
        found.append(Turn(part, change))
    return tuple(found)


def own_way(plan: Plan, device: Device) -> list[str]:
    """The switches of a device's AC circuit, from the device to its breaker."""
    graph, breaker = plan.installation, f"{device.id}/breaker"
    start = f"{device.id}/inverter" if device.role == "battery" else device.id
    if breaker not in graph.parts or start not in graph.parts:
        return []
    return [part.id for part in graph.path(start, breaker) if part.kind in SWITCHES]
