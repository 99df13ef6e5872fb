"""Logs of invented devices, for the tests of the store."""

import json
from uuid import UUID, uuid5

from standfast.fieldwork.record.event import FIRST
from standfast.foreman.keeping import line_of
from standfast.store.interface import Line, Revision

JOB = "7c9e6679-7425-40de-944b-e07fc1f90ae7"
OTHER = "3b241101-e2bb-4255-8caf-4136c566a962"
NOW = "2026-05-04T16:20:00Z"
LATER = "2026-05-05T16:20:00Z"
A, B, C = (str(uuid5(UUID(JOB), name)) for name in ("first tablet", "second tablet", "office"))
FIRST_REVISION = Revision(0, "A", '[job]\nname = "Straße – invented"\r\nrevision = "A"\n', NOW, "office")


def line(dev: str, seq: int, prev: str = FIRST, note: str = "") -> Line:
    """An event with its place and hash."""
    raw = {
        "v": 1, "job": JOB, "dev": dev, "seq": seq, "prev": prev, "id": str(uuid5(UUID(dev), f"{seq} {note}")),
        "type": "problem", "step": "", "data": {"text": note, "ångström": 1.0}, "seen": {}, "wall": NOW, "tz": "+00:00",
        "mono": 1e-7, "boot": "b", "app": "0", "user": "",
    }  # fmt: skip
    return line_of(json.dumps(raw, ensure_ascii=False, separators=(",", ": ")))


def log(dev: str, count: int, note: str = "") -> list[Line]:
    """A chained log."""
    found: list[Line] = []
    for seq in range(1, count + 1):
        found.append(line(dev, seq, found[-1].hash if found else FIRST, note))
    return found
