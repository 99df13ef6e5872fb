"""Results of the energy side as values of the sheet: the number, the model, and the hash of what went in."""

import hashlib
from collections.abc import Sequence

from standfast.design.energy.battery import Battery
from standfast.design.energy.capacity import nearest_rank, required_kwh
from standfast.design.energy.optimum import Ends, optimum
from standfast.design.energy.outage import Island, Run
from standfast.design.energy.premises import Demand, Permission, Premises
from standfast.sheet import Value, simulated


def fingerprint(*columns: object) -> str:
    """A short hash of series and settings; the same numbers give the same text on every machine."""
    return hashlib.sha256(repr(columns).encode()).hexdigest()[:12]


def capacity_for(
    load_kw: Sequence[float], pv_kw: Sequence[float], dt_h: float, island: Island, hours: Value, per_cent: int
) -> Value:
    """Usable capacity in kWh that carries the backed-up circuits through an outage, for so many per cent of its starts.

    Args:
        load_kw: backed-up load of each step of a year, mean power.
        pv_kw: sun of each step, mean power.
        dt_h: length of a step.
        island: the battery system.
        hours: length of the outage in h.
        per_cent: share of all starts that it must do for, 1 to 100.
    """
    needed = required_kwh(load_kw, pv_kw, dt_h, island, hours.quantity)
    method = f"outage, step by step, for {per_cent} % of {len(needed)} starts, full at the start"
    hashed = fingerprint(tuple(load_kw), tuple(pv_kw), dt_h, island)
    return simulated("C_usable", nearest_rank(needed, per_cent), "kWh", f"{method}; input {hashed}", hours)


def autonomy_of(runs: Sequence[Run], per_cent: int, hashed: str) -> Value:
    """Hours that an outage is survived in all but so many per cent of its starts.

    Args:
        runs: one for each start.
        per_cent: share of the starts that may last less.
        hashed: fingerprint of what the runs were made from.
    """
    hours = nearest_rank([run.autonomy_h for run in runs], per_cent)
    over = sum(run.ends_by == "overload" for run in runs)
    method = f"outage, step by step, {per_cent} % of {len(runs)} starts last less; {over} end by overload"
    return simulated("t_out", hours, "h", f"{method}; input {hashed}")


def least_cost(
    premises: Premises, battery: Battery, permission: Permission, demand: Demand, ends: Ends | None
) -> Value:
    """Cost of the series with the battery run as well as can be, known in advance. No control reaches it."""
    found = optimum(premises, battery, permission, demand, ends)
    hashed = fingerprint(*(tuple(column) for column in premises[:4]), premises.dt_h, battery, permission, demand, ends)
    method = f"least cost of {len(premises.load_kwh)} steps, all known in advance: a bound; input {hashed}"
    return simulated("K_least", found.cost, "1", method)
