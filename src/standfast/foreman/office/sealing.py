"""What the office says about a record: which of two values counts, what does not count, and that it is finished."""

from base64 import b64encode
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from standfast.fieldwork.record import persons
from standfast.fieldwork.record import seal as record
from standfast.fieldwork.record.event import Event
from standfast.foreman import field_record
from standfast.foreman.office import own_log, standing, tablets
from standfast.foreman.office.cabinet import Cabinet, Refused

TSA_S = 15
TSA_BYTES = 100_000
"""An answer is some thousand bytes."""


def resolve(store: Cabinet, job: str, item: str, keep: str, reason: str, now: datetime) -> None:
    """Say which of several values of one item counts.

    Raises:
        Refused: where the item is not disputed, the value is none of them, or no reason is given.
    """
    found = standing.standing(store, job, now)
    told = found.state.work["items"].get(item)
    counting = [] if told is None else [each["event"] for each in told["values"] if each["counts"]]
    if told is None or told["state"] != "disputed" or keep not in counting:
        raise Refused("There is no such dispute.", "It may be settled by now.", "Look at the record again.")
    _said(reason)
    data = {"of": counting, "keep": keep, "reason": reason}
    own_log.write(store, job, "resolve", data, now, step=told["step"], sheet=found.sheet_hash)


def void(store: Cabinet, job: str, of: str, reason: str, now: datetime) -> None:
    """Say that an event does not count.

    Raises:
        Refused: where there is no such event, or no reason is given.
    """
    event = next((each for each in standing.events(store, job) if each.id == of), None)
    if event is None:
        raise Refused("There is no such entry.", "", "Look at the record again.")
    _said(reason)
    sheet = tablets.last_sheet(store, job, now)
    own_log.write(store, job, "void", {"of": of, "reason": reason}, now, step=event.step, sheet=sheet)


def seal(store: Cabinet, job: str, tsa: str, now: datetime, firm: Path | None = None) -> None:
    """Seal a record as it stands: the field sheet, the state, and the head of every log, signed by the office.

    Args:
        store: where it is kept.
        job: UUID of the job.
        tsa: address of a time-stamp authority to ask; empty for none, and then nobody is asked.
        now: the time.
        firm: folder of the firm; None where there is none.

    Raises:
        Refused: where it is not ready for the handover, something is untested or unsafe, somebody may have looked at
            their own work under a second card, or the authority does not answer as it should.
    """
    sheet = tablets.last_sheet(store, job, now)
    own_log.write(store, job, "seal", lambda me: _sealed(store, job, tsa, now, me, firm), now, sheet=sheet)


def _sealed(store: Cabinet, job: str, tsa: str, now: datetime, me: own_log.Own, firm: Path | None) -> dict[str, object]:
    from standfast.foreman.office import isolation  # the rooms of the design are slow to load

    found = standing.standing(store, job, now)
    if not found.state.ready:
        why = f"{len(found.state.because)} points stand against the handover."
        raise Refused("The record is not ready to be sealed.", why, "See the list at the top of the record.")
    rows = isolation.unanswered(isolation.unsafe_now(store, job, found.events, firm), found.state)
    if rows:
        why = f"{len(rows)} points are untested or unsafe as the work stands. {rows[0]['text']['en']}"
        raise Refused("The record is not ready to be sealed.", why, "See the list at the top of the record.")
    one = persons.behind_two(found.events, found.sheet, field_record.cards(store, job))
    if one:
        why = f"{len(one)} second looks or words are by cards of one name. {one[0]}"
        raise Refused("The record is not ready to be sealed.", why, "Have it looked at under a card of another name.")
    sealed = record.Sealed(job, found.sheet_hash, found.state.hash, _heads(found.events))
    token = {"token": b64encode(stamped(tsa, sealed)).decode()} if tsa else {}
    return {**sealed.as_data(), "sig": record.sign(sealed.text, me.key), **token}


def _heads(events: Sequence[Event]) -> dict[str, record.Head]:
    """The last event of every log, of those that were looked at: what came in meanwhile is no part of the seal."""
    kept: dict[str, dict[int, str]] = {}
    for each in events:  # of two texts for one place the one that the log goes on from comes first
        kept.setdefault(each.dev, {}).setdefault(each.seq, each.hash)
    return {dev: record.Head(max(log), log[max(log)]) for dev, log in kept.items()}


def stamped(tsa: str, sealed: record.Sealed) -> bytes:
    """What a time-stamp authority answers to a seal (RFC 3161 over HTTP).

    Raises:
        Refused: where it cannot be asked, does not answer, or answers something else.
    """
    from urllib.error import URLError
    from urllib.request import Request, urlopen

    if not tsa.startswith(("http://", "https://")):
        raise Refused("That is no address of a time-stamp authority.", "", "Start the server with --tsa https://…")
    try:
        asked = record.request(sealed)
    except ImportError:
        raise Refused(
            "Time stamps are not installed.", "", 'Install them: pip install "standfast[timestamp]"'
        ) from None
    call = Request(tsa, asked, {"Content-Type": "application/timestamp-query"})  # noqa: S310 - the scheme stands above
    try:
        with urlopen(call, timeout=TSA_S) as answer:  # noqa: S310
            token: bytes = answer.read(TSA_BYTES)
    except (URLError, OSError, ValueError):
        raise Refused("The time-stamp authority does not answer.", "", "Seal without it, or later.") from None
    if record.stamp(token, sealed).word == "fail":
        raise Refused("The time-stamp authority answered something else.", "", "Seal without it, or take another.")
    return token


def _said(reason: str) -> None:
    if not reason:
        raise Refused("A reason is missing.", "It stands in the record for good.", "Say why.")
