"""Places tasks in time, one after the other, each as early as people and precedence let it begin.

Who is free stands as bits, one a minute: for each kind of people and each number the minutes in which at least so many
of them are free. The first stretch of free minutes that is long enough is found by shifting.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.fieldwork.crew.tasks import Crew, Work


class Placed(NamedTuple):
    """Begin of each task, minutes, and how many of each kind of people do it, all by place."""

    starts: tuple[int, ...]
    mixes: tuple[tuple[int, int], ...]


class Board:
    """Free people, minute by minute."""

    __slots__ = ("_free", "_whole")

    def __init__(self, crew: Crew, minutes: int) -> None:
        self._whole = (1 << minutes) - 1
        self._free = ([self._whole] * crew.electricians, [self._whole] * crew.others)

    def copy(self) -> "Board":
        """Another board with the same people free."""
        other = Board.__new__(Board)
        other._whole, other._free = self._whole, (self._free[0][:], self._free[1][:])
        return other

    def first(self, start: int, minutes: int, mix: tuple[int, int]) -> int:
        """The first minute from one on at which so many people are free for so long."""
        free = self._whole
        for kind, count in zip(self._free, mix, strict=True):
            if count:
                free &= kind[count - 1]
        free >>= start
        long = 1
        while long < minutes:
            more = min(long, minutes - long)
            free &= free >> more
            long += more
        return start + (free & -free).bit_length() - 1

    def take(self, start: int, minutes: int, mix: tuple[int, int]) -> None:
        """So many people are busy from a minute on for so long."""
        span = ((1 << minutes) - 1) << start
        for kind, count in zip(self._free, mix, strict=True):
            if count:
                more = kind[count:] + [0] * count
                kind[:] = [(free & ~span) | (fewer & span) for free, fewer in zip(kind, more, strict=True)]


def forward(work: Work, order: Sequence[int], not_before: Mapping[int, int] | None = None) -> Placed:
    """Every task as early as it goes, in an order that respects precedence.

    Args:
        work: the tasks.
        order: their places.
        not_before: the first minute of some tasks.
    """
    held = not_before or {}
    board = Board(work.crew, _room(work) + max(held.values(), default=0))
    starts, mixes = [0] * len(work), [(0, 0)] * len(work)
    for place in order:
        ends = (starts[each] + work.spell(each) for each in work.before[place])
        least = max(held.get(place, 0), max(ends, default=0))
        starts[place], mixes[place] = _put(work, board, place, least)
    return Placed(tuple(starts), tuple(mixes))


def backward(work: Work, order: Sequence[int], end: int) -> Placed:
    """Every task as late as it goes before the end of the day, in an order that respects precedence, the last first.

    The end moves on where the tasks do not fit before it: begins are then counted from the new one.
    """
    board = Board(work.crew, _room(work) + end)
    turned, mixes = [0] * len(work), [(0, 0)] * len(work)  # minutes from the end of a task to that of the day
    for place in order:
        later = (turned[each] + work.tasks[each].minutes for each in work.behind[place])
        least = work.tasks[place].wait + max(later, default=0)
        turned[place], mixes[place] = _put(work, board, place, least)
    taken = [turned[place] + work.tasks[place].minutes for place in range(len(work))]
    last = max([end, *taken])
    return Placed(tuple(last - each for each in taken), tuple(mixes))


def span(work: Work, placed: Placed) -> int:
    """Minutes from arrival to the end of the last task and its wait."""
    return max((start + work.spell(place) for place, start in enumerate(placed.starts)), default=0)


def by_start(work: Work, placed: Placed) -> list[int]:
    """The tasks in the order in which they begin; it respects precedence."""
    return sorted(range(len(work)), key=lambda one: (placed.starts[one], work.rank[one]))


def by_end(work: Work, placed: Placed) -> list[int]:
    """The tasks in the order in which they end, the last first; it respects precedence turned round."""
    ends = [start + work.tasks[place].minutes for place, start in enumerate(placed.starts)]
    return sorted(range(len(work)), key=lambda one: (-ends[one], -work.rank[one]))


def _put(work: Work, board: Board, place: int, least: int) -> tuple[int, tuple[int, int]]:
    minutes = work.tasks[place].minutes
    if not minutes:
        return least, (0, 0)
    start, mix = min(
        ((board.first(least, minutes, mix), mix) for mix in work.mixes[place]), key=lambda each: (each[0], each[1][0])
    )
    board.take(start, minutes, mix)
    return start, mix


def _room(work: Work) -> int:
    """Minutes in which all tasks fit one after the other, wherever their waits fall."""
    return sum(work.spell(place) for place in range(len(work))) + 1
