"""The steps of the work order as cards, with a bar across the sheet at each hold point."""

from collections.abc import Mapping, Sequence

from standfast.commissioning.due_test import DueTest
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder
from standfast.paper.document import Block, Bullets, Frame, Heading, HoldBar, Picture, StepCard, Words

Pictures = Mapping[str, Sequence[Picture]]
"""Step → the pictures that stand beside it."""


def step_blocks(plan: Plan, order: WorkOrder, pictures: Pictures) -> list[Block]:
    """Every step in its order: rule first, then cautions, then cards under the parts of the day."""
    say = plan.say
    if not order.steps:
        return [Words(say("paper.steps_none"))]
    blocks: list[Block] = [Words(order.rule), Words(say("hold.rule"))]
    if order.unsafe:
        blocks.append(Frame(say("paper.cautions"), [Bullets(list(order.unsafe))], "caution"))
    stage, held = "", 0
    for number, step in enumerate(order.steps, 1):
        if step.stage != stage:
            stage = step.stage
            blocks.append(Heading(say(f"paper.stage_{stage.replace(' ', '_')}")))
        for hold in order.holds:
            if hold.step == step.id:
                held += 1
                mark = say("hold.bar", number=held)
                blocks.append(HoldBar(mark, hold.what, hold.who, say("hold.name"), say("hold.time")))
        blocks.append(step_card(plan, number, step, pictures.get(step.id, ())))
        blocks += [test_card(plan, each) for each in order.tests if order.done_at[each.id] == step.id]
    return blocks


def test_card(plan: Plan, test: DueTest) -> StepCard:
    """One test with its limit and its spaces, at the step that does it."""
    facts = [(plan.say("paper.tests_limit"), f"{test.limit} ({test.ground})")] if test.limit else []
    readings = [(blank.what, test.limit if blank.limited else "", blank.unit) for blank in test.readings]
    return StepCard(test.id, [], [], f"{test.what}. {test.how}", facts, readings, [])


def step_card(plan: Plan, number: int, step: WorkStep, pictures: Sequence[Picture] = ()) -> StepCard:
    """One step with its number, cautions, settings, spaces for readings, and pictures.

    A torque stands once: beside the boxes of its joints.
    """
    ticks = [(reading.what, reading.limit, reading.spaces) for reading in step.readings if reading.ticked]
    facts = [("", each) for each in step.lands]
    facts += [] if ticks else [(plan.say("paper.torque"), text) for text in step.torque]
    if step.indication:
        facts.append(("", step.indication))
    if step.people:
        facts.append((plan.say("paper.people"), step.people))
    if step.tools:
        facts.append((plan.say("paper.tools_named"), ", ".join(step.tools)))
    readings = [
        (
            f"{reading.what}, {place}/{reading.spaces}" if reading.spaces > 1 else reading.what,
            reading.limit,
            reading.unit,
        )
        for reading in step.readings
        if not reading.ticked
        for place in range(1, reading.spaces + 1)
    ]
    return StepCard(
        str(number), step.cautions, step.first, step.text, facts, readings, step.evidence, tuple(pictures), ticks
    )
