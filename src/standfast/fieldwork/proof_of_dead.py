"""Where a step of a data sheet proves terminals dead: spaces for every pair, and what is worn meanwhile.

A proof that is only said to have been done is none: the readings stand on the paper beside the step, as those of the
panels do. The sequence is that of NFPA 70E, 120.5; every pair is common practice of the trade.
"""

from standfast.commissioning.limit import NO_VOLTAGE
from standfast.fieldwork.isolation import CONDUCTORS, DIRECT, MOST, pairs
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import Reading, WorkStep

ALTERNATING = "ac"
"""The side of a device that carries alternating current; all others carry direct current."""


def written(plan: Plan, steps: list[WorkStep]) -> list[WorkStep]:
    """The steps, those that prove something dead with a space for each pair unless the data sheet asks for readings."""
    return [_written(plan, step) if step.proves and not step.readings else step for step in steps]


def _written(plan: Plan, step: WorkStep) -> WorkStep:
    zero, sides = plan.say("order.no_voltage"), dict.fromkeys(id.rpartition(":")[2] for id in step.proves)
    system = plan.survey.job.supply.system or MOST
    found = []
    for side in sides:
        told = pairs(CONDUCTORS[system] if side == ALTERNATING else DIRECT)
        named = [pair if len(sides) == 1 else plan.say("order.pair_of", side=plan.say(f"order.side_{side}"), pair=pair)
                 for pair in told]  # fmt: skip
        found += [Reading(pair, "V", zero, bounds=(NO_VOLTAGE,)) for pair in named]
    caution, kept = plan.say("order.dead_caution"), plan.say("order.keep_reading")
    return step._replace(
        readings=(Reading(plan.say("order.tester_before"), "V"), *found, Reading(plan.say("order.tester_after"), "V")),
        cautions=(caution, *(each for each in step.cautions if each != caution)),
        evidence=tuple(each for each in step.evidence if each != kept),
    )
