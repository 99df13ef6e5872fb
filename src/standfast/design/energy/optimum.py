"""The least cost of a house with a battery over a series known in advance: the bound that no control can beat."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.energy.battery import Battery, Step, steps
from standfast.design.energy.crossed import cheapest_crossed
from standfast.design.energy.cyclic import cheapest_cycle
from standfast.design.energy.demand import Schedule, cheapest_with_demand
from standfast.design.energy.premises import Demand, Permission, Premises, peak_kw
from standfast.design.energy.slopes import Range, cheapest
from standfast.faults import Unanswered


class Ends(NamedTuple):
    """Stored energy before the first step, and least stored energy after the last."""

    start_kwh: float
    end_kwh: float


class Optimum(NamedTuple):
    """The cheapest way to run the battery. The schedule is one of several where prices are equal.

    Attributes:
        cost: all of it: energy bought less sold, wear, demand charge.
        bill: without wear.
        peak_kw: highest window mean of the import.
        start_kwh: stored energy before the first step.
        stored_discharged_kwh: energy taken out of the cells, standby draw not counted.
        changes_kwh: change of stored energy of each step, standby draw not counted.
    """

    cost: float
    bill: float
    peak_kw: float
    start_kwh: float
    stored_discharged_kwh: float
    changes_kwh: list[float]


def optimum(premises: Premises, battery: Battery, permission: Permission, demand: Demand, ends: Ends | None) -> Optimum:
    """Find the least cost.

    Args:
        premises: load, sun and prices.
        battery: the battery system.
        permission: what may be done at the meter.
        demand: price on the highest import.
        ends: stored energies at the ends; None where the series repeats for ever: it ends with the energy that it
            began with, which is free.

    Raises:
        Unanswered: ``no_schedule`` where none keeps to the limits; ``negative_buy_price``, ``sell_above_buy`` or
            ``negative_sell_price`` where prices cross and there is a demand charge or no fixed start.
    """
    every = steps(premises, battery, permission)
    schedule = _schedule(every, premises, battery, permission, demand, ends)
    dealt = [step.at(change) for step, change in zip(every, schedule.changes_kwh, strict=True)]
    peak = peak_kw([imported for _, imported in dealt], demand.window_steps, premises.dt_h)
    cost = sum(cost for cost, _ in dealt) + demand.price_per_kw * peak
    out = -sum(min(change, 0.0) for change in schedule.changes_kwh)
    ac = out * battery.eta_dis + sum(max(change, 0.0) for change in schedule.changes_kwh) / battery.eta_ch
    wear = out * battery.wear_per_stored_kwh + ac * battery.wear_per_ac_kwh
    return Optimum(cost, cost - wear, peak, schedule.start_kwh, out, schedule.changes_kwh)


def _schedule(
    every: Sequence[Step],
    premises: Premises,
    battery: Battery,
    permission: Permission,
    demand: Demand,
    ends: Ends | None,
) -> Schedule:
    dt_h, full = premises.dt_h, battery.usable_kwh
    convex = all(step.convex for step in every)
    # Paid to import, the house would leave sun unused: with a demand charge that is one more choice in every step.
    paid = demand.price_per_kw and min(premises.buy_per_kwh) < 0
    if paid or (not convex and (ends is None or demand.price_per_kw)):
        raise Unanswered(crossing(premises, permission), "prices cross: the least cost is not found by steps alone")
    if ends is None:
        if demand.price_per_kw:
            return cheapest_with_demand(every, battery, dt_h, demand, None, Range(0.0, full))
        start, _, changes = cheapest_cycle(every, battery, dt_h)
        return Schedule(start, changes)
    end = Range(max(ends.end_kwh, battery.reserve_kwh), full)
    if end.low_kwh > end.high_kwh or not 0 <= ends.start_kwh <= full:
        raise Unanswered("no_schedule", "the stored energy asked for is more than the battery holds")
    if demand.price_per_kw:
        return cheapest_with_demand(every, battery, dt_h, demand, ends.start_kwh, end)
    find = cheapest if convex else cheapest_crossed
    return Schedule(ends.start_kwh, find(every, battery, dt_h, ends.start_kwh, end)[1])


def crossing(premises: Premises, permission: Permission) -> str:
    """Why the cost of a step may bend the wrong way; the first reason of the list that holds anywhere."""
    if min(premises.buy_per_kwh) < 0:
        return "negative_buy_price"
    if any(sell > buy for sell, buy in zip(premises.sell_per_kwh, premises.buy_per_kwh, strict=True)):
        return "sell_above_buy"
    if min(premises.sell_per_kwh) < 0 and not permission.curtailment:
        return "negative_sell_price"
    return "prices_cross"
