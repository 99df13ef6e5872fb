"""One event of a device's log: its exact text, and what stands in it.

The text is what was written, hashed and kept; it is never made again from what was read out of it. Each event names the
hash of the one before it in the log of its device, so nothing can be altered, left out or put in between later without
the hashes showing it.
"""

import json
import re
from collections.abc import Mapping
from hashlib import sha256
from typing import Any, NamedTuple

VERSION = 1
FIRST = "0" * 64
"""What the first event of a log names as the one before it."""
LONGEST_BYTES = 64_000
"""Of one event; photos are no part of it."""
GREATEST = 2**53 - 1
"""Of whole numbers that a browser counts exactly."""
TYPES = (
    "begin", "sheet", "person", "done", "reading", "photo", "scan", "timer", "problem", "closed", "hold", "override",
    "void", "resolve", "sign", "checkpoint", "witness", "clock", "manifest", "seal", "erased",
)  # fmt: skip
"""Kinds of events that this version writes; one of a later version is kept and changes nothing."""

_KEYS: dict[str, type | tuple[type, ...]] = {
    "v": int, "job": str, "dev": str, "seq": int, "prev": str, "id": str, "type": str, "step": str, "data": dict,
    "seen": dict, "wall": str, "tz": str, "mono": (int, float), "boot": str, "app": str, "user": str,
}  # fmt: skip
HASH = re.compile(r"[0-9a-f]{64}")
UUID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")


class Event(NamedTuple):
    """What stands in one event.

    Attributes:
        raw: its text, to the byte.
        hash: SHA-256 over ``sf1``, a line feed and the text; in hexadecimal.
        job, dev, id: UUIDs of the job, of the device, of the event.
        seq: its place in the log of the device, from 1.
        prev: hash of the one before.
        type: one of `TYPES`, or a word of a later version.
        step: id of a step of the field sheet; empty where it belongs to none.
        data: what is told, by type.
        seen: of every device, how far its log was known when this was written.
        wall: what the clock of the device said, ISO 8601; it orders nothing.
        tz: offset of the device from universal time.
        mono: milliseconds since the start of the page, by the clock that cannot be set.
        boot: id of that start.
        app: version of the program that wrote it.
        user: hash of the card of the person who held the device; empty before one was named.
    """

    raw: str
    hash: str
    v: int
    job: str
    dev: str
    seq: int
    prev: str
    id: str
    type: str
    step: str
    data: Mapping[str, Any]
    seen: Mapping[str, int]
    wall: str
    tz: str
    mono: float
    boot: str
    app: str
    user: str


class NotAnEvent(ValueError):
    """A text that is no event: what is wrong with it."""


def hash_of(raw: str) -> str:
    """The hash of an event's text, in hexadecimal."""
    return sha256(b"sf1\n" + raw.encode()).hexdigest()


def read(raw: str) -> Event:
    """Read one event.

    Raises:
        NotAnEvent: where the text is no event that can be placed in a log, with what is wrong.
    """
    if len(raw.encode("utf-8", "surrogatepass")) > LONGEST_BYTES:
        raise NotAnEvent(f"longer than {LONGEST_BYTES} bytes")
    if "\n" in raw or "\r" in raw:
        raise NotAnEvent("it has a line break outside its strings")
    try:
        data = json.loads(raw, object_pairs_hook=_once, parse_constant=_no_constant)
        hash = hash_of(raw)
    except RecursionError:
        raise NotAnEvent("nested too deep") from None
    except ValueError as error:
        raise NotAnEvent(f"not JSON: {error}") from None
    _check(data)
    return Event(raw, hash, **{key: data[key] for key in _KEYS})


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise NotAnEvent("a key stands twice in one object")
    return found


def _no_constant(word: str) -> None:
    raise NotAnEvent(f"{word} is no number of JSON")


def _check(data: object) -> None:
    if not isinstance(data, dict):
        raise NotAnEvent("not an object")
    for key, kind in _KEYS.items():
        if key not in data:
            raise NotAnEvent(f"{key} is missing")
        if not isinstance(data[key], kind) or isinstance(data[key], bool):
            raise NotAnEvent(f"{key} is not of the kind that it must be")
    if not (1 <= data["v"] <= GREATEST and 1 <= data["seq"] <= GREATEST):
        raise NotAnEvent("v and seq count from 1, as far as a browser can count")
    for key in ("job", "dev", "id"):
        if not UUID.fullmatch(data[key]):
            raise NotAnEvent(f"{key} is no UUID in small letters")
    if not HASH.fullmatch(data["prev"]):
        raise NotAnEvent("prev is no hash")
    if any(
        not isinstance(far, int) or isinstance(far, bool) or not 0 <= far <= GREATEST for far in data["seen"].values()
    ):
        raise NotAnEvent("seen does not count events")
