"""Tablets: enrolled once by a code that the office shows, known by a random text, withdrawn by the office."""

import base64
import binascii
import json
import re
from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from typing import NamedTuple

from standfast.fieldwork.record.seal import signed
from standfast.foreman.office import own_log
from standfast.foreman.office.cabinet import (
    Cabinet,
    Refused,
    hashed,
    one_line,
    packed,
    secret,
    stamp,
    unpacked,
    until,
)
from standfast.store.interface import Device

CODE_LASTS = timedelta(minutes=10)
TOKEN_LASTS = timedelta(days=400)
"""As long as browsers keep a cookie at most."""
KEY_BYTES = 32
_CODE, _TABLET, _SHEET, _TITLE = "enrolment", "tablet", "field sheet", "title of a sheet"
_UUID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")


class Tablet(NamedTuple):
    """A tablet that shows a text which counts."""

    dev: str
    name: str


def code(store: Cabinet, now: datetime) -> str:
    """A code by which one tablet can be enrolled, once, within ten minutes."""
    list(store.keys(_CODE, stamp(now)))
    made = secret()
    store.put(_CODE, hashed(made), packed({"role": "crew"}), until(now, CODE_LASTS))
    return made


def qr(text: str) -> str:
    """A text as a QR code: an SVG drawing in which nothing but rectangles stand."""
    import io

    import segno

    out = io.BytesIO()
    segno.make_qr(text, error="m").save(out, kind="svg", scale=8, border=4, xmldecl=False, svgns=True, nl=False)
    return out.getvalue().decode()


def enrol(store: Cabinet, code: str, dev: str, name: str, key: str, now: datetime, sig: str = "") -> str:
    """Enrol a tablet. One that is known already shows that it has its key: the public half stands in every record.

    Args:
        code: as the office showed it.
        dev: UUID that the tablet made for its log.
        name: as people call the tablet.
        key: its public key, Ed25519, base64 of 32 bytes.
        now: the time.
        sig: of `enrol_text` by that key, base64; asked of a tablet that is known already.

    Returns:
        What the tablet will show from now on.

    Raises:
        Refused: where the code counts no longer, or the tablet cannot be that one.
    """
    _checked(dev, key)
    known = device(store, dev)
    if dev == own_log.own(store, now).dev or (known is not None and known.key != key):
        raise Refused("This tablet is known by another key.", "Two would write one log.", "Clear the page's storage.")
    if known is not None and not signed(enrol_text(code, dev), sig, key):
        raise Refused(
            "This tablet does not show that it has its key.", "Another could take its place.", "Load the page again."
        )
    if store.take(_CODE, hashed(code), stamp(now)) is None:
        raise Refused(
            "This code counts no longer.", "It is good for one tablet, and for ten minutes.", "Show a new one."
        )
    if known is not None:
        store.take(_TABLET, known.token, stamp(now))
    token = secret()
    shown = one_line(name)[:60] or dev[:8]
    store.keep_device(Device(dev, shown, key, hashed(token), stamp(now)))
    store.put(_TABLET, hashed(token), packed({"dev": dev, "name": shown}), until(now, TOKEN_LASTS))
    return token


def enrol_text(code: str, dev: str) -> str:
    """What a tablet signs to be enrolled anew."""
    return f"sf1-enrol\n{code}\n{dev}"


def tablet(store: Cabinet, token: str, now: datetime) -> Tablet | None:
    """The tablet that shows a text; None where it counts no longer."""
    told = unpacked(store.get(_TABLET, hashed(token), stamp(now))) if token else None
    return None if told is None else Tablet(told["dev"], told["name"])


def devices(store: Cabinet) -> Sequence[Device]:
    """Every tablet, by name; those that were withdrawn last."""
    return sorted(store.devices(), key=lambda each: (bool(each.withdrawn), each.name.casefold(), each.id))


def device(store: Cabinet, dev: str) -> Device | None:
    """A tablet by its id, withdrawn or not."""
    return next((each for each in store.devices() if each.id == dev), None)


def withdraw(store: Cabinet, dev: str, now: datetime) -> Device:
    """Take a tablet's right to speak away. What it brought stays; what it still holds can be imported from a file."""
    found = device(store, dev)
    if found is None:
        raise Refused("There is no such tablet.", "", "Look at the list of tablets.")
    store.take(_TABLET, found.token, stamp(now))
    gone = found if found.withdrawn else found._replace(withdrawn=stamp(now))
    store.keep_device(gone)
    return gone


def hand_out(store: Cabinet, dev: str, job: str, sheet: str, now: datetime) -> None:
    """Let a tablet have a job and write its record, by a field sheet that is kept."""
    found = device(store, dev)
    if found is None or found.withdrawn:
        raise Refused("There is no such tablet.", "", "Look at the list of tablets.")
    store.put(_handed(dev), job, packed({"sheet": sheet, "from": stamp(now)}))


def take_back(store: Cabinet, dev: str, job: str, now: datetime) -> None:
    """Let a tablet write to a job no longer."""
    store.take(_handed(dev), job, stamp(now))


def handed(store: Cabinet, dev: str, now: datetime) -> Mapping[str, str]:
    """Jobs that a tablet has, each with the hash of its field sheet."""
    found = {}
    for job in list(store.keys(_handed(dev), stamp(now))):
        told = unpacked(store.get(_handed(dev), job, stamp(now)))
        if told is not None:
            found[job] = str(told["sheet"])
    return found


def has(store: Cabinet, dev: str, job: str, now: datetime) -> bool:
    """True where a tablet has a job."""
    return store.get(_handed(dev), job, stamp(now)) is not None


def keep_sheet(store: Cabinet, job: str, text: str) -> str:
    """Keep a field sheet that is handed out; its hash."""
    data, sheet = text.encode(), hashed(text)
    known = store.upload(job, sheet, private=False)
    if known is None or not known.done:
        offset = 0 if known is None else known.offset
        store.write(job, sheet, offset, len(data), data[offset:], private=False)
    head = json.loads(text)["job"]
    store.put(_TITLE, f"{job} {sheet}", packed({"name": head["name"], "revision": head["revision"]}))
    store.put(_SHEET, job, sheet)
    return sheet


def last_sheet(store: Cabinet, job: str, now: datetime) -> str:
    """Hash of the field sheet that was handed out last; empty where none was."""
    return store.get(_SHEET, job, stamp(now)) or ""


def sheet(store: Cabinet, job: str, sheet: str) -> str | None:
    """A field sheet that was handed out, to the byte; None where there is none of that hash."""
    if sheet not in store.files(job, private=False):
        return None
    data = store.file(job, sheet)
    return None if data is None else data.decode("utf-8", "replace")


def titled(store: Cabinet, job: str, sheet: str, now: datetime) -> tuple[str, str] | None:
    """Name and revision of the job of a field sheet; None where there is no such sheet."""
    told = unpacked(store.get(_TITLE, f"{job} {sheet}", stamp(now)))
    return None if told is None else (str(told["name"]), str(told["revision"]))


def _handed(dev: str) -> str:
    return f"handed out {dev}"


def _checked(dev: str, key: str) -> None:
    if not _UUID.fullmatch(dev):
        raise Refused("The tablet names itself by no UUID.", "", "Load the page again.")
    try:
        right = len(base64.b64decode(key, validate=True)) == KEY_BYTES
    except (binascii.Error, ValueError):
        right = False
    if not right:
        raise Refused("The tablet's key is none.", "It is Ed25519, 32 bytes in base64.", "Load the page again.")
