"""The fronts of panels: off before hands reach their terminals, on again before power returns.

An open main leaves the lugs before it live, and they are under the front: whoever takes it off is told so. A panel that
this job puts up comes with its front apart, and has it on at the end like every other.
"""

from collections.abc import Iterable, Sequence

from standfast.fieldwork.isolation import Isolation, worked_panels
from standfast.fieldwork.job_steps import CLOSED_TESTS, job_step
from standfast.fieldwork.live_sides import still_live
from standfast.fieldwork.order.house import front_id
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import Reading, WorkStep


def off_id(panel: str) -> str:
    """Id of the step that takes the front of a panel off."""
    return f"job.front-off-{panel}"


def on_id(panel: str) -> str:
    """Id of the step that fits the front of a panel."""
    return f"job.front-on-{panel}"


def behind(plan: Plan, places: Iterable[str]) -> tuple[str, ...]:
    """The fronts that must be off while hands reach into some places, of which only panels have one."""
    panels = {panel.id for panel in worked_panels(plan)}
    return tuple(front_id(id) for id in dict.fromkeys(places) if id in panels)


def off(plan: Plan, isolations: Sequence[Isolation], opened: tuple[str, ...]) -> list[WorkStep]:
    """The front of each panel that is there comes off when everything is open and locked, before it is proved dead."""
    return [_off(plan, each, opened) for each in isolations if not each.direct]


def _off(plan: Plan, each: Isolation, opened: tuple[str, ...]) -> WorkStep:
    step = job_step(plan, off_id(each.id), "isolate", opened, key="front_off", panel=each.panel)
    cautions = (plan.say("order.front_caution"), *still_live(plan, each))
    return step._replace(takes_off=front_id(each.id), cautions=cautions)


def on(plan: Plan, inside: Sequence[WorkStep]) -> list[WorkStep]:
    """The front of every panel that was reached into goes on when its conductors are tested.

    Args:
        plan: the job.
        inside: the steps before, of which those that reach behind a front are done first.
    """
    return [_on(plan, panel.id, panel.name, inside) for panel in worked_panels(plan)]


def _on(plan: Plan, panel: str, name: str, inside: Sequence[WorkStep]) -> WorkStep:
    front = front_id(panel)
    before = tuple(step.id for step in inside if front in step.behind)
    step = job_step(plan, on_id(panel), "check", (*before, CLOSED_TESTS), key="front_on", panel=name)
    return step._replace(puts_on=front, readings=(Reading(plan.say("order.front_seen", panel=name), ""),))
