"""Many tablets that come back into the net at one moment: how long each waits for its answer."""

import random
import threading
from pathlib import Path
from typing import NamedTuple

from benchmarks.record.house import Server, firm
from benchmarks.record.tablet import Lost, Tablet, never, timed

TABLETS, ROUNDS, EVENTS = 200, 3, 20


class Waited(NamedTuple):
    """Waits for the answer to one batch, in s; memory of the server in MB; answers that did not come."""

    p50: float
    p95: float
    p99: float
    seconds: float
    server_mb: float
    failed: int


def many(url: str, folder: Path) -> Waited:
    """Let 200 tablets bring 20 events each, at once, three times over."""
    made = firm(url, folder, TABLETS)
    server = Server(url)
    tablets, waits, failed = made.tablets(server.port), list[float](), list[str]()
    for each in tablets:
        each.write("begin", {"sheet": made.sheet, "key": "", "device": "Tablet"})
    together = threading.Barrier(TABLETS)
    threads = [threading.Thread(target=_sync, args=(each, together, waits, failed)) for each in tablets]

    def run() -> None:
        for each in threads:
            each.start()
        for each in threads:
            each.join()

    seconds = timed(run)
    server.measure()
    server.kill()
    waits.sort()
    p50, p95, p99 = (waits[int(len(waits) * share)] for share in (0.50, 0.95, 0.99))
    return Waited(p50, p95, p99, seconds, server.peak_mb, len(failed))


def _sync(tablet: Tablet, together: threading.Barrier, waits: list[float], failed: list[str]) -> None:
    draw = random.Random(tablet.dev)
    for _ in range(ROUNDS):
        for number in range(EVENTS):
            value = {"item": "job.dead-tests/T1-1", "value": str(draw.random() + number), "unit": "MΩ"}
            tablet.write("reading", {"values": [value]}, "job.dead-tests")
        together.wait()
        try:
            waits.append(timed(lambda: tablet.bring(never)))
        except Lost as error:
            failed.append(str(error))
