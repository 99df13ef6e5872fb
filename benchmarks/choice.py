"""The whole choice on small random jobs, against an exhaustive search and against the trades one by one."""

import sys
import time
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "design"))

JOBS = 15
"""Jobs of a row, each run once by both: the median is that of the jobs."""


def pairs() -> Iterator[tuple[str, str, float, Callable[[], float], Callable[[], float]]]:
    """For each comparison: its name, what it is compared with, how much slower than that it may be; both in seconds."""
    yield "choice", "exhaustive", 0.5, _timed(_joint), _timed(_exhaustive)
    yield "choice, price", "one by one", 6.0, _timed(_joint), _timed(_one_by_one)


def _timed(run: Callable[[int], Callable[[], object]]) -> Callable[[], float]:
    seeds = count()

    def seconds() -> float:
        work = run(next(seeds) % JOBS)
        start = time.perf_counter()
        work()
        return time.perf_counter() - start

    return seconds


def _joint(seed: int) -> Callable[[], object]:
    from test_choice import random_case

    return random_case(seed)[0].choose


def _exhaustive(seed: int) -> Callable[[], object]:
    from choice_job import everything
    from test_choice import random_case

    case, picks = random_case(seed)
    return lambda: everything(case, picks)


def _one_by_one(seed: int) -> Callable[[], object]:
    from test_choice import random_case

    return random_case(seed)[0].one_by_one
