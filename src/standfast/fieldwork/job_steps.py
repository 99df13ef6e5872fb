"""Steps of the job itself: their ids, and how one is made."""

from collections.abc import Mapping

from standfast.fieldwork.joints import Joint
from standfast.fieldwork.order.acts import Group
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep, torque_readings

PAPERS, DELIVERY, CHECK_VAN = "job.papers", "job.delivery", "job.van"
SCAN, DUST, LIFT, PULL, INSULATION = "job.scan", "job.dust", "job.lift", "job.pull", "job.dead-tests"
LABELS, CHECK, RESTORE, LIVE_TESTS, HANDOVER = (
    "job.labels",
    "job.check",
    "job.restore",
    "job.live-tests",
    "job.handover",
)
SETTINGS = "job.settings"
DEAD, SHUTDOWN, CLOSED_TESTS = "job.dead", "job.mount-shutdown", "job.closed-tests"

GROUPS: Mapping[str, tuple[Group, ...]] = {
    INSULATION: ("dead tests",), CLOSED_TESTS: ("dead tests",), CHECK: ("check",), RESTORE: ("supply", "live tests"),
    SETTINGS: ("settings",), LIVE_TESTS: ("functional",), HANDOVER: ("hand over",),
}  # fmt: skip
"""The parts of putting into service that steps of the job belong to."""


def join_shutdown_id(unit: str) -> str:
    """Id of the step that joins the switch of the emergency shutdown to a unit."""
    return f"job.join-shutdown-{unit}"


def named_tests(plan: Plan, ids: list[str]) -> str:
    """``test T5``, ``tests T6, T7``."""
    return plan.say("order.test" if len(ids) == 1 else "order.tests", tests=", ".join(ids))


def with_torque(plan: Plan, step: WorkStep, found: list[Joint]) -> WorkStep:
    """A step with the torque of joints, and a space for each."""
    torque = tuple(plan.say("order.torque", name=joint.name, torque=joint.shown) for joint in found)
    return step._replace(torque=torque, readings=step.readings + torque_readings(plan, found))


def job_step(plan: Plan, id: str, stage: str, after: tuple[str, ...], /, key: str = "", **words: object) -> WorkStep:
    """A step with the text of the catalogue under `key`, or under its id."""
    text = plan.say(f"order.{key or id.removeprefix('job.').replace('-', '_')}", **words)
    return WorkStep(id, stage, text, tuple(dict.fromkeys(after)), "job", groups=GROUPS.get(id, ()))
