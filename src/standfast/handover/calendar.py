"""Calendar files of a visit, for the crew and for the owner: RFC 5545, instants in UTC.

No clock is read: the stamp of every event is the date of the job's revision, and its id is made of what it says.
"""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from hashlib import sha256
from typing import NamedTuple
from zoneinfo import ZoneInfo

from standfast.fieldwork.crew.day import CrewDay
from standfast.fieldwork.crew.notice import by_utility, for_crew, for_owner
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder
from standfast.handover.crew import off_spans

FOLD = 75
"""Most octets of a line (RFC 5545, 3.1)."""
MAKER = "-//standfast//crew day//EN"


class Event(NamedTuple):
    """One event: what it is, its text, begin and end as instants, and how long before it reminds; 0 for never."""

    title: str
    text: str
    start: datetime
    end: datetime
    alarm_min: int = 0


def zone_of(name: str) -> ZoneInfo | None:
    """A zone of the time zone database; None where it holds none of that name."""
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        return None


def calendars(plan: Plan, order: WorkOrder, day: CrewDay) -> tuple[dict[str, str], str]:
    """The calendar files by name; none, and why, where the day of the visit is not known."""
    lacking = lacks(plan, day)
    visit, job = plan.survey.job.visit, plan.survey.job.job
    zone = None if visit.time_zone is None else zone_of(visit.time_zone)
    if lacking or visit.on is None or zone is None or day.begins is None:
        return {}, plan.say("crew.no_calendar", words=", ".join(lacking))
    midnight = datetime(visit.on.year, visit.on.month, visit.on.day, tzinfo=zone)
    arrival = (midnight.replace(hour=day.begins // 60, minute=day.begins % 60)).astimezone(UTC)
    first = day.visits[0].minutes if len(day.visits) > 1 else day.minutes  # the job file states no other day
    ours = [_event(plan, "event_work", for_crew(plan, order, day), arrival, (0, first))]
    owners = [_event(plan, "event_work", [job.scope or job.name], arrival, (0, first))]
    told, off = for_owner(plan, order, day), [span for span in off_spans(day) if span[0] <= first]
    owners += [_event(plan, "event_off", told, arrival, span)._replace(alarm_min=60) for span in off]
    panels = [each for each in order.isolations if not each.direct]
    if by_utility(plan, panels):
        ours += [_event(plan, "event_utility", told, arrival, span) for span in off[:1]]
    seed = f"{job.name}/{job.revision}/{job.date.isoformat()}"
    return {"crew.ics": written(ours, seed, job.date), "owner.ics": written(owners, seed, job.date)}, ""


def lacks(plan: Plan, day: CrewDay) -> list[str]:
    """Words of the job file without which no event has a begin."""
    visit = plan.survey.job.visit
    found = [] if visit.on is not None else ["visit.on"]
    found += [] if day.begins is not None else ["visit.arrive"]
    found += [] if visit.time_zone is not None and zone_of(visit.time_zone) is not None else ["visit.time_zone"]
    return found if day.schedule is not None else [*found, "handling.crew"]


def _event(plan: Plan, key: str, told: Sequence[str], arrival: datetime, span: tuple[int, int]) -> Event:
    start, end = (arrival + timedelta(minutes=minute) for minute in span)
    return Event(plan.say(f"crew.{key}", job=plan.survey.job.job.name), "\n".join(told), start, end)


def written(events: Sequence[Event], seed: str, stamp: date) -> str:
    """A calendar file.

    Args:
        events: its events.
        seed: goes into their ids, with what they say.
        stamp: date that the file is of.
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{MAKER}", "CALSCALE:GREGORIAN", "METHOD:PUBLISH"]
    for event in events:
        id = sha256(f"{seed}/{event.title}/{event.start.isoformat()}".encode()).hexdigest()[:32]
        lines += [
            "BEGIN:VEVENT", f"UID:{id}@standfast.invalid", f"DTSTAMP:{stamp:%Y%m%d}T000000Z",
            f"DTSTART:{_utc(event.start)}", f"DTEND:{_utc(event.end)}", f"SUMMARY:{escaped(event.title)}",
            f"DESCRIPTION:{escaped(event.text)}",
        ]  # fmt: skip
        if event.alarm_min:
            lines += ["BEGIN:VALARM", "ACTION:DISPLAY", f"DESCRIPTION:{escaped(event.title)}",
                      f"TRIGGER:-PT{event.alarm_min}M", "END:VALARM"]  # fmt: skip
        lines.append("END:VEVENT")
    lines.append("END:VCALENDAR")
    return "".join(f"{folded(line)}\r\n" for line in lines)


def escaped(text: str) -> str:
    """A text value (RFC 5545, 3.3.11): backslash, comma, semicolon and line breaks are marked."""
    for sign in ("\\", ";", ","):
        text = text.replace(sign, f"\\{sign}")
    return text.replace("\r\n", "\\n").replace("\n", "\\n")


def folded(line: str) -> str:
    """A line in pieces of at most 75 octets, each further one behind a blank; no character is cut."""
    pieces, held = [""], 0
    for character in line:
        size = len(character.encode())
        if held + size > FOLD:
            pieces.append("")
            held = 1
        pieces[-1] += character
        held += size
    return "\r\n ".join(pieces)


def _utc(instant: datetime) -> str:
    return f"{instant.astimezone(UTC):%Y%m%dT%H%M%SZ}"
