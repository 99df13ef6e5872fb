"""The field record as tablets and the office bring and fetch it: events in and out, field sheets, cards, files, state.

Nothing is judged here that the record itself can judge later: a broken chain is taken and told, since the fault is part
of what happened. Refused is what does not belong: another job, another tablet's log, a text that is no event.
"""

import re
from collections import OrderedDict
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from pathlib import Path
from threading import Lock
from typing import Any, NamedTuple

from standfast.fieldwork.record.event import FIRST, Event, NotAnEvent, read
from standfast.foreman.office import standing, tablets
from standfast.foreman.office.cabinet import Cabinet, Refused, hashed, stamp
from standfast.foreman.office.uploads import CARD_BYTES, kind
from standfast.store.interface import Fork, Line, StoreError, Upload, WrongHash, WrongOffset

STATES_KEPT = 64
_STATES: OrderedDict[str, dict[str, Any]] = OrderedDict()
_TURN = Lock()
_SHA = re.compile(r"[0-9a-f]{64}")
OF_THE_OFFICE = ("erased", "seal")
"""Types of events that no tablet brings of its own: they would pass for the word of the office."""
MOST_EVENTS = 200
"""In one call, in each direction."""

__all__ = ["Exchange", "NotAllowed", "NotThere", "StoreError", "Upload", "WrongHash", "WrongOffset", "exchange"]


class NotAllowed(Refused):
    """Something that the one who asks may not do."""


class NotThere(Refused):
    """Something that is not there, or not for the one who asks."""


class Exchange(NamedTuple):
    """What one exchange came to.

    Attributes:
        acked: of each device, how far its log stands here without a gap.
        events: what the other side did not have, at most `MOST_EVENTS`.
        more: True where there is more of it.
        forks: places of logs for which two texts are there.
        broken: places of what was brought that do not name the event before them by its hash.
    """

    acked: Mapping[str, int]
    events: Sequence[Line]
    more: bool
    forks: Sequence[Fork]
    broken: Sequence[str]


def exchange(
    store: Cabinet, job: str, dev: str | None, raws: Sequence[str], have: Mapping[str, int], now: datetime
) -> Exchange:
    """Take events of a job and give those that the other side lacks.

    Args:
        store: where they are kept.
        job: UUID of the job.
        dev: the one device whose log may be brought; None where any may be (the office brings an exported file).
        raws: texts of events.
        have: of each device, how far the other side has its log.
        now: the time, kept beside what is new.

    Raises:
        Refused: where a text is no event, or belongs elsewhere. Nothing of the call is kept then.
    """
    events = [_event(raw, job, dev) for raw in raws]
    lines = [Line(each.dev, each.seq, each.hash, each.raw) for each in events]
    taken = store.append(job, lines, stamp(now)) if lines else None
    # What was just brought need not be sent back.
    known = dict(have)
    if taken is not None and dev is not None:
        known[dev] = max(known.get(dev, 0), taken.acked.get(dev, 0))
    found = store.events(job, known, MOST_EVENTS + 1)
    acked = store.acked(job) if taken is None else taken.acked
    return Exchange(
        acked, found[:MOST_EVENTS], len(found) > MOST_EVENTS, store.forks(job), list(_broken(store, job, events))
    )


def _event(raw: str, job: str, dev: str | None) -> Event:
    try:
        event = read(raw)
    except NotAnEvent as error:
        raise Refused(
            f"A text is no event: {error}.", "", "Export the record of the tablet and tell the office."
        ) from None
    if event.job != job:
        raise NotAllowed("An event belongs to another job.", "", "Send it to that one.")
    if dev is not None and event.dev != dev:
        raise NotAllowed("An event is of another device.", "A tablet brings its own log only.", "")
    if dev is not None and event.type in OF_THE_OFFICE:
        raise NotAllowed("Sealing and erasing are the office's.", "A tablet's word would look like it.", "")
    return event


def _broken(store: Cabinet, job: str, events: Sequence[Event]) -> Iterator[str]:
    """Places whose event names another hash than that of the event before it; what is not here yet is not told."""
    if not events:
        return
    hashes = {(each.dev, each.seq): each.hash for each in events}
    firsts = {each.dev: min(other.seq for other in events if other.dev == each.dev) for each in events}
    before = {dev: max(0, seq - 2) for dev, seq in firsts.items()}
    for dev, far in before.items():
        others = {each: 2**53 for each in store.acked(job) if each != dev}
        for line in store.events(job, {**others, dev: far}, limit=1):
            hashes.setdefault((line.dev, line.seq), line.hash)
    for each in events:
        known = FIRST if each.seq == 1 else hashes.get((each.dev, each.seq - 1))
        if known is not None and known != each.prev:
            yield f"{each.dev} {each.seq}"


