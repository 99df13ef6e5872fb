"""Conductors pulled and joined: the new ones tested first, existing circuits moved over, the shutdown switch joined."""

from standfast.commissioning.due_test import DueTest
from standfast.fieldwork import arc_fault, fronts, wired
from standfast.fieldwork.isolation import worked_panels
from standfast.fieldwork.job_steps import (
    DEAD,
    INSULATION,
    PULL,
    SHUTDOWN,
    job_step,
    join_shutdown_id,
    named_tests,
    with_torque,
)
from standfast.fieldwork.joints import Joint
from standfast.fieldwork.making_dead import entered
from standfast.fieldwork.order.house import front_id
from standfast.fieldwork.order.of_sheet import covers, terminals
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.sheet_steps import closing, covers_off, lands_shutdown, opening, proofs, shutdown_terminals
from standfast.fieldwork.steps import WorkStep
from standfast.survey.power import Circuit, Panel


def connecting(plan: Plan, tests: list[DueTest], runs: list[str], all_joints: list[Joint]) -> list[WorkStep]:
    """Pull, test the new conductors, connect every device of the job, move circuits."""
    before = [test.id for test in tests if test.when == "before power"]
    steps = [
        job_step(plan, PULL, "connect", tuple(dict.fromkeys([*runs, DEAD, *_uncovered(plan)])), key="pull"),
        job_step(plan, INSULATION, "connect", (PULL,), key="dead_tests", tests=named_tests(plan, before)),
    ]
    moved = {f"{panel.id}/{circuit.id}" for panel, circuit in _moved(plan)}
    for place, name, found in _places(plan, all_joints):
        stay = [joint for joint in found if joint.id.rpartition("/")[0] not in moved]
        step = job_step(
            plan, f"job.connect-{place.replace('/', '-')}", "connect", (INSULATION,), key="connect", name=name
        )
        hidden = fronts.behind(plan, (place,))
        step = step._replace(touches=entered(plan, place), behind=hidden)
        step = step._replace(tightens=tuple((joint.id, front) for joint in stay for front in hidden))
        lands = (*wired.new_breakers(plan, place), *wired.at(plan, place))
        steps.append(with_torque(plan, step._replace(lands=lands), stay))
    for id in dict.fromkeys(panel.id for panel, _ in _moved(plan)):
        steps.append(_move(plan, id, all_joints))
    all_of_it = everywhere(plan)
    open_ = fronts.behind(plan, (panel.id for panel in worked_panels(plan)))
    steps[0] = steps[0]._replace(touches=all_of_it, behind=open_, lands=wired.every(plan))
    steps[1] = steps[1]._replace(touches=all_of_it, behind=open_, clears=all_of_it)
    return [step._replace(hands=True) for step in (*steps, *_join_shutdown(plan, all_joints))]


def everywhere(plan: Plan) -> tuple[str, ...]:
    """The terminals of everything that conductors are pulled into."""
    places = [panel.id for panel in worked_panels(plan)]
    places += [part.id for part in plan.installation.of_kind("disconnect", "transfer equipment") if not part.existing]
    found = [name for place in places for name in entered(plan, place)]
    return tuple(dict.fromkeys((*found, *(name for each in plan.devices for name in terminals(each)))))


def _uncovered(plan: Plan) -> list[str]:
    """The steps of the devices that take covers off for the wiring and prove dead what is behind, before any of it is
    joined."""
    return [f"{each.id}.{id}" for each in plan.devices for id in sorted(covers_off(each.sheet) | proofs(each.sheet))]


def _moved(plan: Plan) -> list[tuple[Panel, Circuit]]:
    """Circuits that stand in a new panel and were there before: each with its new panel."""
    return [
        (panel, circuit)
        for panel in plan.survey.job.panels
        for circuit in panel.circuits
        if panel.state == "new" and circuit.state == "existing"
    ]


def _move(plan: Plan, id: str, all_joints: list[Joint]) -> WorkStep:
    """Existing circuits go over into a new panel; their breakers are tightened here, when the conductors are in."""
    found = [(panel, circuit) for panel, circuit in _moved(plan) if panel.id == id]
    names = "; ".join(wired.moved(plan, circuit) for _, circuit in found)
    words = {"panel": found[0][0].name or id, "circuits": names}
    step = job_step(plan, f"job.move-{id}", "connect", (f"job.connect-{id}",), key="move", **words)
    homes = dict.fromkeys(circuit.moved_from for _, circuit in found if circuit.moved_from is not None)
    reached = tuple(name for place in (id, *homes) for name in entered(plan, place))
    step = step._replace(touches=reached, behind=fronts.behind(plan, (id, *homes)))
    here = {circuit.id for _, circuit in found}
    apart = ", ".join(each.name or each.id for each in arc_fault.moved(plan) if each.id in here)
    if apart:
        step = step._replace(text=f"{step.text} {plan.say('order.move_arc_fault', circuits=apart)}")
    devices = {f"{id}/{circuit.id}" for _, circuit in found}
    found_joints = [joint for joint in all_joints if joint.id.rpartition("/")[0] in devices]
    step = step._replace(tightens=tuple((joint.id, front_id(id)) for joint in found_joints))
    return with_torque(plan, step, found_joints)


def _join_shutdown(plan: Plan, all_joints: list[Joint]) -> list[WorkStep]:
    """The switch of the emergency shutdown is joined to each unit, and an inverter, while its cover is off.

    Where a step of the data sheet lands its cable with the other signals, it is joined there and not twice.
    """
    return [_at_device(plan, each, all_joints) for each in plan.shut_down if not lands_shutdown(each.sheet)]


def _at_device(plan: Plan, device: Device, all_joints: list[Joint]) -> WorkStep:
    """Its terminals are tightened here where the sheet names them, since no step of the sheet does."""
    after = (SHUTDOWN, PULL, *(f"{device.id}.{id}" for id in _opened(device)))
    step = job_step(plan, join_shutdown_id(device.id), "connect", after, key="join_shutdown", name=device.name)
    named = {f"{device.id}/{id}" for id in shutdown_terminals(device.sheet)}
    found = [joint for joint in all_joints if joint.id in named]
    hidden = tuple((joint.id, cover) for joint in found for cover in covers(device))
    return with_torque(plan, step._replace(touches=tuple(terminals(device)), tightens=hidden), found)


def _opened(device: Device) -> list[str]:
    """The steps of a device that take covers off which are fitted again later."""
    steps = list(device.sheet.steps)
    by_id = {step.id: step for step in steps}
    return [each for id in sorted(closing(steps)) for each in sorted(opening(by_id, by_id[id]))]


def _places(plan: Plan, all_joints: list[Joint]) -> list[tuple[str, str, list[Joint]]]:
    """Where conductors land, except in units and inverter: each panel with its breakers, each switch by itself."""
    graph, units = plan.installation, {each.id for each in plan.devices}
    found: dict[str, tuple[str, list[Joint]]] = {}
    for joint in (each for each in all_joints if each.terminal):
        device = graph.parts[joint.id.rpartition("/")[0]]
        if device.id not in units:
            buses = [part for part, _ in graph.beside(device.id) if part.kind == "busbar"]
            place = buses[0] if device.kind == "breaker" and buses else device
            found.setdefault(place.id, (place.name, []))[1].append(joint)
    return [(id, name, joints) for id, (name, joints) in found.items()]
