"""A record as it stands: what follows from its events under the field sheet that was handed out last."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from standfast.fieldwork.record.event import Event, NotAnEvent, read
from standfast.fieldwork.record.fold import fold
from standfast.fieldwork.record.sheet import read_sheet
from standfast.fieldwork.record.state import State
from standfast.foreman.office import tablets
from standfast.foreman.office.cabinet import Cabinet, Refused


class Standing(NamedTuple):
    """A record as it stands: its events, the field sheet and its hash, and the state that follows."""

    events: Sequence[Event]
    sheet: Mapping[str, Any]
    sheet_hash: str
    state: State


class NoSheet(Refused):
    """A job of which no field sheet was handed out yet."""


def events(store: Cabinet, job: str) -> list[Event]:
    """Every event of a job, those in quarantine too: of two texts for one place neither is believed."""
    found = []
    for line in (*store.events(job), *store.quarantine(job)):
        try:
            found.append(read(line.raw))
        except NotAnEvent:
            # A folder may hold a line that was altered by hand; the verification tells it, and nothing follows from it.
            continue
    return found


def standing(store: Cabinet, job: str, now: datetime) -> Standing:
    """The record of a job as it stands.

    Raises:
        NoSheet: where no field sheet was handed out.
    """
    sheet = tablets.last_sheet(store, job, now)
    text = tablets.sheet(store, job, sheet) if sheet else None
    if text is None:
        raise NoSheet("No field sheet of this job was handed out yet.", "", "Hand the job out to a tablet.")
    found, read_in = events(store, job), read_sheet(text)
    return Standing(found, read_in, sheet, fold(found, read_in))


def as_data(found: Standing) -> dict[str, Any]:
    """A standing as it is answered to programs."""
    return {"sheet": found.sheet_hash, "hash": found.state.hash, **found.state.as_data()}
