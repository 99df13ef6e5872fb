"""Switches inside a device on a side that the job joins to nothing: told where they are turned, never passed over."""

from standfast.equipment.inside import Side
from standfast.equipment.task import Step
from standfast.fieldwork.plan import Device, Plan


def cautions(plan: Plan, device: Device, step: Step) -> tuple[str, ...]:
    """What a step that turns such a switch tells."""
    to = None if step.does is None else step.does.to
    sides = {gate.side for gate in device.sheet.gates if gate.name == to} - joined(plan, device)
    return tuple(
        plan.say("order.unjoined", side=plan.say(f"order.side_{side}"), name=device.name) for side in sorted(sides)
    )


def joined(plan: Plan, device: Device) -> set[Side]:
    """The sides of a device that the job joins to something; the cells of a battery always are."""
    graph = plan.installation
    if device.role == "battery":
        inverter = f"{device.id}/inverter"
        ways: dict[Side, list[str]] = {"dc": [device.id], "ac": [inverter] if inverter in graph.parts else []}
        own = {device.id, inverter}
        found: set[Side] = {side for side, ids in ways.items()
                            if any(there.id not in own for id in ids for there, _ in graph.beside(id))}  # fmt: skip
        return found | {"cells"}
    kinds = {source.kind for source in graph.feeding(device.id)}
    fed = any(link.b == device.id for link in graph.links if link.kind != "bond")
    sides: dict[Side, bool] = {"pv": "array" in kinds, "dc": "battery" in kinds, "ac": fed}
    return {side for side, there in sides.items() if there}
