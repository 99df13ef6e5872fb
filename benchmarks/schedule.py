"""A crew's day on random work, against a solver of constraints: time, and how much longer the day is."""

import sys
import time
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "fieldwork" / "crew"))

JOBS = 5
"""Jobs of a row, each run once by both: the median is that of the jobs."""
SIZES = (20, 40, 60)
SECONDS = 20.0
"""After which the other gives its best schedule."""
LONGER = 1.06
"""Most that a day of ours may take, as a part of that of the other."""


class Pair(NamedTuple):
    """A row: its name, both in seconds of one run, and whether every day so far was short enough."""

    name: str
    ours: Callable[[], float]
    theirs: Callable[[], float]
    short: Callable[[], bool]


def pairs() -> Iterator[Pair]:
    """One row for each size, for a crew of one who may do electrical work and one who may not."""
    for size in SIZES:
        minutes: dict[tuple[str, int], int] = {}
        yield Pair(
            f"schedule, {size}",
            _timed(_ours(size), minutes, "ours"),
            _timed(_theirs(size), minutes, "theirs"),
            lambda minutes=minutes: _short(minutes),
        )


def _short(minutes: dict[tuple[str, int], int]) -> bool:
    both = [seed for who, seed in minutes if who == "theirs"]
    most = max(minutes["ours", seed] / minutes["theirs", seed] for seed in both)
    print(f"{'':12} longest day of ours: {most:.3f} of the other's")
    return most <= LONGER


def _timed(run: Callable[[int], int], minutes: dict[tuple[str, int], int], who: str) -> Callable[[], float]:
    seeds = count()

    def seconds() -> float:
        seed = next(seeds) % JOBS
        start = time.perf_counter()
        minutes[who, seed] = run(seed)
        return time.perf_counter() - start

    return seconds


def _ours(size: int) -> Callable[[int], int]:
    from day_work import random_tasks

    from standfast.fieldwork.crew.solve import schedule
    from standfast.fieldwork.crew.tasks import Crew

    return lambda seed: schedule(random_tasks(seed, size), Crew(1, 1)).minutes


def _theirs(size: int) -> Callable[[int], int]:
    from day_work import least_minutes, random_tasks

    from standfast.fieldwork.crew.tasks import Crew

    return lambda seed: least_minutes(random_tasks(seed, size), Crew(1, 1), SECONDS)[0]
