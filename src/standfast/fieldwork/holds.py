"""Hold points: where a second person looks before the work goes on.

The places follow from the steps and not from a list: before hands first reach a conductor, before a cover hides joints
that were tightened, before the first switch closes and before the supply
comes back, before the unit is tried, before it is handed over.
That a second person looks there, and who, is common practice; no book of the adoption asks for it.
"""

from typing import Literal, NamedTuple

from standfast.commissioning.due_test import DueTest
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep

HoldKind = Literal["dead", "cover", "power", "settings", "handover"]
RESTORE = "job.restore"
LIVE_TESTS = "job.live-tests"
HANDOVER = "job.handover"


class Hold(NamedTuple):
    """One hold point.

    Attributes:
        kind: what is looked at.
        step: id of the step that does not begin before it is signed.
        what: what the second person sees with their own eyes.
        who: who may sign.
    """

    kind: HoldKind
    step: str
    what: str
    who: str


def holds(plan: Plan, steps: tuple[WorkStep, ...], tests: tuple[DueTest, ...]) -> tuple[Hold, ...]:
    """The hold points of the work, in the order of its steps."""
    kinds: dict[str, list[HoldKind]] = {step.id: [] for step in steps}
    reaching = next((place for place, step in enumerate(steps) if step.hands), None)
    if reaching is not None:
        kinds[steps[reaching].id].append("dead")
    for place, step in enumerate(steps):
        if step.puts_on and _hides_joints(steps[:place], step.puts_on):
            kinds[step.id].append("cover")
    closing = next((step for step in steps[reaching or 0 :] if _powers(step)), None)
    for id in dict.fromkeys([closing.id, RESTORE] if closing is not None else []):
        if id in kinds:
            kinds[id].append("power")
    if LIVE_TESTS in kinds and any(test.key == "settings" for test in tests):
        kinds[LIVE_TESTS].append("settings")
    if HANDOVER in kinds:
        kinds[HANDOVER].append("handover")
    return tuple(
        Hold(kind, id, plan.say(f"hold.{kind}"), plan.say(f"hold.{kind}_who"))
        for id, found in kinds.items()
        for kind in found
    )


def _powers(step: WorkStep) -> bool:
    """True where a step closes something so that power comes. Modules that are plugged together behind a switch that
    stays locked open feed nothing, and the dead tests that this bar asks for are done later."""
    return step.stage == "power" and any(turn.change == "close" for turn in step.turns)


def _hides_joints(done: tuple[WorkStep, ...], cover: str) -> bool:
    """True where a joint was tightened behind the cover."""
    return any(step.torque and cover in step.behind for step in done)
