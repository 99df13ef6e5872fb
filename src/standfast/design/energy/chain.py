"""Least squares on a chain of steps that are grouped into windows, in time proportional to the number of steps.

Unknown are one number of each step and, after them, one of each window. A row of the problem meets a step and the next
step, a step and its own window, or a window alone. Rows are turned (Givens) until each unknown has one row that begins
with it; steps are taken in order and each window after its last step, so that a row never meets more than the next step
and its own window. Turning rows, instead of multiplying them out, keeps rows of very unlike weight apart.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

_HELD = 1e150


class Row(NamedTuple):
    """Factors of a row at a step, at the next step and at the step's window."""

    own: float
    following: float
    window: float


class Chain:
    """The rows, turned; `solve` then answers for any right-hand side."""

    def __init__(self, window_of: Sequence[int], rows: Sequence[Sequence[Row]], alone: Sequence[float]) -> None:
        """Turn the rows.

        Args:
            window_of: window of each step, rising from 0.
            rows: rows that begin at each step.
            alone: for each window, the factor of the row that meets it alone.
        """
        count = len(window_of)
        self._window_of = window_of
        self._closing = [place + 1 == count or window_of[place + 1] != window_of[place] for place in range(count)]
        self._steps: list[Row] = []
        self._windows: list[tuple[float, float]] = []
        carried, single = Row(0.0, 0.0, 0.0), 0.0
        for place, window in enumerate(window_of):
            top, left = _turned([carried, *rows[place]])
            self._steps.append(top)
            ahead = within = 0.0
            for _, following, share in left:
                if following:
                    length = math.hypot(ahead, following)
                    keep, turn = ahead / length, following / length
                    ahead, within, share = length, keep * within + turn * share, keep * share - turn * within
                single = math.hypot(single, share)
            carried = Row(ahead, 0.0, within)
            if self._closing[place]:
                single = math.hypot(single, alone[window])
                length = math.hypot(single, within) or _HELD
                self._windows.append((length, within / length * ahead))
                carried, single = Row(single / length * ahead, 0.0, 0.0), 0.0

    def solve(self, right: list[float]) -> None:
        """Put x of rowsᵀ rows x = right, steps and then windows, in the place of the right-hand side."""
        count = len(self._steps)
        for place, (own, following, share) in enumerate(self._steps):
            value = right[place] = right[place] / own
            window = self._window_of[place]
            right[count + window] -= share * value
            if place + 1 < count:
                right[place + 1] -= following * value
            if self._closing[place]:
                length, ahead = self._windows[window]
                right[count + window] /= length
                if place + 1 < count:
                    right[place + 1] -= ahead * right[count + window]
        later = 0.0
        for place in range(count - 1, -1, -1):
            own, following, share = self._steps[place]
            window = self._window_of[place]
            if self._closing[place]:
                length, ahead = self._windows[window]
                right[count + window] = (right[count + window] - ahead * later) / length
            later = right[place] = (right[place] - following * later - share * right[count + window]) / own


def _turned(rows: Sequence[Row]) -> tuple[Row, list[Row]]:
    """One row that begins at the step, and what is left of the others, which no longer meet it."""
    own = following = window = 0.0
    left = []
    for row in rows:
        if row.own:
            length = math.hypot(own, row.own)
            keep, turn = own / length, row.own / length
            left.append(Row(0.0, keep * row.following - turn * following, keep * row.window - turn * window))
            own, following, window = length, keep * following + turn * row.following, keep * window + turn * row.window
        else:
            left.append(row)
    return Row(own or _HELD, following, window), left
