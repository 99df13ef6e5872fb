"""Placing units on random walls: the search, and CP-SAT with one thread on the same wall at the same time."""

import sys
import time
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "design" / "siting"))

WALLS = 60
"""Walls of a row, each run once by both: the median is that of the walls."""
SPACINGS = (3000, 9144)
AIMS = {1: 20, 2: 4, 3: 4}
"""Units placed, and how much faster than CP-SAT is aimed at."""


def pairs() -> Iterator[tuple[int, Callable[[], float], Callable[[], float]]]:
    """For each number of units: seconds of the search, and of CP-SAT, each on its next wall."""
    for n in AIMS:
        yield n, _timed(n, _search), _timed(n, _solver)


def _timed(n: int, run: Callable[[object], None]) -> Callable[[], float]:
    from search_walls import equal, garage

    seeds = count()

    def seconds() -> float:
        seed = next(seeds)
        asked = equal(garage(10_000 + seed), n, SPACINGS[seed % 2])
        start = time.perf_counter()
        run(asked)
        return time.perf_counter() - start

    return seconds


def _search(asked: object) -> None:
    from standfast.design.siting.search import Together, cheapest

    assert isinstance(asked, Together)
    assert cheapest(asked).proven


def _solver(asked: object) -> None:
    from search_walls import Undecided, solved

    from standfast.design.siting.search import Together

    assert isinstance(asked, Together)
    try:
        solved(asked, patience=2)
    except Undecided:
        return
