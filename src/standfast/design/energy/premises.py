"""A house at its meter: load, sun and prices of each step, and the bill that they make.

The meter nets inside a step: it imports or exports, never both.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.faults import Unanswered

TIE_KWH = 1e-9


class Premises(NamedTuple):
    """Energies of each step in kWh, prices of each step, length of a step."""

    load_kwh: Sequence[float]
    pv_kwh: Sequence[float]
    buy_per_kwh: Sequence[float]
    sell_per_kwh: Sequence[float]
    dt_h: float


class Permission(NamedTuple):
    """What may be done at the meter.

    Attributes:
        grid_charge: the battery may charge from the grid; otherwise from surplus sun of the same step alone.
        battery_export: the battery may feed the grid; otherwise it serves the load of the same step at most.
        export_cap_kw: greatest mean export of a step; None where there is no limit.
        curtailment: sun may be left unused at no cost.
    """

    grid_charge: bool = True
    battery_export: bool = True
    export_cap_kw: float | None = None
    curtailment: bool = True


class Demand(NamedTuple):
    """A price on the highest mean import of consecutive windows of so many steps, counted from the first step."""

    price_per_kw: float = 0.0
    window_steps: int = 1


class Bill(NamedTuple):
    """What is paid, with the demand charge, and the highest window mean of the import."""

    bill: float
    peak_kw: float


def without_battery(premises: Premises, permission: Permission, demand: Demand) -> Bill:
    """The bill of the house as it is.

    An export above the cap and, where sun may be left unused, one at a price below zero is left unused.

    Raises:
        Unanswered: ``no_schedule`` where surplus sun may neither be exported nor left unused.
    """
    cap = None if permission.export_cap_kw is None else permission.export_cap_kw * premises.dt_h
    cost, imports = 0.0, []
    for load, pv, buy, sell in zip(*premises[:4], strict=True):
        bought, sold = max(load - pv, 0.0), max(pv - load, 0.0)
        if cap is not None and sold > cap:
            if not permission.curtailment and sold > cap + TIE_KWH:
                raise Unanswered("no_schedule", "the export cap cannot be kept where no sun may be left unused")
            sold = cap
        cost += bought * buy - sold * (max(sell, 0.0) if permission.curtailment else sell)
        imports.append(bought)
    peak = peak_kw(imports, demand.window_steps, premises.dt_h)
    return Bill(cost + demand.price_per_kw * peak, peak)


def peak_kw(imports_kwh: Sequence[float], window_steps: int, dt_h: float) -> float:
    """The highest mean import over consecutive windows; a last window that is cut short counts over its own length."""
    windows = [imports_kwh[first : first + window_steps] for first in range(0, len(imports_kwh), window_steps)]
    return max(sum(window) / (len(window) * dt_h) for window in windows)
