"""Where a device goes, as numbers of the drawings: on its wall, or on the site plan."""

from standfast.design.wiring.along import middle
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.rows import length_of
from standfast.sheet import chosen

SWITCH = "island-switch"
"""The word that routes and walls have for the island switch."""


def on_wall(plan: Plan, part: str) -> str:
    """Where the middle of a panel or switch is on its wall; empty where the job does not place it."""
    word = part.rpartition("/")[2]
    found = middle(plan.survey, word if word == SWITCH else part)
    if found is None:
        return ""
    x, z = (length_of(chosen("x", tenths / 10, "mm", "its place on the wall", None), plan.language, metric=plan.metric)
            for tenths in (found.x, found.z))  # fmt: skip
    return plan.say("order.place_on_wall", wall=found.wall, x=x, z=z)


def on_site_plan(plan: Plan, kind: str) -> str:
    """Where the site plan marks things of a kind; empty where it marks none."""
    marks = [mark for mark in plan.survey.job.land.marks if mark.kind == kind]
    return "; ".join(plan.say("order.place_in_plan", x=mark.at[0].text, y=mark.at[1].text) for mark in marks)
