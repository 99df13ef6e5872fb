"""Which files of a job are accepted: those that its record names, of a kind that is expected, as far as there is room.

Without that an enrolled tablet could fill the disk.
"""

import json
import re
import threading
from collections import OrderedDict
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from standfast.fieldwork.record.event import NotAnEvent, read
from standfast.foreman.office.cabinet import Cabinet, Refused
from standfast.store.interface import Upload

PHOTO_BYTES = 16_000_000
CARD_BYTES = 64_000
JOB_BYTES = 4_000_000_000
"""Of all files of one job."""
PIECE_BYTES = 1_000_000
"""Of one piece of a file."""
FIRST_BYTES = 16
"""So much of a file tells what it is; the first piece has at least that."""
_SHA = re.compile(r"[0-9a-f]{64}")
_JOBS_KEPT = 64


class NotNamed(Refused):
    """A file that no event of the job names."""


class TooLarge(Refused):
    """A file that is larger than was told, than is taken, or than there is room for."""


class WrongKind(Refused):
    """A file that is none of the kinds that are taken."""


class Named(NamedTuple):
    """What an event says about a file: how many bytes it has (0: not told); whether it is a picture (None: either)."""

    length: int
    picture: bool | None


class Uploads:
    """Takes pieces of files. It remembers, per job, what the events name, and reads only what came since."""

    def __init__(self, store: Cabinet, job_bytes: int = JOB_BYTES) -> None:
        self._store, self._job_bytes, self._lock = store, job_bytes, threading.Lock()
        self._known: OrderedDict[str, tuple[dict[str, int], dict[str, Named]]] = OrderedDict()

    def named(self, job: str) -> Mapping[str, Named]:
        """The files that the record of a job names."""
        with self._lock:
            far, found = self._known.pop(job, ({}, {}))
            # Asked before the events are: what comes in between is read again next time, and never left out.
            now = dict(self._store.acked(job))
            for line in self._store.events(job, far):
                for sha, told in _names(line.raw):
                    # A list of files says less than the event that took the photo.
                    if told.picture is not None or sha not in found:
                        found[sha] = told
            self._known[job] = (now, found)
            while len(self._known) > _JOBS_KEPT:
                self._known.popitem(last=False)
            return dict(found)

    def write(self, job: str, sha: str, offset: int, length: int, piece: bytes) -> Upload:
        """Take a piece of a file.

        Raises:
            NotNamed, TooLarge, WrongKind: where it is not accepted.
            WrongOffset, WrongHash: as the store tells.
        """
        named = self.named(job).get(sha)
        if named is None:
            raise NotNamed("No event names this file.", "Only what the record names is kept.", "Send the events first.")
        self._fits(job, sha, length, named)
        if offset + len(piece) > length:
            raise TooLarge("The piece goes beyond the end of the file.", f"It has {length} bytes.", "Send the rest.")
        if offset == 0:
            _is_of_its_kind(piece, length, picture=named.picture)
        done = self._store.write(job, sha, offset, length, piece)
        if done.done and named.picture is False:
            self._is_json(job, sha)
        return done

    def _fits(self, job: str, sha: str, length: int, named: Named) -> None:
        most = CARD_BYTES if named.picture is False else PHOTO_BYTES
        if not 0 < length <= most:
            raise TooLarge("The file is too large.", f"At most {most} bytes are taken.", "Make the picture smaller.")
        if named.length and named.length != length:
            raise TooLarge("The file has another length than its event tells.", f"It told {named.length}.", "")
        known = self._store.upload(job, sha)
        if known is not None and known.length != length:
            raise TooLarge("The file was begun with another length.", f"It was {known.length}.", "")
        if known is None and self.room(job) < length:
            raise TooLarge("There is no room for more files of this job.", "", "Ask the office.")

    def room(self, job: str) -> int:
        """How many bytes of files the job may still have."""
        return self._job_bytes - self._store.held(job)

    def _is_json(self, job: str, sha: str) -> None:
        text = self._store.file(job, sha) or b""
        try:
            json.loads(text)
        except (ValueError, RecursionError):
            raise WrongKind("The card is no JSON.", "", "Write it again.") from None


def kind(data: bytes) -> str:
    """The kind of a file by its first bytes; empty where it is none of those that are taken."""
    if data.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "image/webp"
    return "application/json" if data.startswith(b"{") else ""


def _is_of_its_kind(piece: bytes, length: int, *, picture: bool | None) -> None:
    if len(piece) < min(length, FIRST_BYTES):
        raise WrongKind(
            "The first piece is too short.", f"{FIRST_BYTES} bytes tell what it is.", "Send a larger piece."
        )
    found = kind(piece)
    if not found or (picture is not None and (found == "application/json") == picture):
        raise WrongKind("The file is of a kind that is not taken.", "Taken are JPEG, PNG, WebP, and cards as JSON.", "")


def _names(raw: str) -> Iterator[tuple[str, Named]]:
    """Files that an event names, by what its type says."""
    try:
        event = read(raw)
    except NotAnEvent:
        return
    data: Mapping[str, Any] = event.data
    match event.type:
        case "photo" | "problem":
            told = data.get("bytes")
            length = told if isinstance(told, int) and not isinstance(told, bool) and told > 0 else 0
            yield from _one(data.get("sha"), Named(length, picture=True))
        case "sign":
            yield from _one(data.get("image"), Named(0, picture=True))
            yield from _one(data.get("by"), Named(0, picture=False))
        case "person":
            yield from _one(data.get("card"), Named(0, picture=False))
        case "hold" | "override":
            yield from _one(data.get("by"), Named(0, picture=False))
        case "manifest" if isinstance(data.get("files"), list):
            for sha in data["files"]:
                yield from _one(sha, Named(0, picture=None))
    yield from _one(event.user, Named(0, picture=False))


def _one(sha: object, named: Named) -> Iterator[tuple[str, Named]]:
    if isinstance(sha, str) and _SHA.fullmatch(sha):
        yield sha, named
