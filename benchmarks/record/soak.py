"""A day without the server, then its return under faults: what is lost, what is doubled, how long, how much memory.

Two tablets and the office write 2,000 events and 300 photos apart from each other. Then all three bring them at once,
while answers are lost, batches come again and backwards, and the server is killed in whatever it does.
"""

import contextlib
import random
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from benchmarks.record.house import Server, firm
from benchmarks.record.tablet import Lost, Tablet

EVENTS, PHOTOS, PHOTO_BYTES = 2_000, 300, 300_000
KILLS = 8
LOST, AGAIN = 0.05, 0.1
"""Shares of calls whose answer is lost, and of batches that are brought again."""


class Soaked(NamedTuple):
    """What came of it. `lost` and `doubled` count events and photos that are not there, or there twice."""

    lost: int
    doubled: int
    seconds: float
    calls: int
    kills: int
    server_mb: float


def soak(url: str, folder: Path, seed: int = 1) -> Soaked:
    """Run one day on a database."""
    draw, made = random.Random(seed), firm(url, folder, 3)
    server = Server(url)
    tablets = made.tablets(server.port)
    _day(tablets, draw, made.sheet)
    start, left, kills = time.perf_counter(), threading.Event(), list[float]()
    workers = [
        threading.Thread(target=_bring_all, args=(each, random.Random(seed + n))) for n, each in enumerate(tablets)
    ]
    killer = threading.Thread(target=_kill, args=(server, left, draw, kills))
    for each in (*workers, killer):
        each.start()
    for each in workers:
        each.join()
    seconds = time.perf_counter() - start
    left.set()
    killer.join()
    server.kill()
    lost, doubled = _compared(url, made.job, tablets)
    calls = sum(each.calls for each in tablets)
    return Soaked(lost, doubled, seconds, calls, len(kills), server.peak_mb)


def _day(tablets: list[Tablet], draw: random.Random, sheet: str) -> None:
    """What is written while the server is away; clocks are wrong by years now and then."""
    for each in tablets:
        each.write("begin", {"sheet": sheet, "key": "", "device": "Tablet"})
    for number in range(EVENTS - PHOTOS - len(tablets)):
        wall = f"{draw.choice((2026, 2026, 2026, 2031, 1970))}-11-25T21:04:05.123Z"
        value = {"item": "job.dead-tests/T1-1", "value": str(number), "unit": "MΩ"}
        draw.choice(tablets).write("reading", {"values": [value]}, "job.dead-tests", wall)
    for _ in range(PHOTOS):
        draw.choice(tablets).photo(draw, PHOTO_BYTES, "battery-1.close-cover")


def _bring_all(tablet: Tablet, draw: random.Random) -> None:
    """Bring everything, as often as it takes."""

    def lost() -> bool:
        return draw.random() < LOST

    while tablet.acked < len(tablet.log):
        _tried(lambda: tablet.bring(lost, again=draw.random() < AGAIN), draw)
    waiting = list(tablet.photos)
    while waiting:
        sha = draw.choice(waiting)
        done = []
        _tried(lambda sha=sha, done=done: done.append(tablet.send(sha, lost)), draw)  # type: ignore[misc]
        if done == [True]:
            waiting.remove(sha)


def _tried(run: Callable[[], object], draw: random.Random) -> None:
    try:
        run()
    except Lost:
        time.sleep(0.02 + 0.1 * draw.random())


def _kill(server: Server, left: threading.Event, draw: random.Random, kills: list[float]) -> None:
    for _ in range(KILLS):
        if left.wait(0.5 + draw.random()):
            return
        server.kill()
        kills.append(time.perf_counter())
        server.start()


def _compared(url: str, job: str, tablets: list[Tablet]) -> tuple[int, int]:
    """Everything that tablets hold against everything that the database has, to the byte."""
    from standfast.foreman.office.opening import opened

    store = opened(url)
    with contextlib.closing(store):
        there = [line.raw for line in store.events(job)]
        wanted = [raw for each in tablets for raw in each.log]
        photos = {sha: data for each in tablets for sha, data in each.photos.items()}
        kept = [sha for sha in store.files(job) if sha in photos]
        lost = len(set(wanted) - set(there)) + sum(store.file(job, sha) != data for sha, data in photos.items())
        doubled = len(there) - len(set(there)) + len(kept) - len(set(kept))
        return lost, doubled + len(store.forks(job))
