"""The crew's day as plain data, and the day of a job with what its firm file says."""

from standfast.fieldwork.crew.day import CrewDay, Visit, crew_day
from standfast.fieldwork.crew.notice import for_crew, for_owner
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder
from standfast.foreman.plan import JobPlan

Data = dict[str, object]


def day_of(plan: JobPlan, site: Plan, order: WorkOrder) -> CrewDay:
    """The day of the crew of a job."""
    return crew_day(site, order, None if plan.firm is None else plan.firm.firm)


def schedule_data(site: Plan, order: WorkOrder, day: CrewDay) -> Data:
    """The day in the form of ``schedule`` in ``schemas/order.json``: minutes from arrival, breaks and all."""
    made, names = day.schedule, day.hands.names
    told: Data = {"people": list(names), "crew": for_crew(site, order, day), "owner": for_owner(site, order, day)}
    if made is None:
        return told | {"minutes": None, "work_minutes": None, "least_minutes": None, "proven": False, "steps": [],
                       "breaks": [], "off": [], "least_off_minutes": None, "days": None}  # fmt: skip
    steps = [
        {
            "step": order.numbers[step.id], "start": day.at(slot.start), "end": day.at(slot.end, end=True),
            "free": day.at(slot.free, end=True), "people": [names[who] for who in slot.people],
            "ground": day.times[step.id].ground,
        }
        for step in day.steps
        for slot in (made.slots[step.id],)
    ]  # fmt: skip
    names_of = {load.id: load.name for load in day.loads}
    return told | {
        "minutes": day.minutes,
        "work_minutes": made.minutes,
        "least_minutes": made.least,
        "proven": made.proven,
        "steps": steps,
        "breaks": [{"start": each.start, "end": each.end} for each in day.pauses],
        "off": [
            {
                "circuit": each.load, "name": names_of[each.load], "start": day.at(each.start),
                "end": day.at(each.end, end=True), "opened_by": order.numbers[each.by],
                "back_by": order.numbers[each.back] if each.back else None,
            }
            for each in day.off
        ],
        "least_off_minutes": day.least_off,
        "days": [_visit(order, each) for each in day.visits] or None,
    }  # fmt: skip


def _visit(order: WorkOrder, visit: Visit) -> Data:
    """One day, and how the house stands in the night after it."""
    called, night = order.decided.house.called, visit.night
    left = None if night is None else {
        "locked": [called(id) for id in night.locked], "open": [called(id) for id in night.loose],
    }  # fmt: skip
    steps = [order.numbers[id] for id in visit.steps]
    return {"steps": steps, "minutes": visit.minutes, "night": left, "next_day_known": not visit.waits}
