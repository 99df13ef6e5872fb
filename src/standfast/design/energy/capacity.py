"""The smallest battery that carries the backed-up circuits of a house through an outage of a given length.

Full at the start, a battery of capacity C lasts where the running sum of the changes of stored energy never falls more
than C below its own highest point. So the capacity needed for a window is its greatest fall, for every size at once.
Greatest falls of windows combine like sums (highest, lowest, greatest fall), so that a window slides in constant time.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.energy.outage import MOST_STEPS, Island, changes, deficits
from standfast.faults import Unanswered

SAME_KWH = 1e-9


class Stretch(NamedTuple):
    """Highest and lowest level of some steps in a row, and the greatest fall from a level to a later one."""

    highest: float
    lowest: float
    fall: float

    def then(self, later: "Stretch") -> "Stretch":
        """This stretch and the one after it."""
        return Stretch(
            max(self.highest, later.highest),
            min(self.lowest, later.lowest),
            max(self.fall, later.fall, self.highest - later.lowest),
        )


def required_kwh(
    load_kw: Sequence[float], pv_kw: Sequence[float], dt_h: float, island: Island, hours_h: float
) -> list[float]:
    """Smallest usable capacity that serves so many hours, for a start at each step; overload is not looked at.

    Args:
        load_kw: backed-up load of each step, mean power; after the last step comes the first.
        pv_kw: sun of each step, mean power.
        dt_h: length of a step.
        island: the battery system.
        hours_h: length of the outage; a part of a step counts as that part.

    Raises:
        Unanswered: where the outage is too long to be followed.
    """
    change = changes(deficits(load_kw, pv_kw, island), dt_h, island)
    steps = len(change)
    whole = math.floor(hours_h / dt_h + 1e-9)
    rest = max(hours_h / dt_h - whole, 0.0)
    span = steps + whole
    if span > MOST_STEPS:
        raise Unanswered("too_long", f"an outage over {span} steps is not followed: take fewer hours")
    level = [0.0]
    for step in range(span):
        level.append(level[-1] + change[step % steps])
    falls = []
    for start, stretch in enumerate(_windows(level[:span], whole + 1)):
        last = level[start + whole] + rest * change[(start + whole) % steps]
        falls.append(stretch.then(Stretch(last, last, 0.0)).fall)
    return falls


def nearest_rank(values: Sequence[float], per_cent: int) -> float:
    """The ⌈p n⌉-th smallest of n values."""
    return sorted(values)[max(-(-per_cent * len(values) // 100), 1) - 1]


def first_extreme(values: Sequence[float], *, largest: bool) -> int:
    """Place of the largest or smallest value; the first of those that are equal within a hair."""
    best = max(values) if largest else min(values)
    return next(place for place, each in enumerate(values) if math.fabs(each - best) <= SAME_KWH)


def _windows(level: Sequence[float], width: int) -> list[Stretch]:
    """Every window of so many levels. Windows reach over one border of blocks at most: the tail of a block, and the
    head of the next."""
    single = [Stretch(each, each, 0.0) for each in level]
    heads, tails = single[:], single[:]
    for place in range(1, len(level)):
        if place % width:
            heads[place] = heads[place - 1].then(single[place])
    for place in range(len(level) - 2, -1, -1):
        if (place + 1) % width:
            tails[place] = single[place].then(tails[place + 1])
    found = []
    for start in range(len(level) - width + 1):
        end = start + width - 1
        found.append(tails[start].then(heads[end]) if start % width else heads[end])
    return found
