"""The cheapest schedule where prices cross, exact: a buy price below zero, an export that earns more than the import
costs, or a forced export at a price below zero.

There a linear programme charges and discharges at once and is only a bound. The least cost of the rest of the series is
still piecewise linear in the stored energy, but no longer convex. It is kept as a line through points. One step back,
every convex run of it is joined with every convex run of the step's own cost (pieces merged by slope), and the lowest
of all these lines is taken, with the points where they cross.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from standfast.design.energy.battery import Battery, Step
from standfast.design.energy.premises import TIE_KWH
from standfast.design.energy.slopes import Range
from standfast.faults import Unanswered

_SAME = 1e-12


class Point(NamedTuple):
    """Least cost at a stored energy."""

    at: float
    cost: float


Line = list[Point]


def cheapest_crossed(
    steps: Sequence[Step], battery: Battery, dt_h: float, start_kwh: float, end: Range
) -> tuple[float, list[float]]:
    """Least cost, and the change of stored energy of each step; as `slopes.cheapest`, for steps of any shape."""
    standby = battery.standby_kw * dt_h
    rests = [_tidy([Point(end.low_kwh, 0.0), Point(max(end.high_kwh, end.low_kwh), 0.0)])]
    for place in range(len(steps) - 1, -1, -1):
        parts = [
            _joined(rest, own) for rest in _convex_runs(rests[-1]) for own in _convex_runs(_used(steps[place], standby))
        ]
        rests.append(_lowest(parts, battery.reserve_kwh if place else 0.0, battery.usable_kwh))
    here = rests.pop()
    if not here[0].at - TIE_KWH <= start_kwh <= here[-1].at + TIE_KWH:
        raise Unanswered("no_schedule", "no schedule keeps to the limits from this start")
    energy = min(max(start_kwh, here[0].at), here[-1].at)
    cost, changes = _value(here, energy), []
    for step in steps:
        rest = rests.pop()
        used = _best(_used(step, standby), rest, energy)
        energy = min(max(energy - used, rest[0].at), rest[-1].at)
        changes.append(standby - used)
    return cost, changes


def _used(step: Step, standby: float) -> Line:
    """Cost of a step by the stored energy that it uses up, standby draw counted."""
    points = [Point(standby - step.least, step.cost)]
    for size, slope in zip(step.sizes, step.slopes, strict=True):
        points.append(Point(points[-1].at - size, points[-1].cost + size * slope))
    return _tidy(points[::-1])


def _best(own: Line, rest: Line, energy: float) -> float:
    """The stored energy to use up in a step: the cheapest lies at a corner of either line."""
    low, high = max(own[0].at, energy - rest[-1].at), min(own[-1].at, energy - rest[0].at)
    asked = [*(point.at for point in own), *(energy - point.at for point in rest), low, high]
    return min(
        (min(max(used, own[0].at), own[-1].at) for used in asked if low <= used <= high or used in (low, high)),
        key=lambda used: _value(own, used) + _value(rest, energy - used),
    )


def _value(line: Line, at: float) -> float:
    place = min(max(bisect_right(line, at, key=lambda point: point.at), 1), len(line) - 1)
    if len(line) == 1:
        return line[0].cost
    return _between(line[place - 1], line[place], at)


def _between(one: Point, other: Point, at: float) -> float:
    return one.cost + (other.cost - one.cost) * (at - one.at) / (other.at - one.at)


def _slope(one: Point, other: Point) -> float:
    return (other.cost - one.cost) / (other.at - one.at)


def _tidy(points: Iterable[Point]) -> Line:
    """The line without points in one place and without points on a straight piece."""
    line: Line = []
    for point in points:
        if line and point.at - line[-1].at <= _SAME:
            continue
        while len(line) > 1:
            straight = _between(line[-2], point, line[-1].at) - line[-1].cost
            if not -_SAME <= straight <= _SAME:
                break
            line.pop()
        line.append(point)
    return line


def _convex_runs(line: Line) -> list[Line]:
    runs = [line[:2]]
    for place in range(2, len(line)):
        if _slope(line[place - 1], line[place]) < _slope(line[place - 2], line[place - 1]):
            runs.append([line[place - 1]])
        runs[-1].append(line[place])
    return runs


def _joined(rest: Line, own: Line) -> Line:
    """Two convex lines: the least sum of their costs for a sum of their energies."""
    pieces = [(_slope(one, other), other.at - one.at) for line in (rest, own) for one, other in pairwise(line)]
    points = [Point(rest[0].at + own[0].at, rest[0].cost + own[0].cost)]
    for slope, size in sorted(pieces):
        points.append(Point(points[-1].at + size, points[-1].cost + slope * size))
    return points


def _lowest(parts: Sequence[Line], floor: float, ceiling: float) -> Line:
    """The lowest of some lines between two stored energies; together they leave no gap."""
    low = max(min(part[0].at for part in parts), floor)
    high = min(max(part[-1].at for part in parts), ceiling)
    if low > high + TIE_KWH:
        raise Unanswered("no_schedule", "no schedule keeps between reserve and full")
    stops = sorted({low, max(low, high), *(point.at for part in parts for point in part if low < point.at < high)})
    there = [part for part in parts if part[0].at - TIE_KWH <= low <= part[-1].at + TIE_KWH]
    found = [Point(low, min(_value(part, low) for part in there))]
    places = [0] * len(parts)
    for left, right in pairwise(stops):
        if right - left <= _SAME:
            continue
        pieces: list[tuple[float, float]] = []
        for number, part in enumerate(parts):
            place = places[number]
            while place + 2 < len(part) and part[place + 1].at <= left + _SAME:
                place += 1
            places[number] = place
            if len(part) > 1 and part[0].at <= left + _SAME and right - _SAME <= part[-1].at:
                one, other = part[place], part[place + 1]
                pieces.append((_between(one, other, left), _between(one, other, right)))
        found += _under(left, right, pieces)
    return _tidy(found)


def _under(left: float, right: float, pieces: list[tuple[float, float]]) -> Line:
    """The lower hull of straight pieces over one stretch, given by their costs at its ends, after its left end."""
    start, end = min(pieces)
    points, done = [Point(left, start)], 0.0
    while True:
        crossing = [
            (max((one - start) / (one - start + end - other), done), other, one)
            for one, other in pieces
            if other < end - _SAME
        ]
        if not crossing:
            return [*points, Point(right, end)]
        done, other, one = min(crossing)
        points.append(Point(left + done * (right - left), start + done * (end - start)))
        start, end = one, other
