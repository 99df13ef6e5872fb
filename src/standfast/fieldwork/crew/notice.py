"""What the crew and the owner are told about the day: how long, who has to come, what is off when, whom to ask before.

Times stand by the clock where the time of arrival is known, else from arrival.
"""

from collections.abc import Iterator, Sequence

from standfast.fieldwork.crew.day import DAY_MIN, CrewDay, Visit
from standfast.fieldwork.crew.off import Load, Off
from standfast.fieldwork.isolation import Isolation
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder


def lasting(plan: Plan, minutes: int) -> str:
    """A stretch of time as people say it."""
    hours, rest = divmod(minutes, 60)
    return plan.say("crew.hours", hours=hours, minutes=rest) if hours else plan.say("crew.minutes", minutes=rest)


def moment(plan: Plan, day: CrewDay, minute: int, *, end: bool = False) -> str:
    """A minute of work as the clock shows it, or from arrival."""
    at = day.at(minute, end=end)
    if day.begins is None:
        days, rest = divmod(at, DAY_MIN) if len(day.visits) > 1 else (0, at)
        key = "crew.after_arrival_day" if days else "crew.after_arrival"
        return plan.say(key, time=lasting(plan, rest), day=days + 1)
    days, rest = divmod(day.begins + at, DAY_MIN)
    words = {"hours": f"{rest // 60:02}", "minutes": f"{rest % 60:02}", "day": days + 1}
    return plan.say("crew.clock_later" if days else "crew.clock", **words)


def for_crew(plan: Plan, order: WorkOrder, day: CrewDay) -> list[str]:
    """What the crew has to know of its day."""
    told = list(day.hands.told)
    if day.schedule is None:
        return told
    told += _days(plan, order, day)
    told += _called(plan, order, day)
    told.append(plan.say("crew.locks", people=day.hands.crew.size))
    if day.pauses:
        spans = ", ".join(
            plan.say("crew.span", start=lasting(plan, each.start), end=lasting(plan, each.end)) for each in day.pauses
        )
        told.append(plan.say("crew.pauses", spans=spans))
    common = sum(each.ground == "common practice" for each in day.times.values())
    told.append(plan.say("crew.grounds", common=common, all=len(day.times)))
    told += [plan.say("crew.unknown", number=order.numbers[id]) for id, each in day.times.items() if each.unknown]
    return [*told, plan.say("crew.order_kept")]


def _days(plan: Plan, order: WorkOrder, day: CrewDay) -> Iterator[str]:
    """How long the work takes, on how many days, and how the house is left in the nights between."""
    if day.schedule is None:
        return
    several = len(day.visits) > 1
    if not several:
        yield plan.say("crew.how_long", time=lasting(plan, day.minutes))
        proven = day.shortest == day.schedule.least
        yield plan.say("crew.proven" if proven else "crew.not_proven", least=lasting(plan, day.schedule.least))
    if day.most is None:
        yield plan.say("crew.days_unknown")
        return
    most = lasting(plan, day.most)
    if day.too_long:
        yield plan.say("crew.block_too_long", steps=numbered(order, day.too_long), most=most)
    elif not several:
        yield plan.say("crew.days_one", most=most)
    else:
        yield plan.say("crew.days", count=len(day.visits), most=most)
        for number, visit in enumerate(day.visits, 1):
            words = {"time": lasting(plan, visit.minutes), "steps": numbered(order, visit.steps)}
            yield plan.say("crew.day", number=number, **words)
            yield from _night(plan, order, number, visit)


def _night(plan: Plan, order: WorkOrder, number: int, visit: Visit) -> Iterator[str]:
    if visit.night is None:
        return
    called, none = order.decided.house.called, plan.say("crew.nothing")
    left = {word: ", ".join(called(id) for id in found) or none
            for word, found in (("locked", visit.night.locked), ("loose", visit.night.loose))}  # fmt: skip
    yield plan.say("crew.night", number=number, **left)
    if visit.waits:
        yield plan.say("crew.day_waits", number=number + 1)


def numbered(order: WorkOrder, ids: Sequence[str]) -> str:
    """Numbers of steps, those that follow each other as a span: ``1–12, 15``."""
    found = list[list[int]]()
    for number in sorted(order.numbers[id] for id in ids):
        if found and number == found[-1][1] + 1:
            found[-1][1] = number
        else:
            found.append([number, number])
    return ", ".join(str(first) if first == last else f"{first}–{last}" for first, last in found)


