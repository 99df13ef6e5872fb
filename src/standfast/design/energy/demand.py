"""The cheapest schedule where the highest import of a window costs too.

A linear programme, whose result is then proved. The schedule that it gives, made to keep its limits to the last digit,
costs at least the optimum. The same house without a demand charge, with the programme's price of each window put on its
imports, is solved exactly and costs at most the optimum (weak duality). Both agree, or there is no answer.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.energy.barrier import Amount, Programme, Solution, Wide, solve
from standfast.design.energy.battery import Battery, Step
from standfast.design.energy.cyclic import cheapest_cycle, returning
from standfast.design.energy.premises import TIE_KWH, Demand, peak_kw
from standfast.design.energy.slopes import Range, cheapest
from standfast.faults import Unanswered

PROVED = 1e-7
"""The answer and its bound may differ by this part of the cost, or of one money unit where the cost is less."""
_THIN_KWH = 1e-11


class Schedule(NamedTuple):
    """Stored energy before the first step, and the change of each step, standby draw not counted."""

    start_kwh: float
    changes_kwh: list[float]


class _Course(NamedTuple):
    """Where the stored energy can be, before the first step and after each; and the steps, cut to what can be done."""

    ranges: list[Range]
    steps: list[Step]
    standby_kwh: float


def cheapest_with_demand(
    steps: Sequence[Step], battery: Battery, dt_h: float, demand: Demand, start_kwh: float | None, end: Range
) -> Schedule:
    """The schedule of least cost with the demand charge.

    Args:
        steps: costs of the steps; each must be convex.
        battery: reserve, capacity and standby draw.
        dt_h: length of a step.
        demand: price of the highest window mean.
        start_kwh: stored energy before the first step; None where the series ends with the energy that it began with.
        end: stored energies that the last step may end with, where the start is given.

    Raises:
        Unanswered: ``no_schedule`` where none keeps to the limits; ``not_proved`` where the proof does not close.
    """
    cyclic = start_kwh is None
    if start_kwh is None:
        start = end = returning(steps, battery, dt_h)
    else:
        start = Range(start_kwh, start_kwh)
    inside = [Range(battery.reserve_kwh, battery.usable_kwh)] * (len(steps) - 1)
    course = _course(steps, battery.standby_kw * dt_h, start, [*inside, end])
    window_of = [place // demand.window_steps for place in range(len(steps))]
    hours = [0.0] * (window_of[-1] + 1)
    for window in window_of:
        hours[window] += dt_h
    solution = solve(_programme(course, demand.price_per_kw, window_of, hours, cyclic=cyclic))
    begin = course.ranges[0].low_kwh + (solution.border[1] if cyclic else 0.0)
    ends = [*inside, Range(begin, begin) if cyclic else end]
    schedule = Schedule(begin, _fitting(course, solution, begin, ends))
    prices = [max(-price, 0.0) for price in solution.prices[len(steps) :]]
    total = sum(price * each for price, each in zip(prices, hours, strict=True))
    scale = demand.price_per_kw / total if total > 0 else 0.0
    priced = [_priced(step, prices[window] * scale) for step, window in zip(steps, window_of, strict=True)]
    bound = cheapest_cycle(priced, battery, dt_h)[1] if cyclic else cheapest(priced, battery, dt_h, begin, end)[0]
    cost = cost_with_demand(course.steps, schedule, dt_h, demand)
    if cost - bound > PROVED * max(1.0, math.fabs(cost)):
        raise Unanswered("not_proved", f"the least cost lies between {bound:.9g} and {cost:.9g}")
    return schedule


def cost_with_demand(steps: Sequence[Step], schedule: Schedule, dt_h: float, demand: Demand) -> float:
    """What a schedule costs, all in."""
    dealt = [step.at(change) for step, change in zip(steps, schedule.changes_kwh, strict=True)]
    peak = peak_kw([imported for _, imported in dealt], demand.window_steps, dt_h)
    return sum(cost for cost, _ in dealt) + demand.price_per_kw * peak


def _programme(
    course: _Course, price: float, window_of: Sequence[int], hours: Sequence[float], *, cyclic: bool
) -> Programme:
    """The pieces of each step and the stored energy after it, above the lowest that it can be; the room of each window
    below the peak; the peak. The stored energy of a cyclic series before the first step stands in two far equations."""
    count, ranges = len(course.steps), course.ranges
    amounts, right = [], [0.0] * (count + len(hours))
    for place, (step, window) in enumerate(zip(course.steps, window_of, strict=True)):
        for size, slope, rate in zip(step.sizes, step.slopes, step.imports, strict=True):
            amounts.append(Amount(slope, size, place, 1.0, count + window, rate))
        right[place] = ranges[place + 1].low_kwh - ranges[place].low_kwh - step.least + course.standby_kwh
        right[count + window] -= step.imported
    for place, (low, high) in enumerate(ranges[1:]):
        last = place + 1 == count
        if high - low > _THIN_KWH and not (cyclic and last):
            amounts.append(Amount(0.0, high - low, place, -1.0, 0 if last else place + 1, 0.0 if last else 1.0))
    amounts += [Amount(0.0, math.inf, count + window, 1.0) for window in range(len(hours))]
    border = [Wide(price, math.inf, {count + window: -each for window, each in enumerate(hours)})]
    if cyclic:
        width = max(ranges[0].high_kwh - ranges[0].low_kwh, _THIN_KWH)
        border.append(Wide(0.0, width, {0: 1.0, count - 1: -1.0} if count > 1 else {}))
    return Programme(amounts, border, window_of, right)


def _course(steps: Sequence[Step], standby: float, start: Range, ends: Sequence[Range]) -> _Course:
    back = _reaching(steps, standby, ends)
    low, high = max(start.low_kwh, back[0].low_kwh), min(start.high_kwh, back[0].high_kwh)
    if low > high + TIE_KWH:
        raise Unanswered("no_schedule", "no schedule keeps to the limits from this start")
    ranges, cut = [Range(min(low, high), high)], []
    for step, there in zip(steps, back[1:], strict=True):
        here = ranges[-1]
        high = min(here.high_kwh + step.most - standby, there.high_kwh)
        low = min(max(here.low_kwh + step.least - standby, there.low_kwh), high)
        ranges.append(Range(low, high))
        cut.append(_trimmed(step, low - here.high_kwh + standby, high - here.low_kwh + standby))
    return _Course(ranges, cut, standby)


def _reaching(steps: Sequence[Step], standby: float, ends: Sequence[Range]) -> list[Range]:
    """Stored energies, before the first step and after each, from which the end can be reached."""
    ranges = [ends[-1]]
    for place in range(len(steps) - 1, -1, -1):
        low = ranges[-1].low_kwh - steps[place].most + standby
        high = ranges[-1].high_kwh - steps[place].least + standby
        if place:
            low, high = max(low, ends[place - 1].low_kwh), min(high, ends[place - 1].high_kwh)
        if low > high + TIE_KWH:
            raise Unanswered("no_schedule", "no schedule keeps between reserve and full")
        ranges.append(Range(min(low, high), high))
    return ranges[::-1]


def _trimmed(step: Step, low: float, high: float) -> Step:
    """The step between two changes."""
    low = max(step.least, min(low, step.most))
    high = max(low, min(step.most, high))
    pieces, at = [], step.least
    for size, slope, rate in zip(step.sizes, step.slopes, step.imports, strict=True):
        part = min(at + size, high) - max(at, low)
        if part > _THIN_KWH:
            pieces.append((part, slope, rate))
        at += size
    sizes, slopes, imports = zip(*pieces, strict=True) if pieces else ((), (), ())
    cost, imported = step.at(low)
    return Step(low, high, sizes, slopes, imports, cost, imported)


def _fitting(course: _Course, solution: Solution, energy: float, ends: Sequence[Range]) -> list[float]:
    """The changes of the programme, moved by what rounding asks so that every limit is kept."""
    ranges, standby = _reaching(course.steps, course.standby_kwh, ends), course.standby_kwh
    amounts, changes = iter(solution.amounts), []
    for step, there in zip(course.steps, ranges[1:], strict=True):
        wanted = step.least + sum(next(amounts) for _ in step.sizes)
        wanted = max(min(wanted, step.most), step.least)
        changes.append(min(max(wanted, there.low_kwh - energy + standby), there.high_kwh - energy + standby))
        energy += changes[-1] - standby
    return changes


def _priced(step: Step, price: float) -> Step:
    """The step with a price on its imports."""
    slopes = tuple(slope + price * rate for slope, rate in zip(step.slopes, step.imports, strict=True))
    return step._replace(slopes=slopes, cost=step.cost + price * step.imported)
