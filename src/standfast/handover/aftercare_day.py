"""What removal order and service sheet print alike: days of the crew, what is off when, tests that are due again."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.aftercare.apart import PULLED
from standfast.commissioning.due_test import DueTest
from standfast.fieldwork.crew import notice
from standfast.fieldwork.crew.day import CrewDay
from standfast.fieldwork.holds import holds
from standfast.fieldwork.order.house import House, gate_id
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import Decided, WorkOrder
from standfast.handover.crew import off_table
from standfast.handover.step_cards import step_card
from standfast.paper.document import (
    Block,
    Bullets,
    Frame,
    Heading,
    HoldBar,
    StepCard,
    Table,
    Text,
    Words,
    bold,
    box,
)


class Worked(NamedTuple):
    """A removal or service as a work order, for the job as built, and the days of its crew."""

    plan: Plan
    order: WorkOrder
    day: CrewDay

    @property
    def for_owner(self) -> list[str]:
        """What the owner is told of the power."""
        return notice.for_owner(self.plan, self.order, self.day)

    @property
    def for_crew(self) -> list[str]:
        """What the crew is told of its days."""
        return notice.for_crew(self.plan, self.order, self.day)


def day_blocks(worked: Worked, title: str, owner: Sequence[str] = ()) -> list[Block]:
    """The days, and what the owner is told, what cannot wait first.

    Args:
        worked: what is done.
        title: of the part for the crew.
        owner: what the owner has to know besides.
    """
    say = worked.plan.say
    told = [*owner, *worked.for_owner]
    return [
        Heading(title), Bullets(worked.for_crew),
        Frame(say("crew.owner_title"), [Bullets(told)], "caution"),
        *(off_table(worked.plan, worked.day) if worked.day.off else ()),
    ]  # fmt: skip


def test_blocks(plan: Plan, tests: Sequence[DueTest], worked: WorkOrder) -> list[Block]:
    """The tests of the job that are due again, with the numbers, texts and limits of its work order."""
    say = plan.say
    blocks: list[Block] = [Words(say("removal.tests_told"))]
    for each in tests:
        done = worked.numbers.get(worked.done_at[each.id])
        facts = [] if done is None else [(say("paper.tests_step"), str(done))]
        if each.limit:
            facts.append((say("paper.tests_limit"), f"{each.limit} ({each.ground})"))
        readings = [(blank.what, each.limit if blank.limited else "", blank.unit) for blank in each.readings]
        blocks.append(StepCard(each.id, [], [], f"{each.what}. {each.how}", facts, readings, []))
    return blocks


def _pulled(plan: Plan, gate: str) -> bool:
    """True for a fuse or connector, which is out and needs no lock; a switch without one is held open."""
    inside = {gate_id(device.id, one.name): one.kind for device in plan.devices for one in device.sheet.gates}
    return inside.get(gate, "fuse") in PULLED


def off_blocks(
    plan: Plan, house: House, steps: Sequence[WorkStep], numbers: Mapping[str, int], told: str
) -> list[Block]:  # fmt: skip
    """What is turned, in this order, each with a box for open and one for locked; then every place proved dead.

    Args:
        plan: the job.
        house: its gates by name.
        steps: those that part it from power.
        numbers: of all steps.
        told: what is said before.
    """
    say = plan.say
    rows: list[list[Text]] = []
    for each in sorted(steps, key=lambda one: numbers[one.id]):
        for gate in dict.fromkeys(turn.gate for turn in each.turns):
            lock = any(turn.gate == gate and turn.change == "lock" for turn in each.turns)
            takes: Text = box() if lock else say("removal.no_lock" if _pulled(plan, gate) else "removal.held_open")
            rows.append([bold(str(numbers[each.id])), bold(house.called(gate)), box(), takes, ""])
    head = [say(f"removal.off_{word}") for word in ("step", "switch", "open", "locked", "lock")]
    blocks: list[Block] = [Words(told, 10), Table(head, rows, [0, 4, 1, 1.4, 2], tall=9)]
    proofs = sorted((each for each in steps if each.proves), key=lambda one: numbers[one.id])
    places: list[list[Text]] = [
        [bold(str(numbers[each.id])), bold(each.text.partition(":")[0]), str(len(each.readings) - 2),
         box(), box(), box()]
        for each in proofs
    ]  # fmt: skip
    words = ("step", "place", "pairs", "before", "dead", "after")
    blocks += [
        Heading(say("removal.dead")), Words(say("removal.dead_told"), 10),
        Table([say(f"removal.dead_{word}") for word in words], places, [0, 4, 1, 1.3, 1.3, 1.3], tall=9),
    ]  # fmt: skip
    return blocks


def step_blocks(plan: Plan, steps: Sequence[WorkStep], decided: Decided) -> list[Block]:
    """Every step as a card under its part of the work, a bar before each where a second person looks."""
    say = plan.say
    blocks: list[Block] = []
    if decided.unsafe:
        told = [say("removal.unsafe", what=decided.house.called(each.what)) for each in decided.unsafe]
        blocks.append(Frame(say("paper.cautions"), [Bullets(list(dict.fromkeys(told)))], "caution"))
    stage, stops = "", holds(plan, tuple(steps), ())
    for number, each in enumerate(steps, 1):
        if each.stage != stage:
            stage = each.stage
            blocks.append(Heading(say(f"removal.stage_{stage.replace(' ', '_')}")))
        for bar in (hold for hold in stops if hold.step == each.id):
            mark = say("hold.bar", number=stops.index(bar) + 1)
            blocks.append(HoldBar(mark, bar.what, bar.who, say("hold.name"), say("hold.time")))
        blocks.append(step_card(plan, number, each))
    return blocks
