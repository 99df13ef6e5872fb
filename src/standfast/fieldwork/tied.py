"""Where the steps of a data sheet are tied in among those of the job."""

from standfast.fieldwork import direct, linking, sealing
from standfast.fieldwork.job_steps import DEAD, DELIVERY, INSULATION, LIFT, RESTORE, SHUTDOWN, join_shutdown_id
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.putting_up import drilled_by
from standfast.fieldwork.sheet_steps import drills, live_steps
from standfast.fieldwork.steps import Bounds


def bounds(plan: Plan, device: Device) -> Bounds:
    """Where the steps of a device's data sheet are tied in."""
    drilled = drilled_by(plan, device)
    own = device.role == "inverter"
    batteries, arrays = (plan.of_role("battery"), direct.joining_arrays(plan)) if own else ([], [])
    return Bounds(
        delivered=DELIVERY, drilled=drilled, dead=DEAD, pulled=INSULATION, lift=LIFT, powered=RESTORE,
        shutdown=join_shutdown_id(device.id), far_dc=tuple(id for each in batteries for id in _joins_dc(each)),
        sources=(
            *(id for each in batteries for id in (*_starts(each), *direct.closes(plan, each))),
            *(step.id for step in arrays),
        ),
        tested_again=direct.tested_again_id(device.id),
        mounted=SHUTDOWN,
        drilled_all=_drilled_all(plan),
        inside=_inside(plan, device),
    )  # fmt: skip


def _inside(plan: Plan, device: Device) -> tuple[str, ...]:
    """What the job does behind the covers of a device before they are shut."""
    sealed = (sealing.seal_id(device.id),) if sealing.has_entries(plan, device.id) else ()
    return (*sealed, linking.link_id(device.id)) if linking.inside(plan, device.id) else sealed


def _drilled_all(plan: Plan) -> tuple[str, ...]:
    """The steps of all data sheets that drill."""
    return tuple(f"{each.id}.{step.id}" for each in plan.devices for step in each.sheet.steps if drills(step))


def _joins_dc(device: Device) -> list[str]:
    """The steps of a battery that join its DC conductors."""
    direct = {terminal.id for terminal in device.sheet.terminals if terminal.use == "dc"}
    return [f"{device.id}.{step.id}" for step in device.sheet.steps if step.joint in direct]


def _starts(device: Device) -> list[str]:
    """The steps of a battery that put power on it."""
    live = live_steps(device.sheet)
    return [f"{device.id}.{step.id}" for step in device.sheet.steps if step.id in live]
