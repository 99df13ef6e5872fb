"""How long a battery and the sun carry the backed-up circuits of a house when the grid is gone.

Model of one step, islanded. A load above the sun draws (load − sun) / discharging efficiency from the cells; surplus
sun charges them, up to the charge limit, times the charging efficiency, and the rest is curtailed; the standby draw
comes off the cells in every step; stored energy is cut at the usable capacity. A step is dark at once where load − sun
is above the inverter, and dark where the stored energy cannot cover it in full.

The change of stored energy of a step does not depend on the energy that is there. So a start with a full battery fails
in the first step where the running sum of the changes lies more than the capacity below its own highest point, and a
start with less also where it lies more than the charge below its start: one pass answers all starts.
"""

from bisect import bisect_left
from collections import deque
from collections.abc import Sequence
from typing import Literal, NamedTuple

from standfast.faults import Unanswered

TIE_KWH = 1e-9
"""Energies closer than this are equal: a step that uses the last of the charge is served."""
MOST_STEPS = 20_000_000

Ending = Literal["energy", "overload", "horizon"]


class Island(NamedTuple):
    """The battery and inverter that carry a house alone.

    Attributes:
        charge_limit_kw: greatest surplus that charges, on the ac side.
        eta_ch: stored energy per ac energy.
        eta_dis: ac energy per stored energy.
        standby_kw: draw of the battery system itself.
        standby_on_ac: true where the standby draw is part of the load; false where it comes off the cells.
    """

    charge_limit_kw: float
    eta_ch: float
    eta_dis: float
    standby_kw: float = 0.0
    standby_on_ac: bool = False


class Run(NamedTuple):
    """One outage: steps served in full, what ended it, hours served with the part of the failing step."""

    whole_steps: int
    ends_by: Ending
    autonomy_h: float


def deficits(load_kw: Sequence[float], pv_kw: Sequence[float], island: Island) -> list[float]:
    """Load − sun of each step, in kW, with the standby draw where that is on the ac side."""
    extra = island.standby_kw if island.standby_on_ac else 0.0
    return [load + extra - pv for load, pv in zip(load_kw, pv_kw, strict=True)]


def changes(deficit_kw: Sequence[float], dt_h: float, island: Island) -> list[float]:
    """Change of stored energy of each step in kWh, before it is cut at the capacity."""
    cells = 0.0 if island.standby_on_ac else island.standby_kw * dt_h
    drain, fill, limit = dt_h / island.eta_dis, dt_h * island.eta_ch, island.charge_limit_kw
    return [-each * drain - cells if each > 0 else min(-each, limit) * fill - cells for each in deficit_kw]


def autonomy(
    load_kw: Sequence[float],
    pv_kw: Sequence[float],
    dt_h: float,
    island: Island,
    *,
    usable_kwh: float,
    inverter_kw: float,
    starts: Sequence[int],
    start_kwh: Sequence[float],
    horizon_steps: int,
    wraps: bool,
) -> list[Run]:
    """How long each start lasts.

    Args:
        load_kw: backed-up load of each step, mean power.
        pv_kw: sun of each step, mean power.
        dt_h: length of a step.
        island: the battery system.
        usable_kwh: usable capacity.
        inverter_kw: greatest load − sun that it carries.
        starts: first steps of the outages, each an index of the series.
        start_kwh: stored energy before the first step, one for each start.
        horizon_steps: an outage is not followed further.
        wraps: after the last step comes the first; otherwise the series ends there like a horizon.

    Raises:
        Unanswered: where the run is too long to be followed.
    """
    steps = len(load_kw)
    span = steps + horizon_steps if wraps else steps
    if span > MOST_STEPS:
        raise Unanswered("too_long", f"an outage over {span} steps is not followed: take a nearer horizon")
    deficit = deficits(load_kw, pv_kw, island)
    level = _running(changes(deficit, dt_h, island), span)
    charges = [min(each, usable_kwh) for each in start_kwh]
    floors = [level[start] - charge - TIE_KWH for start, charge in zip(starts, charges, strict=True)]
    empty = _first_below(level, starts, floors)
    full = _full_failures(level, usable_kwh, horizon_steps)
    overload = _next_overload([each > inverter_kw for each in deficit], span)
    runs = []
    for start, charge, step in zip(starts, charges, empty, strict=True):
        end = min(start + horizon_steps, span)
        left = charge + level[min(step, span)] - level[start]
        emptied, highest = full[start]
        if emptied <= step and emptied < end:
            cut = usable_kwh + level[emptied] - highest
            step, left = emptied, min(left, cut) if emptied == step else cut
        if overload[start] <= step and overload[start] < end:
            runs.append(_run(overload[start] - start, "overload", dt_h))
        elif step < end:
            part = max(left, 0.0) / (level[step] - level[step + 1])
            runs.append(_run(step - start, "energy", dt_h, min(part, 1.0)))
        else:
            runs.append(_run(end - start, "horizon", dt_h))
    return runs


def _run(steps: int, ends_by: Ending, dt_h: float, part: float = 0.0) -> Run:
    return Run(steps, ends_by, (steps + part) * dt_h)


def _next_overload(over: Sequence[bool], span: int) -> list[int]:
    """For each step the first one from it on that overloads the inverter; `span` where there is none."""
    found, step = [span] * span, span
    for start in range(span - 1, -1, -1):
        if over[start % len(over)]:
            step = start
        found[start] = step
    return found


def _first_below(level: Sequence[float], starts: Sequence[int], floors: Sequence[float]) -> list[int]:
    """For each start the first step that ends below its floor; the number of steps where there is none."""
    span = len(level) - 1
    found = [span] * len(starts)
    asked: dict[int, list[int]] = {}
    for place, start in enumerate(starts):
        asked.setdefault(start, []).append(place)
    records: list[int] = []  # from the start on, the steps that end lower than all before them; the nearest stands last
    depths: list[float] = []
    for start in range(span - 1, min(asked, default=span) - 1, -1):
        while depths and depths[-1] >= level[start + 1]:
            records.pop()
            depths.pop()
        records.append(start)
        depths.append(level[start + 1])
        for place in asked.get(start, ()):
            below = bisect_left(depths, floors[place])
            if below:
                found[place] = records[below - 1]
    return found


def _running(change: Sequence[float], span: int) -> list[float]:
    """Running sum of the changes over so many steps, from zero; the series is laid end to end."""
    steps, level = len(change), [0.0]
    now = 0.0
    for step in range(span):
        now += change[step % steps]
        level.append(now)
    return level


def _full_failures(level: Sequence[float], usable_kwh: float, horizon: int) -> list[tuple[int, float]]:
    """For each start with a full battery: the step in which it fails, and the highest level before that step.

    The failing step never comes earlier for a later start, so two pointers and a queue of the highest levels suffice.
    """
    span = len(level) - 1
    found: list[tuple[int, float]] = []
    highest: deque[int] = deque()  # levels that may still be the highest, falling
    step = 0
    for start in range(span):
        if step < start:
            step = start
        end = min(start + horizon, span)
        while highest and highest[0] < start:
            highest.popleft()
        while step < end:
            if not highest or highest[-1] < step:
                while highest and level[highest[-1]] <= level[step]:
                    highest.pop()
                highest.append(step)
            if level[highest[0]] - level[step + 1] > usable_kwh + TIE_KWH:
                break
            step += 1
        found.append((step, level[highest[0]] if highest else 0.0))
    return found
