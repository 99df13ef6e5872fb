"""The plain rule of a battery without foresight or tariff: keep the sun, serve the load."""

from typing import NamedTuple

from standfast.design.energy.battery import Battery
from standfast.design.energy.premises import Bill, Demand, Permission, Premises, peak_kw


class Ruled(NamedTuple):
    """What the rule leads to: the bill without wear, and the stored energy after the last step."""

    bill: Bill
    end_kwh: float


def self_consumption(
    premises: Premises, battery: Battery, permission: Permission, demand: Demand, start_kwh: float
) -> Ruled:
    """Run the rule.

    Surplus sun charges at once up to the charge limit and the free room, the rest is sold; a deficit is served down to
    the reserve and up to the discharge limit, the rest is bought.

    The standby draw comes off the cells first, in every step, as long as there is energy. An export above the cap, and
    one at a price below zero where sun may be left unused, is left unused.
    """
    most_in, most_out = battery.charge_limit_kw * premises.dt_h, battery.discharge_limit_kw * premises.dt_h
    cap = None if permission.export_cap_kw is None else permission.export_cap_kw * premises.dt_h
    energy, cost, imports = start_kwh, 0.0, []
    for load, pv, buy, sell in zip(*premises[:4], strict=True):
        energy = max(energy - battery.standby_kw * premises.dt_h, 0.0)
        surplus, deficit = max(pv - load, 0.0), max(load - pv, 0.0)
        charged = min(surplus, most_in, max(battery.usable_kwh - energy, 0.0) / battery.eta_ch)
        served = min(deficit, most_out, max(energy - battery.reserve_kwh, 0.0) * battery.eta_dis)
        energy += charged * battery.eta_ch - served / battery.eta_dis
        sold = surplus - charged if cap is None else min(surplus - charged, cap)
        bought = deficit - served
        cost += bought * buy - sold * (max(sell, 0.0) if permission.curtailment else sell)
        imports.append(bought)
    peak = peak_kw(imports, demand.window_steps, premises.dt_h)
    return Ruled(Bill(cost + demand.price_per_kw * peak, peak), energy)
