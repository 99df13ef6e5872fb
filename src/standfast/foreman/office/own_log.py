"""The office's own log in the record of a job: what it resolves, voids, seals and erases, chained like any.

The office is a device with a UUID and an Ed25519 key. The key is kept in the database, sealed under its master key.
"""

import base64
import json
import secrets
import threading
import time
import uuid
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any, NamedTuple

from standfast import __version__
from standfast.fieldwork.record.event import FIRST, hash_of, read
from standfast.foreman.office.cabinet import Cabinet, Refused, packed, secret, stamp, universal, unpacked, until
from standfast.store.interface import Line

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

_OWN, _TURN = "office log", "office turn"
_ONE = threading.Lock()
_TURN_LASTS = timedelta(seconds=30)
_WAITS = 200
_WAIT_S = 0.05
_BOOT = str(uuid.uuid4())
_STARTED = time.monotonic()


class Own(NamedTuple):
    """The office as a device: its id and its key."""

    dev: str
    key: "Ed25519PrivateKey"

    @property
    def public(self) -> str:
        """The public key, base64 of 32 bytes."""
        return base64.b64encode(self.key.public_key().public_bytes_raw()).decode()


Told = Callable[[Own], Mapping[str, Any]]


def own(store: Cabinet, now: datetime) -> Own:
    """The office as a device; made where it is not there yet."""
    found = _known(store, now)
    if found is not None:
        return found
    with _turn(store):
        return _known(store, now) or _made(store)


def _known(store: Cabinet, now: datetime) -> Own | None:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    told = unpacked(store.get(_OWN, "key", stamp(now)))
    if told is None:
        return None
    raw = store.unseal(f"office log {told['dev']}", base64.b64decode(told["key"]))
    return Own(told["dev"], Ed25519PrivateKey.from_private_bytes(raw))


def _made(store: Cabinet) -> Own:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    dev, made = str(uuid.uuid4()), Ed25519PrivateKey.generate()
    sealed = store.seal(f"office log {dev}", made.private_bytes_raw())
    store.put(_OWN, "key", packed({"dev": dev, "key": base64.b64encode(sealed).decode()}))
    return Own(dev, made)


def write(
    store: Cabinet, job: str, type: str, data: Mapping[str, Any] | Told, now: datetime, by: str = "", step: str = "",
    sheet: str = "",
) -> Line:  # fmt: skip
    """Add an event to the office's log of a job.

    Args:
        store: where it is kept.
        job: UUID of the job.
        type, step: as the record knows them.
        data: what is told; or what makes it of the office as a device, while nobody else writes the log.
        now: the time.
        by: hash of the card of the person; empty where none was written.
        sheet: hash of the field sheet, for the beginning of the log.
    """
    with _turn(store):
        me = _known(store, now) or _made(store)
        if not store.acked(job).get(me.dev):
            begin = {"sheet": sheet, "key": me.public, "device": "office"}
            _append(store, job, me.dev, "begin", begin, now, by, "")
        told = data(me) if callable(data) else data
        return _append(store, job, me.dev, type, told, now, by, step)


def head(store: Cabinet, job: str, dev: str) -> tuple[int, str]:
    """Place and hash of the last event of a log that stands without a gap."""
    seq = store.acked(job).get(dev, 0)
    if not seq:
        return 0, FIRST
    others = {each: far for each, far in store.acked(job).items() if each != dev}
    last = next(line for line in store.events(job, {**others, dev: seq - 1}) if line.dev == dev and line.seq == seq)
    return seq, last.hash


def _append(
    store: Cabinet, job: str, dev: str, type: str, data: Mapping[str, Any], now: datetime, by: str, step: str
) -> Line:
    seq, before = head(store, job, dev)
    event = {
        "v": 1, "job": job, "dev": dev, "seq": seq + 1, "prev": before, "id": str(uuid.uuid4()), "type": type,
        "step": step, "data": dict(data), "seen": dict(store.acked(job)), "wall": stamp(now), "tz": "+00:00",
        "mono": round((time.monotonic() - _STARTED) * 1000, 1), "boot": _BOOT, "app": __version__, "user": by,
    }  # fmt: skip
    raw = json.dumps(event, ensure_ascii=False, separators=(",", ":"))
    read(raw)
    line = Line(dev, seq + 1, hash_of(raw), raw)
    taken = store.append(job, [line], stamp(now))
    if taken.forks and any(each.other == line.hash for each in taken.forks):
        raise Refused("The office's log was written by two at once.", "This word stands aside.", "Do it again.")
    return line


@contextmanager
def _turn(store: Cabinet) -> Iterator[None]:
    """One writer at a time: threads of this server by a lock, other programs on the same database by a note in it."""
    with _ONE:
        mine = secret()
        for _ in range(_WAITS):
            now = universal()
            if not any(True for _ in store.keys(_TURN, stamp(now))):
                store.put(_TURN, mine, "", until(now, _TURN_LASTS))
                # Whoever put theirs while nobody else's was there is alone; who sees another's steps back.
                if list(store.keys(_TURN, stamp(now))) == [mine]:
                    break
                store.take(_TURN, mine, stamp(now))
            time.sleep(_WAIT_S * (0.5 + secrets.randbelow(1000) / 1000))
        else:
            raise Refused("Another program writes the office's log.", "", "Wait half a minute and do it again.")
        try:
            yield
        finally:
            store.take(_TURN, mine, stamp(universal()))
