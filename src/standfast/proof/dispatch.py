"""Adapters of the bill: the least cost, the plain rule, and the house without a battery."""

from typing import Any

from standfast.design.energy.battery import Battery
from standfast.design.energy.optimum import Ends, optimum
from standfast.design.energy.premises import Demand, Permission, Premises, without_battery
from standfast.design.energy.self_consumption import self_consumption
from standfast.design.energy.wear import break_even
from standfast.proof.columns import columns
from standfast.proof.energy_series import at_least_zero, energies, prices, share, whole
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.sheet import given


@method("energy.dispatch.optimum")
def dispatch_optimum(case: Inputs) -> dict[str, Any]:
    """Least cost with perfect foresight."""
    premises, battery = _premises(case), _battery(case)
    cyclic = case.yes("cyclic", False)
    if cyclic and ("start_kwh" in case or "end_kwh" in case):
        raise BadCase("a cyclic series has no start_kwh and no end_kwh")
    ends = None if cyclic else Ends(at_least_zero(case, "start_kwh"), at_least_zero(case, "end_kwh"))
    found = optimum(premises, battery, _permission(case), _demand(case), ends)
    return {
        "cost": found.cost,
        "bill": found.bill,
        "peak_kw": found.peak_kw,
        "start_kwh": found.start_kwh,
        "stored_discharged_kwh": found.stored_discharged_kwh,
        "load_kwh": sum(premises.load_kwh),
        "pv_kwh": sum(premises.pv_kwh),
    }


@method("energy.bill.without_battery")
def bill_without_battery(case: Inputs) -> dict[str, Any]:
    """The house as it is."""
    return without_battery(_premises(case), _permission(case), _demand(case))._asdict()


@method("energy.rule.self_consumption")
def rule_self_consumption(case: Inputs) -> dict[str, Any]:
    """The plain rule. Without the word curtailment in the case, all that is left over is sold."""
    permission = _permission(case, curtailment=False)
    start = at_least_zero(case, "start_kwh")
    found = self_consumption(_premises(case), _battery(case), permission, _demand(case), start)
    return {**found.bill._asdict(), "end_kwh": found.end_kwh}


@method("energy.wear.break_even")
def wear_break_even(case: Inputs) -> dict[str, Any]:
    """Wear price at which cycling stops paying."""
    eta_ch, eta_dis = (given(name, share(case, name), "1", f"case, {name}") for name in ("eta_ch", "eta_dis"))

    def one(buy: float, value: float) -> float:
        prices = given("b", buy, "1/kWh", "case, buy_per_kwh"), given("v", value, "1/kWh", "case, value_per_kwh")
        return break_even(*prices, eta_ch, eta_dis).quantity

    return {"break_even_per_stored_kwh": columns(case, one, "buy_per_kwh", "value_per_kwh")}


def _premises(case: Inputs) -> Premises:
    load, pv, dt_h = energies(case)
    return Premises(load, pv, prices(case, "buy", len(load)), prices(case, "sell", len(load)), dt_h)


def _battery(case: Inputs) -> Battery:
    found = Battery(
        at_least_zero(case, "usable_kwh"),
        at_least_zero(case, "reserve_kwh"),
        at_least_zero(case, "charge_limit_kw"),
        at_least_zero(case, "discharge_limit_kw"),
        share(case, "eta_ch"),
        share(case, "eta_dis"),
        at_least_zero(case, "standby_kw", 0.0),
        at_least_zero(case, "wear_per_stored_kwh", 0.0),
        at_least_zero(case, "wear_per_ac_kwh", 0.0),
    )
    if found.reserve_kwh > found.usable_kwh:
        raise BadCase("the reserve is more than the usable energy")
    return found


def _permission(case: Inputs, *, curtailment: bool = True) -> Permission:
    cap = at_least_zero(case, "export_cap_kw") if "export_cap_kw" in case else None
    allowed = case.yes("grid_charge", True), case.yes("battery_export", True)
    return Permission(*allowed, cap, case.yes("curtailment", curtailment))


def _demand(case: Inputs) -> Demand:
    steps = whole(case, "demand_window_steps", 1)
    if steps < 1:
        raise BadCase("a window of the demand has at least one step")
    return Demand(at_least_zero(case, "demand_price_per_kw", 0.0), steps)
