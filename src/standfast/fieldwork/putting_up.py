"""The steps of the job up to the hanging units: papers and delivery, the scan, what is fixed to walls, the lift."""

from standfast.fieldwork import places, safeguards, shutdown
from standfast.fieldwork.holes import HoleCard
from standfast.fieldwork.job_steps import CHECK_VAN, DELIVERY, DUST, LIFT, PAPERS, SCAN, SHUTDOWN, job_step, with_torque
from standfast.fieldwork.joints import Joint
from standfast.fieldwork.plan import Base, Device, Held, Plan
from standfast.fieldwork.sheet_steps import drills
from standfast.fieldwork.steps import Reading, WorkStep


def arriving(plan: Plan) -> list[WorkStep]:
    """Papers, delivery, van."""
    serials = tuple(Reading(plan.say("order.serial_of", name=each.name), "", kind="serial") for each in plan.devices)
    return [
        job_step(plan, PAPERS, "arrive", (), revision=plan.survey.job.job.revision),
        job_step(plan, DELIVERY, "arrive", (PAPERS,))._replace(
            readings=serials, cautions=(plan.say("order.damaged"),), evidence=(plan.say("order.keep_photo"),)
        ),
        job_step(plan, CHECK_VAN, "arrive", (PAPERS,)),
    ]


MADE_OF: dict[str, Base] = {
    "timber frame": "wood", "steel studs": "wood", "concrete": "concrete", "masonry": "masonry",
    "brick veneer": "masonry",
}  # fmt: skip
"""What a wall is drilled like; the board of a frame, of wood or steel, makes the same dust."""


def _walls(plan: Plan) -> list[Base]:
    """What is drilled where no hole was worked out: every kind of wall of the job, and masonry where one is not known,
    whose dust is the worst."""
    return list(dict.fromkeys(MADE_OF.get(wall.build_up.kind or "", "masonry") for wall in plan.survey.job.walls))


def fixing(plan: Plan, card: HoleCard, all_joints: list[Joint]) -> list[WorkStep]:
    """Scan, dust control, everything that is fixed to a wall but not by a data sheet's own steps, and the lift."""
    by_sheet = {each.id for each in plan.devices if sheet_drills(each)}
    key = "scan" if card.holes else "scan_template"
    scan = job_step(plan, SCAN, "fix", (DELIVERY, CHECK_VAN), key=key, count=len(card.holes))
    dust = [plan.say(f"holes.dust_{base}") for base in plan.bases or _walls(plan)]
    steps = [
        scan._replace(first=(*card.stop, *_asked(plan, "anchorage")), cautions=(plan.say("order.scan_caution"),)),
        job_step(plan, DUST, "fix", (SCAN,))._replace(cautions=tuple(dust)),
    ]
    held = [each for each in plan.held if each.of not in by_sheet]
    steps += [_mount(plan, card, each, all_joints) for each in held]
    done = {each.id for each in held}
    for part in plan.installation.of_kind("busbar", "disconnect", "transfer equipment", "fuse"):
        if not part.existing and part.id not in done:
            key = "mount" if plan.framed else "mount_solid"
            step = job_step(plan, mount_id(part.id), "fix", (DUST,), key=key, name=part.name)
            place = places.on_wall(plan, part.id)
            steps.append(step._replace(text=f"{step.text} {place}") if place else step)
    if plan.shut_down:
        steps.append(_shutdown(plan))
    return [*steps, *safeguards.put_up(plan), _lift(plan)]


def _shutdown(plan: Plan) -> WorkStep:
    """The switch of the emergency shutdown; nobody begins while its cable has no way to a unit in another building."""
    if not shutdown.apart(plan):
        return job_step(plan, SHUTDOWN, "fix", (DUST,))
    step = job_step(plan, SHUTDOWN, "fix", (DUST,), key="mount_shutdown_apart")
    need = plan.say("materials.shutdown_route_need")
    return step._replace(
        first=(plan.say("order.holds", state=plan.say("order.route_settled", need=need)),),
        readings=(Reading(plan.say("order.route_as_built"), ""),),
    )


def _asked(plan: Plan, trade: str) -> tuple[str, ...]:
    """What the passing checks of a trade ask to be provided, each once."""
    return tuple(dict.fromkeys(plan.say("order.holds", state=each.text) for each in plan.asked(trade)))


def _mount(plan: Plan, card: HoleCard, held: Held, all_joints: list[Joint]) -> WorkStep:
    rows = [hole.id for hole in card.holes if hole.of == held.id]
    step = job_step(
        plan, mount_id(held.id), "fix", (DUST,),
        key="mount_at", name=held.name, holes=f"{rows[0]} – {rows[-1]}", fastener=held.fastener.content.name,
    )  # fmt: skip
    anchors = [joint for joint in all_joints if joint.id == f"{held.id}/anchors"]
    return with_torque(plan, step, anchors)


def _lift(plan: Plan) -> WorkStep:
    if plan.lift is None:
        return job_step(plan, LIFT, "hang", (DELIVERY,), key="lift_unknown")
    aid = plan.lift.aid or plan.say("order.by_hand")
    step = job_step(
        plan, LIFT, "hang", (DELIVERY,), key="lift", people=plan.lift.people, aid=aid, reason=plan.lift.reason
    )
    return step._replace(
        people=str(plan.lift.people), first=_asked(plan, "lifting"), cautions=(plan.say("order.lift_caution"),)
    )


def sheet_drills(device: Device) -> bool:
    """True where the data sheet's own steps drill the holes of the device."""
    return any(drills(step) for step in device.sheet.steps)


def drilled_by(plan: Plan, device: Device) -> str:
    """The step of the job after which the device's own steps may begin to fix it."""
    held = [each.id for each in plan.held if each.of == device.id]
    return DUST if sheet_drills(device) or not held else mount_id(held[-1])


def mount_id(device: str) -> str:
    """Id of the step that fixes a device."""
    return f"job.mount-{device.replace('/', '-')}"
