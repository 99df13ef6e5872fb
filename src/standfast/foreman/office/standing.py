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

    A record that was brought along from elsewhere is read under the field sheet that it names last: nothing of it was
    handed out here.

    Raises:
        NoSheet: where no field sheet was handed out, and none came along.
    """
    found = events(store, job)
    for sheet in (tablets.last_sheet(store, job, now), *reversed(_taken_up(found))):
        text = tablets.sheet(store, job, sheet) if sheet else None
        if text is not None:
            read_in = read_sheet(text)
            return Standing(found, read_in, sheet, fold(found, read_in))
    raise NoSheet("No field sheet of this job was handed out yet.", "", "Hand the job out to a tablet.")


def _taken_up(found: Sequence[Event]) -> list[str]:
    """Hashes of the field sheets under which a record was written, in the order in which its lines came."""
    named = (each.data.get("sheet") for each in found if each.type in ("begin", "sheet"))
    return [each for each in named if isinstance(each, str)]


def as_data(found: Standing) -> dict[str, Any]:
    """A standing as it is answered to programs."""
    return {"sheet": found.sheet_hash, "hash": found.state.hash, **found.state.as_data()}
