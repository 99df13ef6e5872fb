"""The day of a crew: who does which step when, when the house is without power, and what has to be agreed before.

First comes what every order must keep: precedence, people, licences, waits. Then the day is made short. Last the time
without power is: of circuits that somebody depends on first, then of all, as far as the day does not grow by more than
the firm says.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.fieldwork.crew.blocks import blocks, ties
from standfast.fieldwork.crew.board import Placed, forward, span
from standfast.fieldwork.crew.days import Overnight, filled, overnight
from standfast.fieldwork.crew.off import Load, Off, Outage, loads_of
from standfast.fieldwork.crew.pace import Timed, timed
from standfast.fieldwork.crew.people import Hands, hands_of
from standfast.fieldwork.crew.solve import Schedule, Slot, short, told
from standfast.fieldwork.crew.tasks import Task, Work
from standfast.fieldwork.crew.window import kept_short
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder
from standfast.reading.quantities import amount
from standfast.survey.firm import Firm
from standfast.survey.pace import Day, Pace

DAY_MIN = 1440
"""Minutes from one arrival to that of the next day."""


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
        visits: the days; none where `most` is not known. Times of the second day count from a day after the first.
        too_long: steps that no night may part and no day is long enough for; then the schedule is that of one day.
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
    visits: tuple["Visit", ...] = ()
    too_long: tuple[str, ...] = ()

    def at(self, minute: int, *, end: bool = False) -> int:
        """Minutes from arrival, breaks and all, of a minute of work. What ends as a break begins ends before it."""
        nights = minute // DAY_MIN * DAY_MIN if len(self.visits) > 1 else 0
        minute -= nights
        for pause in self.pauses:
            if minute > pause.start or (minute == pause.start and not end):
                minute += pause.end - pause.start
        return nights + minute

    @property
    def minutes(self) -> int:
        """Minutes that the crew is on site, breaks and all; of several days together."""
        if len(self.visits) > 1:
            return sum(each.minutes for each in self.visits)
        return 0 if self.schedule is None else self.at(self.schedule.minutes, end=True)


class Visit(NamedTuple):
    """One of the days.

    Attributes:
        steps: ids of its steps, in the order of the work.
        minutes: on site, breaks and all.
        night: how the house stands when the crew goes home; None on the last day.
        waits: true where nobody knows when the next one is: it waits for somebody of another house.
    """

    steps: tuple[str, ...]
    minutes: int
    night: Overnight | None = None
    waits: bool = False


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
    longer = 0 if rules.longer is None else int(amount(rules.longer, "min"))
    whole = _scheduled(day, outage, longer)
    if day.most is None or (whole.minutes <= day.most and not order.outside):
        one = Visit(tuple(day.times), whole.minutes)
        return whole if day.most is None else whole._replace(visits=(one,))
    grid = [zone for name, zone in order.decided.house.site.sources.items() if name in utility]
    return _over_days(whole, order, outage, grid, longer)


class _Made(NamedTuple):
    """A schedule of some steps; the shortest that was found, in minutes; and the least time without power."""

    schedule: Schedule
    shortest: int
    least_off: int


def _scheduled(day: CrewDay, outage: Outage, longer: int) -> CrewDay:
    """All of it in one day: the shortest, then the one in which the house is shortest without power."""
    made = _made(day, [each.task for each in day.times.values()], outage, longer, {})
    windows = tuple(outage.windows(made.schedule.slots))
    return day._replace(schedule=made.schedule, shortest=made.shortest, off=windows, least_off=made.least_off)


def _made(
    day: CrewDay, tasks: Sequence[Task], outage: Outage, longer: int, before: Mapping[str, Slot],
    most: int | None = None,
) -> _Made:  # fmt: skip
    """The schedule of some tasks, in minutes from their begin.

    Args:
        day: who is there.
        tasks: those tasks.
        outage: of all steps.
        longer: by how much they may take longer so that the house is shorter without power.
        before: when the steps of earlier days were done.
        most: minutes that they may take in all.
    """
    work = Work(tasks, day.hands.crew)
    known, least = short(work)
    shortest = span(work, known)
    dear = {load.id for load in outage.loads if load.sensitive}
    begin = max((slot.free for slot in before.values()), default=0)

    def off(placed: Placed) -> list[Off]:
        return outage.windows({**before, **_moved(told(work, placed, least).slots, begin)})

    def cost(placed: Placed) -> tuple[int, ...]:
        found = off(placed)
        of_dear = sum(each.end - each.start for each in found if each.load in dear)
        return (of_dear, sum(each.end - each.start for each in found))

    here = {task.id for task in tasks}
    spans = [(each.by, each.back) for each in off(known) if each.by in here and (not each.back or each.back in here)]
    longest = shortest + longer if most is None else max(shortest, min(shortest + longer, most))
    kept = kept_short(work, known, cost, list(dict.fromkeys(spans)), longest)
    return _Made(told(work, kept.placed, least), shortest, kept.least)


def _moved(slots: Mapping[str, Slot], by: int) -> dict[str, Slot]:
    return {
        id: slot._replace(start=slot.start + by, end=slot.end + by, free=slot.free + by) for id, slot in slots.items()
    }


def _over_days(whole: CrewDay, order: WorkOrder, outage: Outage, grid: Sequence[str], longer: int) -> CrewDay:
    """The work over several days; where some of it fits into none, the one long day and what does not fit."""
    most, schedule = whole.most, whole.schedule
    if most is None or schedule is None:
        return whole
    tasks = {id: each.task for id, each in whole.times.items()}
    acts = order.decided.acts
    tied = [*ties(order.steps, acts, whole.off, outage.darkening()), *order.together]
    room = whole._replace(visits=())

    def fits(ids: Sequence[str]) -> bool:
        work = Work(_alone(tasks, ids), whole.hands.crew)
        return room.at(span(work, forward(work, work.line)), end=True) <= most

    turn = {id: slot.start for id, slot in schedule.slots.items()}
    found = filled(blocks(order.steps, tied), order.steps, turn, fits, order.outside)
    if found.too_long:
        return whole._replace(too_long=found.too_long)
    slots, visits, least, done = dict[str, Slot](), list[Visit](), 0, set[str]()
    for number, ids in enumerate(found.days):
        of_day = _made(whole, _alone(tasks, ids), outage, longer, slots, _work_minutes(room, most))
        slots |= _moved(of_day.schedule.slots, number * DAY_MIN)
        done |= set(ids)
        least += of_day.least_off
        minutes = room.at(of_day.schedule.minutes, end=True)
        last = number == len(found.days) - 1
        night = None if last else overnight(order.decided.house, acts, outage.loads, grid, done)
        waits = not last and bool(order.outside & set(found.days[number + 1]))
        visits.append(Visit(ids, minutes, night, waits))
    total = schedule._replace(slots=slots, minutes=sum(each.minutes for each in visits))
    return whole._replace(schedule=total, visits=tuple(visits), off=tuple(outage.windows(slots)), least_off=least)


def _alone(tasks: Mapping[str, Task], ids: Sequence[str]) -> list[Task]:
    """Tasks of one day; what they wait for that was done on another is done."""
    here = set(ids)
    return [tasks[id]._replace(after=tuple(one for one in tasks[id].after if one in here)) for id in ids]


def _work_minutes(room: CrewDay, most: int) -> int:
    """Minutes of work that a day on site holds, its breaks taken off."""
    return max((minute for minute in range(most + 1) if room.at(minute, end=True) <= most), default=0)


def _pauses(rules: Day) -> tuple[Pause, ...]:
    found = [(int(amount(each.after, "min")), int(amount(each.length, "min"))) for each in rules.breaks]
    return tuple(Pause(after, after + length) for after, length in sorted(found))


def _begins(plan: Plan, rules: Day) -> int | None:
    clock = plan.survey.job.visit.arrive or rules.start
    if clock is None:
        return None
    hours, minutes = clock.split(":")
    return int(hours) * 60 + int(minutes)
