"""How long each step takes, and why: as the maker states, as the firm's own people take, or by common practice."""

from math import ceil
from typing import Literal, NamedTuple

from standfast.equipment.put_up import drills
from standfast.fieldwork.crew.amounts import amounts, kinds, maker_of, tests_of
from standfast.fieldwork.crew.tasks import Task
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.putting_up import mount_id
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder
from standfast.reading.quantities import amount
from standfast.survey.pace import Pace

Ground = Literal["data sheet", "firm file", "common practice"]
ELECTRICAL = (
    "isolate", "connect", "power", "prove", "make dead", "take apart", "make the panels dead", "make the house safe",
)  # fmt: skip
"""Parts of the day whose steps are electrical work."""
LIVE_LOOK = ("job.check", "job.closed-tests", "in.tests")
"""Steps of another part that are electrical work too."""


class Timed(NamedTuple):
    """A step with its time.

    Attributes:
        task: what the schedule is made from.
        ground: where the minutes are from; of several, the weakest.
        unknown: kinds of work whose amount is not known and is not in the minutes.
    """

    task: Task
    ground: Ground
    unknown: tuple[str, ...] = ()


def timed(plan: Plan, order: WorkOrder, pace: Pace) -> list[Timed]:
    """The steps of a work order with their times, in its order.

    Args:
        plan: the job.
        order: its work order.
        pace: the firm's own times; those that are absent are common practice.
    """
    return [_timed(plan, order, pace, step) for step in order.steps]


def _timed(plan: Plan, order: WorkOrder, pace: Pace, step: WorkStep) -> Timed:
    made, found = maker_of(plan, step), amounts(plan, order, step)
    ground, unknown = _ground(pace, kinds(found)), tuple(each.kind for each in found if each.number is None)
    minutes = ceil(sum(_each(plan, pace, each.kind) * each.number for each in found if each.number is not None))
    if made is not None and made.step.duration is not None:
        minutes, ground, unknown = ceil(amount(made.step.duration, "min")), "data sheet", ()
    if not found:
        ground = "data sheet"
    # what is counted by nothing known takes a minute at least: somebody does it
    minutes = max(1, minutes) if found else minutes
    locks = any(turn.change in ("lock", "unlock") for turn in step.turns)
    people = int(step.people) if step.people.isdecimal() else 1
    task = Task(
        step.id, minutes, step.after, max(1, people), electrical(step), ceil(_wait_min(plan, order, step)), locks
    )
    return Timed(task, ground, unknown)


def electrical(step: WorkStep) -> bool:
    """True where a step is electrical work: by the part of the day, or by what it does to switches and terminals."""
    does = step.turns or step.touches or step.proves or step.takes_off or step.puts_on
    return step.stage in ELECTRICAL or step.id in LIVE_LOOK or step.hands or bool(does)


def _each(plan: Plan, pace: Pace, kind: str) -> float:
    """Minutes of one of a kind of work."""
    own = getattr(pace, kind)
    return plan.practice.number(f"minutes_{kind}").quantity if own is None else amount(own, "min")


def _ground(pace: Pace, found: list[str]) -> Ground:
    return "common practice" if any(getattr(pace, kind) is None for kind in found) else "firm file"


def _wait_min(plan: Plan, order: WorkOrder, step: WorkStep) -> float:
    """Minutes that pass after a step and hold nobody: a wait or an indication of the data sheet, what a test waits for,
    the cure of an adhesive."""
    if step.id in order.waits_min:
        return order.waits_min[step.id]
    waits = _tested_min(order, step)
    made = maker_of(plan, step)
    if made is not None:
        does, shown = (
            made.step.does,
            next((each for each in made.device.sheet.indications if each.id == made.step.indication), None),
        )
        within = made.step.within or (None if shown is None else shown.within)
        waits += [] if within is None else [amount(within, "min")]
        if does is not None and does.change == "wait" and does.time is not None:
            waits.append(amount(does.time, "min"))
    return sum(waits) + _cure_min(plan, step)


def _tested_min(order: WorkOrder, step: WorkStep) -> list[float]:
    """Waits of the tests of a step: the limit of a test in seconds is how long it lasts at most."""
    values = (test.value for test in tests_of(order, step))
    return [each.quantity / 60 for each in values if each is not None and each.unit == "s" and not each.missing]


def _cure_min(plan: Plan, step: WorkStep) -> float:
    """Time in which the adhesive of anchors that a step sets takes its strength."""
    made = maker_of(plan, step)
    found = 0.0
    for held in plan.held:
        sets = mount_id(held.id) == step.id or (made is not None and drills(made.step) and held.of == made.device.id)
        if sets and held.fastener.has("anchor.cure"):
            found = max(found, held.fastener.fact("anchor.cure", "t_cure", "min").quantity)
    return found
