"""Clocks of tablets that jumped or stood wrong. Nothing is ordered by them; but the times that people read are."""

from collections.abc import Iterator
from datetime import UTC, datetime
from itertools import pairwise

from standfast.fieldwork.record.causal import text
from standfast.fieldwork.record.chain import Kept, Record
from standfast.fieldwork.record.findings import Finding, found

APART_S = 120
"""By so much a clock may be off before it is told: common practice, no source."""


def jumped(record: Record) -> Iterator[Finding]:
    """A clock that moved otherwise than the one that cannot be set, and one that told another time than the office."""
    for log in record.logs.values():
        line = [texts[0] for _, texts in sorted(log.items())]
        for before, after in pairwise(line):
            off = _set_by(before, after)
            if off is not None and abs(off) > APART_S:
                yield found("clock set", f"by {off:+.0f} s since the event before", after.at)
        for kept in line:
            off = _wrong_by(kept)
            if off is not None and abs(off) > APART_S:
                yield found("clock wrong", f"{off:+.0f} s against the office's", kept.at)


def _set_by(before: Kept, after: Kept) -> float | None:
    """By how many seconds a clock was set between two events of one start of the page."""
    if before.event.boot != after.event.boot:
        return None
    first, last = _time(before.event.wall), _time(after.event.wall)
    if first is None or last is None:
        return None
    return (last - first).total_seconds() - (after.event.mono - before.event.mono) / 1000


def _wrong_by(kept: Kept) -> float | None:
    """By how many seconds a clock was ahead of the office's when both met."""
    if kept.event.type != "clock":
        return None
    ours, office = _time(text(kept.event.data, "wall")), _time(text(kept.event.data, "server"))
    return None if ours is None or office is None else (ours - office).total_seconds()


def _time(said: str) -> datetime | None:
    try:
        time = datetime.fromisoformat(said)
    except ValueError:
        return None
    return time.replace(tzinfo=UTC) if time.tzinfo is None else time
