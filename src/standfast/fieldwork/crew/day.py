"""The day of a crew: who does which step when, when the house is without power, and what has to be agreed before.

First comes what every order must keep: precedence, people, licences, waits. Then the day is made short. Last the time
without power is: of circuits that somebody depends on first, then of all, as far as the day does not grow by more than
the firm says.
"""

from typing import NamedTuple

from standfast.fieldwork.crew.board import Placed, span
from standfast.fieldwork.crew.off import Load, Off, Outage, loads_of
from standfast.fieldwork.crew.pace import Timed, timed
from standfast.fieldwork.crew.people import Hands, hands_of
from standfast.fieldwork.crew.solve import Schedule, short, told
from standfast.fieldwork.crew.tasks import Work
from standfast.fieldwork.crew.window import kept_short
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder
from standfast.reading.quantities import amount
from standfast.survey.firm import Firm
from standfast.survey.pace import Day, Pace


class Pause(NamedTuple):
    """A break of the whole crew, minutes from arrival."""

    start: int
    end: int


class CrewDay(NamedTuple):
    """The day of a crew.

    Attributes:
        hands: who is there; what was taken for granted.
        steps: of the work order, in its order.
        times: by step: what it takes, and on what ground.
        schedule: in minutes of work; None where nobody is known who could do it.
        shortest: minutes of the shortest day that was found, before the house was thought of.
        pauses: breaks, minutes from arrival.
        loads: circuits of the house.
        off: when each is without power, in minutes of work.
        least_off: minutes of work below which the house cannot be without power.
        begins: time of day of the arrival in minutes after midnight; None where it is not known.
        most: how long the crew is on site at most, minutes; None where the firm does not say.
    """

    hands: Hands
    steps: tuple[WorkStep, ...]
    times: dict[str, Timed]
    schedule: Schedule | None
    shortest: int
    pauses: tuple[Pause, ...]
    loads: tuple[Load, ...]
    off: tuple[Off, ...]
    least_off: int
    begins: int | None
    most: int | None

    def at(self, minute: int, *, end: bool = False) -> int:
        """Minutes from arrival, breaks and all, of a minute of work. What ends as a break begins ends before it."""
        for pause in self.pauses:
            if minute > pause.start or (minute == pause.start and not end):
                minute += pause.end - pause.start
        return minute

    @property
    def minutes(self) -> int:
        """Minutes from arrival to the end of the day, breaks and all."""
        return 0 if self.schedule is None else self.at(self.schedule.minutes, end=True)


def crew_day(plan: Plan, order: WorkOrder, firm: Firm | None = None) -> CrewDay:
    """The day of the crew of a job.

    Args:
        plan: the job.
        order: its work order.
        firm: the firm file; None where there is none.
    """
    hands = hands_of(plan, firm)
    times = timed(plan, order, Pace.model_construct() if firm is None else firm.minutes)
    rules = Day.model_construct() if firm is None else firm.day
    loads = loads_of(plan, order.decided.house, order.steps)
    day = CrewDay(
        hands, order.steps, {each.task.id: each for each in times}, None, 0, _pauses(rules), tuple(loads), (), 0,
        _begins(plan, rules), None if rules.length is None else int(amount(rules.length, "min")),
    )  # fmt: skip
    if not hands.crew.electricians:
        return day
    utility = {part.id for part in plan.installation.of_kind("utility")}
    outage = Outage(order.decided.house, utility, order.steps, loads)
    return _scheduled(day, outage, 0 if rules.longer is None else int(amount(rules.longer, "min")))


def _scheduled(day: CrewDay, outage: Outage, longer: int) -> CrewDay:
    """The day with its schedule: the shortest, then the one in which the house is shortest without power."""
    work = Work([each.task for each in day.times.values()], day.hands.crew)
    known, least = short(work)
    shortest = span(work, known)
    dear = {load.id for load in outage.loads if load.sensitive}

    def off(placed: Placed) -> list[Off]:
        return outage.windows(told(work, placed, least).slots)

    def cost(placed: Placed) -> tuple[int, ...]:
        found = off(placed)
        of_dear = sum(each.end - each.start for each in found if each.load in dear)
        return (of_dear, sum(each.end - each.start for each in found))

    spans = [(each.by, each.back) for each in off(known)]
    kept = kept_short(work, known, cost, list(dict.fromkeys(spans)), shortest + longer)
    made = told(work, kept.placed, least)
    windows = tuple(outage.windows(made.slots))
    return day._replace(schedule=made, shortest=shortest, off=windows, least_off=kept.least)


def _pauses(rules: Day) -> tuple[Pause, ...]:
    found = [(int(amount(each.after, "min")), int(amount(each.length, "min"))) for each in rules.breaks]
    return tuple(Pause(after, after + length) for after, length in sorted(found))


def _begins(plan: Plan, rules: Day) -> int | None:
    clock = plan.survey.job.visit.arrive or rules.start
    if clock is None:
        return None
    hours, minutes = clock.split(":")
    return int(hours) * 60 + int(minutes)