def _called(plan: Plan, order: WorkOrder, day: CrewDay) -> Iterator[str]:
    """When somebody has to come who is not of the crew."""
    if day.schedule is None:
        return
    size, slots = day.hands.crew.size, day.schedule.slots
    for step in day.steps:
        people = day.times[step.id].task.people
        if people > size:
            start, end = moment(plan, day, slots[step.id].start), moment(plan, day, slots[step.id].end, end=True)
            yield plan.say(
                "crew.second_person", number=order.numbers[step.id], people=people, size=size, start=start, end=end
            )
    opened = [slots[step.id] for step in day.steps if step.touches or step.behind or step.proves or step.takes_off]
    if size == 1 and opened:
        start = moment(plan, day, min(slot.start for slot in opened))
        end = moment(plan, day, max(slot.end for slot in opened), end=True)
        yield plan.say("crew.not_alone", start=start, end=end)


def for_owner(plan: Plan, order: WorkOrder, day: CrewDay) -> list[str]:
    """What the owner has to know and do: what is off when, what depends on it, and whether the utility comes."""
    if day.schedule is None:
        return list(day.hands.told)
    told = (
        [plan.say("crew.ask_medical")] if not any("medical equipment" in load.sensitive for load in day.loads) else []
    )
    told += _dear(plan, day)
    told += list(_windows(plan, day)) or [plan.say("crew.off_none")]
    if day.off:
        told.append(plan.say("crew.off_least", least=lasting(plan, day.least_off)))
        told.append(plan.say("crew.off_before"))
    return [*told, *utility(plan, order, day)]


def _windows(plan: Plan, day: CrewDay) -> Iterator[str]:
    """Circuits that are off for the same time, together."""
    alike: dict[tuple[int, int, bool], list[Load]] = {}
    loads = {load.id: load for load in day.loads}
    for each in sorted(day.off, key=lambda one: (one.start, one.end)):
        alike.setdefault((each.start, each.end, bool(each.back)), []).append(loads[each.load])
    for (start, end, back), found in alike.items():
        key = "off_stays" if not back else "off_all" if len(found) == len(day.loads) else "off"
        times = {"start": moment(plan, day, start), "end": moment(plan, day, end, end=True)}
        yield plan.say(f"crew.{key}", **times, circuits=_named(found))


def _dear(plan: Plan, day: CrewDay) -> Iterator[str]:
    """What people depend on, medical equipment first, with what is done about it."""
    off: dict[str, Off] = {}
    for each in sorted(day.off, key=lambda one: one.start):
        off.setdefault(each.load, each)
    for kind in ("medical equipment", "alarm", "heating", "refrigerator", "internet"):
        found = [load for load in day.loads if kind in load.sensitive and load.id in off]
        if found:
            start = moment(plan, day, min(off[load.id].start for load in found))
            yield plan.say(f"crew.{kind.replace(' ', '_')}", circuits=_named(found), start=start)


def utility(plan: Plan, order: WorkOrder, day: CrewDay) -> list[str]:
    """Whether the utility has to come, when, and how long ahead it wants to know."""
    panels = [each for each in order.isolations if not each.direct]
    if not panels:
        return [plan.say("crew.utility_no_isolation")]
    held = by_utility(plan, panels)
    if held is None or day.schedule is None:
        return [plan.say("crew.utility_none", switch=each) for each in _first(panels)]
    slots = day.schedule.slots
    opens = [f"{id}-{each.id}" for each in held for id in ("job.open", "off.panel")]
    start = moment(plan, day, min((slots[id].start for id in opens if id in slots), default=0))
    back = [slots[step.id].end for step in day.steps if "supply" in step.groups]
    end = moment(plan, day, max(back, default=day.schedule.minutes), end=True)
    notice = plan.survey.job.visit.utility_notice
    asked = plan.say("crew.utility_ask") if notice is None else plan.say("crew.utility_notice", notice=notice)
    return [plan.say("crew.utility_needed", start=start, end=end), asked]


def by_utility(plan: Plan, panels: Sequence[Isolation]) -> list[Isolation] | None:
    """The panels that only the utility can part from its supply; None where there is none."""
    names = {part.name for part in plan.installation.of_kind("utility")}
    found = [each for each in panels if names & set(each.live)]
    return found or None


def _first(panels: Sequence[Isolation]) -> list[str]:
    return list(dict.fromkeys(each.supply[0] for each in panels if each.supply))


def _named(loads: Sequence[Load]) -> str:
    """Circuits by name, with the panel where two have one name."""
    names = [load.name for load in loads]
    return ", ".join(f"{load.name} ({load.panel})" if names.count(load.name) > 1 else load.name for load in loads)
