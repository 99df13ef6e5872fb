"""Steps of removal and service: their parts of the day, their ids, and how one is made."""

from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep

HOUSE = "make the panels dead"
STAGES = (
    "prepare", "make dead", "take apart", "take down", "put in", HOUSE, "make the house safe", "power", "prove",
    "leave",
)  # fmt: skip
"""Parts of the work; among steps that are ready, one of an earlier part goes first."""
TELL, DISCHARGE, LIFT, STOP, SEEN, DEAD = (
    "prepare.tell", "prepare.charge", "prepare.lift", "off.stop", "off.seen", "off.dead",
)  # fmt: skip
CONDITION, ASSESSED, SUPPLY = "prepare.condition", "prepare.assessed", "prepare.supply"
SEEN_HOUSE, DEAD_HOUSE = "off.seen-house", "off.dead-house"


def step(plan: Plan, id: str, stage: str, after: tuple[str, ...], key: str, /, **words: object) -> WorkStep:
    """A step with a text of the catalogue.

    Args:
        plan: the job; its language counts.
        id: of the step.
        stage: part of the work, of `STAGES`.
        after: steps that are done before.
        key: name of the text under ``aftercare``.
        words: what stands for the names in braces.
    """
    return WorkStep(id, stage, plan.say(f"aftercare.{key}", **words), tuple(dict.fromkeys(after)), "job")
