"""A series that repeats for ever: the stored energy after the last step is that before the first, which is free."""

from collections.abc import Sequence

from standfast.design.energy.battery import Battery, Step
from standfast.design.energy.lowest import lowest
from standfast.design.energy.premises import TIE_KWH
from standfast.design.energy.slopes import Range, cheapest
from standfast.faults import Unanswered


def cheapest_cycle(steps: Sequence[Step], battery: Battery, dt_h: float) -> tuple[float, float, list[float]]:
    """Least cost, the stored energy before the first step that has it, and the changes of stored energy.

    The least cost is convex in that energy, since the steps are.

    Raises:
        Unanswered: ``no_schedule`` where none comes back to its start.
    """

    def cost(energy: float) -> float:
        return cheapest(steps, battery, dt_h, energy, Range(energy, energy))[0]

    start, _ = lowest(cost, *returning(steps, battery, dt_h))
    return (start, *cheapest(steps, battery, dt_h, start, Range(start, start)))


def returning(steps: Sequence[Step], battery: Battery, dt_h: float) -> Range:
    """The stored energies from which some schedule comes back to its start.

    Filled as fast as it can be, a start ends at the lesser of start + `gain` and `top`; emptied, at the greater of
    start + `loss` and `bottom`.
    """
    floor, ceiling, standby = battery.reserve_kwh, battery.usable_kwh, battery.standby_kw * dt_h
    gain = loss = 0.0
    top, bottom = ceiling, floor
    low, high = floor, ceiling
    for step in steps:
        gain += step.most - standby
        loss += step.least - standby
        top, bottom = min(top + step.most - standby, ceiling), max(bottom + step.least - standby, floor)
        low, high = max(low, floor - gain), min(high, ceiling - loss)
        if top < floor - TIE_KWH or bottom > ceiling + TIE_KWH:
            raise Unanswered("no_schedule", "no schedule keeps between reserve and full")
    low, high = max(low, bottom), min(high, top)
    if gain < -TIE_KWH or loss > TIE_KWH or low > high + TIE_KWH:
        raise Unanswered("no_schedule", "no schedule comes back to its start")
    return Range(min(low, high), high)
