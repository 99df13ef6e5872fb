"""The cheapest schedule of a battery over a series, exact, where no kWh of any step costs less than the one before it.

The least cost of the rest of the series is a convex, piecewise linear function of the stored energy. Only its slopes
are kept: what one more stored kWh is worth, falling from the reserve to full. Going one step back merges the pieces of
the step's own cost into that list by worth, and cuts the list at reserve and full; the schedule is read off forwards,
since each piece remembers the stored energy above which it is not used. Slopes are inherited, never multiplied, so a
list has about as many pieces as there are prices.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.energy.battery import Battery, Step
from standfast.design.energy.premises import TIE_KWH
from standfast.faults import Unanswered


class Range(NamedTuple):
    """Stored energies, lowest and highest."""

    low_kwh: float
    high_kwh: float


class _Worth(NamedTuple):
    """Least cost of the rest by stored energy: from `low` on, pieces with their worth per kWh, falling."""

    low: float
    cost: float
    worths: list[float]
    sizes: list[float]


def cheapest(
    steps: Sequence[Step], battery: Battery, dt_h: float, start_kwh: float, end: Range
) -> tuple[float, list[float]]:
    """Least cost, and the change of stored energy of each step that has it (standby draw not counted).

    Args:
        steps: costs of the steps; each must be convex.
        battery: reserve, capacity and standby draw.
        dt_h: length of a step.
        start_kwh: stored energy before the first step.
        end: where the stored energy may lie after the last.

    Raises:
        Unanswered: ``no_schedule`` where none keeps to the limits.
    """
    standby = battery.standby_kw * dt_h
    rest = _Worth(end.low_kwh, 0.0, [0.0], [max(end.high_kwh - end.low_kwh, 0.0)])
    turns: list[list[float]] = []
    ranges = [end]
    for place in range(len(steps) - 1, -1, -1):
        rest, starts = _one_back(rest, steps[place], standby)
        turns.append(starts)
        rest = _cut(rest, battery.reserve_kwh if place else 0.0, battery.usable_kwh)
        ranges.append(Range(rest.low, rest.low + sum(rest.sizes)))
    here = ranges.pop()
    if not here.low_kwh - TIE_KWH <= start_kwh <= here.high_kwh + TIE_KWH:
        raise Unanswered("no_schedule", "no schedule keeps to the limits from this start")
    energy = min(max(start_kwh, here.low_kwh), here.high_kwh)
    cost, left = rest.cost, energy - rest.low
    for worth, size in zip(rest.worths, rest.sizes, strict=True):
        cost -= worth * min(size, left)
        left -= min(size, left)
    changes = []
    for step in steps:
        change = step.most
        for start, size in zip(turns.pop(), reversed(step.sizes), strict=True):
            if energy <= start:
                break
            change -= min(energy - start, size)
        here = ranges.pop()
        energy = min(max(energy + change - standby, here.low_kwh), here.high_kwh)
        changes.append(change)
    return cost, changes


def _one_back(rest: _Worth, step: Step, standby: float) -> tuple[_Worth, list[float]]:
    """The rest with one more step before it, and the stored energy at which each piece of the step begins to be saved,
    the dearest piece first."""
    low = at = rest.low - step.most + standby
    worths: list[float] = []
    sizes: list[float] = []
    starts: list[float] = []
    place, pieces = 0, len(rest.worths)
    highest = step.cost
    for slope, size in zip(reversed(step.slopes), reversed(step.sizes), strict=True):
        highest += slope * size
        while place < pieces and rest.worths[place] > slope:
            worths.append(rest.worths[place])
            sizes.append(rest.sizes[place])
            at += rest.sizes[place]
            place += 1
        starts.append(at)
        at += size
        if worths and worths[-1] == slope:
            sizes[-1] += size
        else:
            worths.append(slope)
            sizes.append(size)
        if place < pieces and rest.worths[place] == slope:
            sizes[-1] += rest.sizes[place]
            at += rest.sizes[place]
            place += 1
    worths += rest.worths[place:]
    sizes += rest.sizes[place:]
    return _Worth(low, rest.cost + highest, worths, sizes), starts


def _cut(rest: _Worth, floor: float, ceiling: float) -> _Worth:
    """The rest between two stored energies."""
    low, cost, worths, sizes = rest
    high = low + sum(sizes)
    if low > ceiling + TIE_KWH or high < floor - TIE_KWH:
        raise Unanswered("no_schedule", "no schedule keeps between reserve and full")
    drop = 0
    while low < floor and drop < len(sizes):
        part = min(sizes[drop], floor - low)
        cost -= worths[drop] * part
        if part < sizes[drop]:
            sizes[drop] -= part
            low = floor
        else:
            low += part
            drop += 1
    if drop:
        del worths[:drop], sizes[:drop]
    low = min(max(low, floor), ceiling)
    room, keep = ceiling - low, 0
    while keep < len(sizes) and sizes[keep] < room:
        room -= sizes[keep]
        keep += 1
    if keep < len(sizes) and room > 0:
        sizes[keep] = room
        keep += 1
    del worths[keep:], sizes[keep:]
    return _Worth(low, cost, worths, sizes)
