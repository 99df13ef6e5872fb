"""Which step does which test: a test stands, and is read, where what it asks for can be seen.

What a unit shows when it is switched on is timed at the step that switches it on; the settings are read back at a step
of their own, before the unit is tried; a test of one battery or array is done where it is closed, read or joined.
"""

from collections.abc import Iterable, Mapping, Sequence

from standfast.commissioning.due_test import DueTest
from standfast.fieldwork.job_steps import CLOSED_TESTS, INSULATION, LIVE_TESTS, RESTORE, SETTINGS
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep

BY_PART = {"before power": INSULATION, "connected": CLOSED_TESTS, "before the unit": RESTORE}
"""The step of the job that does the tests of a part of the work."""
READ_BACK = "settings"
"""The kind of the test that reads every setting back."""


def done_at(tests: Iterable[DueTest], steps: Sequence[WorkStep]) -> dict[str, str]:
    """Test → the step that does it; of several units that show the same, the last."""
    known, shown = {step.id for step in steps}, {step.shows: step.id for step in steps if step.shows}
    return {test.id: _step(test, known, shown) for test in tests}


def _step(test: DueTest, known: set[str], shown: Mapping[str, str]) -> str:
    own = (f"job.join-{test.of}", f"job.close-dc-{test.of}", f"job.read-dc-{test.of}") if test.of else ()
    named = [shown.get(test.shows, ""), SETTINGS if test.key == READ_BACK else "", BY_PART.get(test.when, "")]
    late = [id for id in (*own, *named) if id in known]
    early = [BY_PART[test.when]] if test.when in ("before power", "connected") else []
    return next(iter((*early, *late)), LIVE_TESTS)


def timed(plan: Plan, tests: Iterable[DueTest], steps: Sequence[WorkStep]) -> list[WorkStep]:
    """The steps, those that switch something on with the test that times what is then shown."""
    named = {test.shows: test.id for test in tests if test.shows}
    return [
        step._replace(indication=f"{step.indication} {plan.say('order.timed', test=named[step.shows])}".strip())
        if step.shows in named
        else step
        for step in steps
    ]