def jobs_of(store: Cabinet, dev: str | None, now: datetime) -> list[dict[str, str]]:
    """The jobs that a tablet was handed, or with None all that were handed to any; by title."""
    handed: dict[str, str] = {}
    for each in [dev] if dev is not None else [tablet.id for tablet in store.devices() if not tablet.withdrawn]:
        handed.update(tablets.handed(store, each, now))
    found = []
    for job, sheet in handed.items():
        head = tablets.titled(store, job, sheet, now)
        if head is not None:
            title, revision = head
            found.append({"job": job, "title": title, "revision": revision, "sheet": sheet})
    return sorted(found, key=lambda each: (each["title"], each["job"]))


def may(store: Cabinet, dev: str, job: str, now: datetime) -> None:
    """Nothing where a tablet was handed the job.

    Raises:
        NotThere: where it was not; it learns no more than that.
    """
    if not tablets.has(store, dev, job, now):
        raise NotThere("This tablet has no such job.", "The office hands jobs out.", "Ask the office to hand it out.")


def known(store: Cabinet, job: str) -> bool:
    """True where the store has the job."""
    return any(each.id == job for each in store.jobs())


def is_sha(text: str) -> bool:
    """True for a SHA-256 as files are named by it."""
    return _SHA.fullmatch(text) is not None


def cards(store: Cabinet, job: str) -> dict[str, str]:
    """Cards of the people of a job, as they were written, by their hash. None are there after an erasure."""
    found = {}
    for sha in store.files(job, private=True):
        told = store.upload(job, sha)
        data = store.file(job, sha) if told is not None and told.length <= CARD_BYTES else None
        if data is not None and kind(data) == "application/json":
            found[sha] = data.decode("utf-8", "replace")
    return found


def file(store: Cabinet, job: str, sha: str) -> tuple[bytes, str]:
    """A file of a job and its kind.

    Raises:
        NotThere: where it is not there, or was erased.
    """
    data = store.file(job, sha)
    if data is None:
        raise NotThere("There is no such file.", "It was not sent yet, or it was erased.", "")
    return data, kind(data) or "application/octet-stream"


def state(store: Cabinet, job: str, firm: Path | None, now: datetime) -> dict[str, Any]:
    """What follows from a record, and what is unsafe or untested now, as it is answered.

    It is kept until an event, a field sheet or a revision comes: many tablets ask while nothing does.

    Raises:
        NotThere: where no field sheet of it was handed out.
    """
    from standfast.foreman.office import isolation  # the rooms of the design are slow to load

    mark = _mark(store, job, firm, now)
    with _TURN:
        kept = _STATES.get(mark)
    if kept is not None:
        return kept
    try:
        found = standing.standing(store, job, now)
    except standing.NoSheet as error:
        raise NotThere(error.what, error.why, error.todo) from None
    told = {**standing.as_data(found), "unsafe": isolation.unsafe_now(store, job, found.events, firm)}
    # What came while it was worked out has made another mark: this one is kept only where it is still the same.
    if _mark(store, job, firm, now) == mark:
        with _TURN:
            _STATES[mark] = told
            while len(_STATES) > STATES_KEPT:
                _STATES.popitem(last=False)
    return told


def _mark(store: Cabinet, job: str, firm: Path | None, now: datetime) -> str:
    """Changes with everything that a state follows from: logs, what lies beyond their gaps, forks, sheet, revision."""
    acked = store.acked(job)
    beyond = [line.hash for line in store.events(job, acked)]
    told = (sorted(acked.items()), beyond, store.forks(job), tablets.last_sheet(store, job, now), store.job(job).number)
    return hashed(repr((id(store), job, str(firm), told)))


def as_data(found: Exchange, now: datetime) -> dict[str, Any]:
    """An exchange as it is answered."""
    return {
        "acked": dict(found.acked),
        "events": [each._asdict() for each in found.events],
        "more": found.more,
        "forks": [each._asdict() for each in found.forks],
        "broken": list(found.broken),
        "now": stamp(now),
    }
