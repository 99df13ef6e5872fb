"""Erasing: photos and names of a job become unreadable for good; the record keeps their hashes and says so itself."""

from collections.abc import Sequence
from datetime import date, datetime
from typing import NamedTuple

from standfast.foreman.office import own_log, retention, standing
from standfast.foreman.office.cabinet import Cabinet, Refused, stamp

LONGEST_REASON = 500


class Clock(NamedTuple):
    """From when somebody should ask whether photos and names may go: the day, years, their source, and how known.

    `day` is None where nothing was done yet: then no period has begun.
    """

    day: date | None
    years: int
    source: str
    seen: str


def clock(adoption: str, last: str) -> Clock:
    """The retention clock of a job.

    Args:
        adoption: of the job.
        last: day on which the last word was written, ISO 8601; empty where there is none.
    """
    rule = retention.retention(adoption)
    try:
        day = retention.ends(adoption, date.fromisoformat(last)) if last else None
    except ValueError:  # a tablet wrote the 30th of February
        day = None
    return Clock(day, rule.years, rule.source, rule.seen)


def erase(store: Cabinet, job: str, reason: str, now: datetime, by: str = "") -> Sequence[str]:
    """Destroy the key of the job's photos and cards, and write into the record what was erased and why.

    It can be done again: what was erased and not written yet, since the machine went down between, is written then.

    Returns:
        Hashes of what was erased now.

    Raises:
        Refused: where no reason is given.
    """
    said = " ".join(reason.split())[:LONGEST_REASON]
    if not said:
        raise Refused("An erasure has a reason.", "It stands in the record for good.", "Say why.")
    gone = set(store.erase(job, stamp(now)))
    for event in standing.events(store, job):
        if event.type == "erased" and isinstance(event.data.get("what"), list):
            gone -= {each for each in event.data["what"] if isinstance(each, str)}
    if gone:
        own_log.write(store, job, "erased", {"what": sorted(gone), "reason": said}, now, by)
    return sorted(gone)
