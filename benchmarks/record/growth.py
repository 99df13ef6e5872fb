"""What grows with the events of a job: one batch in, the vector, the fold; and one batch against the bare database."""

import json
import random
import sqlite3
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from benchmarks.record.house import firm
from benchmarks.record.tablet import BATCH, Tablet, timed

SIZES = (200, 1_000, 5_000, 20_000)


class Grown(NamedTuple):
    """Seconds at so many events of a job: for one more batch, for what a tablet that has all but it is sent, for the
    fold of everything."""

    events: int
    batch: float
    sent: float
    fold: float


def growth(url: str, folder: Path) -> Iterator[Grown]:
    """Fill one job, and measure on the way."""
    from standfast.fieldwork.record.event import hash_of, read
    from standfast.fieldwork.record.fold import fold
    from standfast.fieldwork.record.sheet import read_sheet
    from standfast.foreman.field import field_sheet
    from standfast.foreman.office.opening import opened
    from standfast.foreman.plan import make_plan
    from standfast.store.interface import Line

    made = firm(url, folder, 1)
    sheet = read_sheet(field_sheet(make_plan(folder / "one-wall")))
    items = [item["id"] for step in sheet["steps"] for item in step["items"] if item["kind"] == "reading"]
    (tablet,), store, draw = made.tablets(0), opened(url), random.Random(1)

    def batch() -> float:
        start = len(tablet.log)
        _write(tablet, draw, items, BATCH)
        lines = [Line(tablet.dev, start + n + 1, hash_of(raw), raw) for n, raw in enumerate(tablet.log[start:])]
        return timed(lambda: store.append(made.job, lines, "2026-11-25T21:00:00Z"))

    for size in SIZES:
        while len(tablet.log) < size:
            took = batch()
        have = {tablet.dev: len(tablet.log) - BATCH}
        sent = timed(lambda have=have: (store.acked(made.job), store.events(made.job, have, BATCH)))  # type: ignore[misc]
        events = [read(raw) for raw in tablet.log]
        folded = timed(lambda events=events: fold(events, sheet))  # type: ignore[misc]
        yield Grown(len(tablet.log), took, sent, folded)
    store.close()


def _write(tablet: Tablet, draw: random.Random, items: list[str], number: int) -> None:
    for _ in range(number):
        item = draw.choice(items)
        value = {"item": item, "value": f"{draw.random():.3f}", "unit": "V"}
        tablet.write("reading", {"values": [value]}, item.partition("/")[0])


def batches(url: str, folder: Path) -> Callable[[], float]:
    """Seconds of one more batch of 200 events into a database, each time it is asked."""
    from standfast.fieldwork.record.event import hash_of
    from standfast.foreman.office.opening import opened
    from standfast.store.interface import Line

    made = firm(url, folder, 1)
    (tablet,), store, draw = made.tablets(0), opened(url), random.Random(1)

    def seconds() -> float:
        start = len(tablet.log)
        _write(tablet, draw, ["job.dead-tests/T1-1"], BATCH)
        lines = [Line(tablet.dev, start + n + 1, hash_of(raw), raw) for n, raw in enumerate(tablet.log[start:])]
        return timed(lambda: store.append(made.job, lines, "2026-11-25T21:00:00Z"))

    return seconds


def bare_s(folder: Path) -> float:
    """One batch of 200 events as bare rows in one transaction that is on the disk when it is done."""
    place = folder / "bare.db"
    db = sqlite3.connect(place)
    db.execute("PRAGMA journal_mode = wal")
    db.execute("PRAGMA synchronous = full")
    db.execute("CREATE TABLE IF NOT EXISTS line (dev TEXT, seq INTEGER, hash TEXT, raw TEXT, UNIQUE (dev, seq))")
    first = db.execute("SELECT count(*) FROM line").fetchone()[0]
    rows = [("dev", first + n, "0" * 64, json.dumps({"n": n, "text": "x" * 400})) for n in range(BATCH)]
    start = time.perf_counter()
    with db:
        db.executemany("INSERT INTO line VALUES (?, ?, ?, ?)", rows)
    took = time.perf_counter() - start
    db.close()
    return took
