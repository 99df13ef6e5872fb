"""Rainflow counting of a history: which swings make whole cycles."""

import math
from collections.abc import Iterable
from typing import NamedTuple

from standfast.sheet import Value, simulated
from standfast.shelf import Edition

_SAME = 1e-9


class Cycles(NamedTuple):
    """Swings of one range, and how many cycles of it were counted, to the half."""

    swing: float
    cycles: float


def reversals(series: Iterable[float]) -> list[float]:
    """First value, peaks and valleys, last value."""
    turns: list[float] = []
    for value in series:
        if turns and value == turns[-1]:
            continue
        if len(turns) > 1 and (turns[-1] > turns[-2]) == (value > turns[-1]):
            turns[-1] = value
        else:
            turns.append(value)
    return turns


def rainflow(series: Iterable[float]) -> list[Cycles]:
    """Cycles of a history by range, ascending (clause 5.4.4).

    A range that is no greater than the one after it is a cycle, or half of one where it holds the start of what is
    left; whatever is left at the end counts as halves.
    """
    found: list[Cycles] = []
    left: list[float] = []
    for turn in reversals(series):
        left.append(turn)
        while len(left) > 2 and _swing(left, -1) >= _swing(left, -2):
            if len(left) == 3:
                found.append(Cycles(_swing(left, -2), 0.5))
                del left[0]
            else:
                found.append(Cycles(_swing(left, -2), 1.0))
                del left[-3:-1]
    found += [Cycles(_swing(left, place), 0.5) for place in range(1, len(left))]
    return _by_range(found)


def full_cycles(book: Edition, series: Iterable[float], usable: Value) -> Value:
    """Full cycles that a history of stored energy in kWh amounts to.

    Args:
        book: ASTM E1049.
        series: stored energy in kWh, step by step.
        usable: usable capacity in kWh.
    """
    swung = sum(each.swing * each.cycles for each in rainflow(series))
    method = f"{book.clause('rainflow')}: sum of range × count / capacity"
    return simulated("N", swung / usable.quantity, "1", method, usable)


def _swing(turns: list[float], place: int) -> float:
    return math.fabs(turns[place] - turns[place - 1])


def _by_range(counted: list[Cycles]) -> list[Cycles]:
    found: list[Cycles] = []
    for each in sorted(counted):
        if found and each.swing - found[-1].swing <= _SAME * each.swing:
            found[-1] = Cycles(found[-1].swing, found[-1].cycles + each.cycles)
        else:
            found.append(each)
    return found
