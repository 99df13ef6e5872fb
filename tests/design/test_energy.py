"""Energy of a house: refusals, the nonconvex and the demanding, and values that carry their method."""

import math

import pytest

from standfast.design.energy.battery import Battery, steps
from standfast.design.energy.capacity import first_extreme, nearest_rank, required_kwh
from standfast.design.energy.lowest import lowest
from standfast.design.energy.optimum import Ends, optimum
from standfast.design.energy.outage import MOST_STEPS, Island, autonomy
from standfast.design.energy.premises import Demand, Permission, Premises, peak_kw, without_battery
from standfast.design.energy.self_consumption import self_consumption
from standfast.design.energy.wear import break_even
from standfast.design.energy.wrapped import autonomy_of, capacity_for, fingerprint, least_cost
from standfast.faults import Unanswered
from standfast.sheet import given

HOURLY = Premises([1.0, 2.0, 0.5, 3.0], [0.0, 0.0, 2.0, 0.0], [0.1, 0.3, 0.2, 0.4], [0.05] * 4, 1.0)
BATTERY = Battery(4.0, 0.5, 2.0, 2.0, 0.9, 0.9)
ENDS = Ends(1.0, 1.0)


def word(premises: Premises, battery: Battery, permission: Permission, demand: Demand, ends: Ends | None) -> str:
    with pytest.raises(Unanswered) as refusal:
        optimum(premises, battery, permission, demand, ends)
    return refusal.value.word


@pytest.mark.parametrize(
    ("changed", "permission", "reason"),
    [
        ({"buy_per_kwh": [-0.1, 0.3, 0.2, 0.4], "sell_per_kwh": [0.05] * 4}, Permission(), "negative_buy_price"),
        ({"sell_per_kwh": [0.5, 0.05, 0.05, 0.05]}, Permission(), "sell_above_buy"),
        ({"sell_per_kwh": [-0.1] * 4}, Permission(curtailment=False), "negative_sell_price"),
    ],
)
@pytest.mark.parametrize(("demand", "ends"), [(Demand(3.0, 1), ENDS), (Demand(), None)], ids=["demand", "cyclic"])
def test_crossed_prices_are_refused_by_name_where_they_are_not_solved(
    changed: dict[str, list[float]], permission: Permission, reason: str, demand: Demand, ends: Ends | None
) -> None:
    assert word(HOURLY._replace(**changed), BATTERY, permission, demand, ends) == reason
    assert math.isfinite(optimum(HOURLY._replace(**changed), BATTERY, permission, Demand(), ENDS).cost)


def test_with_a_demand_charge_a_price_below_zero_is_refused_even_where_nothing_bends() -> None:
    """Without losses the cost of a step stays straight, but leaving sun unused would be one more choice."""
    even = HOURLY._replace(buy_per_kwh=[-0.1] * 4, sell_per_kwh=[-0.1] * 4)
    lossless = BATTERY._replace(eta_ch=1.0, eta_dis=1.0)
    assert word(even, lossless, Permission(), Demand(1.0, 1), ENDS) == "negative_buy_price"


def test_prices_that_cross_out_of_reach_are_no_reason_to_refuse() -> None:
    """An export price below zero without leave to curtail bends nothing where there is never a surplus."""
    dark = HOURLY._replace(pv_kwh=[0.0] * 4, sell_per_kwh=[-0.1] * 4)
    assert optimum(dark, BATTERY, Permission(battery_export=False, curtailment=False), Demand(2.0, 1), ENDS).cost > 0


@pytest.mark.parametrize(
    ("battery", "permission", "ends"),
    [
        (BATTERY, Permission(), Ends(1.0, 4.5)),
        (BATTERY, Permission(), Ends(4.5, 1.0)),
        (BATTERY._replace(charge_limit_kw=0.0), Permission(), Ends(1.0, 2.0)),
        (BATTERY._replace(standby_kw=0.3, charge_limit_kw=0.1), Permission(), Ends(0.5, 0.5)),
        (BATTERY._replace(charge_limit_kw=0.1), Permission(export_cap_kw=0.0, curtailment=False), ENDS),
    ],
    ids=["end too high", "start too high", "cannot charge", "standby", "export cap"],
)
@pytest.mark.parametrize("demand", [Demand(), Demand(3.0, 2)], ids=["", "demand"])
def test_what_cannot_be_done_is_refused(battery: Battery, permission: Permission, ends: Ends, demand: Demand) -> None:
    assert word(HOURLY, battery, permission, demand, ends) == "no_schedule"


def test_a_cycle_that_cannot_close_is_refused() -> None:
    losing = BATTERY._replace(standby_kw=0.1)
    assert (
        word(HOURLY._replace(pv_kwh=[0.0] * 4), losing, Permission(grid_charge=False), Demand(), None) == "no_schedule"
    )


def test_a_start_below_the_reserve_is_lifted_above_it_in_the_first_step() -> None:
    found = optimum(HOURLY, BATTERY, Permission(), Demand(), Ends(0.0, 0.5))
    assert found.changes_kwh[0] >= 0.5 - 1e-12


def test_without_a_battery_the_cap_and_a_price_below_zero_leave_sun_unused() -> None:
    sunny = Premises([0.0, 1.0], [3.0, 0.0], [0.3, 0.3], [0.1, 0.1], 0.5)
    assert without_battery(sunny, Permission(export_cap_kw=2.0), Demand()).bill == pytest.approx(0.3 - 0.1)
    paid = sunny._replace(sell_per_kwh=[-0.1, 0.1])
    assert without_battery(paid, Permission(), Demand()).bill == pytest.approx(0.3)
    assert without_battery(paid, Permission(curtailment=False), Demand()).bill == pytest.approx(0.6)
    with pytest.raises(Unanswered, match="cap"):
        without_battery(sunny, Permission(export_cap_kw=2.0, curtailment=False), Demand())


def test_a_window_that_is_cut_short_counts_over_its_own_length() -> None:
    assert peak_kw([1.0, 1.0, 3.0], 2, 0.5) == pytest.approx(6.0)
    assert peak_kw([1.0, 3.0, 1.0], 2, 0.5) == pytest.approx(4.0)


def test_the_plain_rule_draws_standby_first_and_stops_at_the_reserve() -> None:
    ruled = self_consumption(HOURLY, BATTERY._replace(standby_kw=0.1), Permission(), Demand(), 1.0)
    stored = [1.0 - 0.1 - 0.4, 0.4, 0.3 + 1.5 * 0.9]
    assert ruled.end_kwh == pytest.approx(stored[-1] - 0.1 - (stored[-1] - 0.1 - 0.5))
    bought = [1.0 - 0.4 * 0.9, 2.0, 0.0, 3.0 - (stored[-1] - 0.6) * 0.9]
    assert ruled.bill.bill == pytest.approx(sum(map(lambda a, b: a * b, bought, HOURLY.buy_per_kwh)))
    assert ruled.bill.peak_kw == pytest.approx(max(bought))


def test_a_demand_charge_over_all_steps_shifts_nothing_but_over_one_does() -> None:
    flat = HOURLY._replace(buy_per_kwh=[0.2] * 4, sell_per_kwh=[0.2] * 4, pv_kwh=[0.0] * 4)
    free = BATTERY._replace(eta_ch=1.0, eta_dis=1.0)
    whole = optimum(flat, free, Permission(), Demand(1.0, 4), ENDS)
    single = optimum(flat, free, Permission(), Demand(1.0, 1), ENDS)
    assert whole.peak_kw == pytest.approx(6.5 / 4, abs=1e-6)
    assert whole.cost == pytest.approx(6.5 * 0.2 + 6.5 / 4, abs=1e-6)
    assert single.peak_kw == pytest.approx(6.5 / 4, abs=1e-6)


def test_a_step_of_no_choice_has_one_cost() -> None:
    (only, *_) = steps(HOURLY, BATTERY._replace(charge_limit_kw=0.0, discharge_limit_kw=0.0), Permission())
    assert only.at(0.0) == (pytest.approx(0.1), 1.0)
    assert only.convex


def test_an_endless_outage_is_not_followed() -> None:
    island, told = Island(1.0, 1.0, 1.0), {"usable_kwh": 1.0, "inverter_kw": 1.0, "starts": [0], "start_kwh": [1.0]}
    with pytest.raises(Unanswered, match="nearer horizon"):
        autonomy([0.0], [0.0], 1.0, island, horizon_steps=MOST_STEPS, wraps=True, **told)  # type: ignore[arg-type]
    with pytest.raises(Unanswered, match="fewer hours"):
        required_kwh([0.0], [0.0], 1.0, island, MOST_STEPS)


def test_a_part_of_a_step_counts_as_that_part() -> None:
    assert required_kwh([1.0, 2.0], [0.0, 0.0], 1.0, Island(1.0, 1.0, 1.0), 1.5) == pytest.approx([2.0, 2.5])
    assert required_kwh([1.0, 2.0], [0.0, 0.0], 1.0, Island(1.0, 1.0, 1.0), 0.25) == pytest.approx([0.25, 0.5])


def test_ranks_and_first_extremes() -> None:
    values = [3.0, 1.0, 2.0, 3.0 + 5e-10]
    assert [nearest_rank(values, share) for share in (1, 25, 26, 50, 95, 100)] == [1, 1, 2, 2, values[3], values[3]]
    assert first_extreme(values, largest=True) == 0
    assert first_extreme(values, largest=False) == 1


def test_the_lowest_point_needs_few_questions() -> None:
    asked = []

    def ask(at: float) -> float:
        asked.append(at)
        return max(-3 * at, 0.5 * at - 1, 2 * at - 40)

    assert lowest(ask, -100, 100) == (pytest.approx(2 / 7), pytest.approx(-6 / 7))
    assert len(asked) < 20


def test_values_of_the_sheet_say_how_they_came_about() -> None:
    hours, island = given("t", 12.0, "h", "wishes"), Island(2.0, 0.95, 0.95, 0.02)
    load, pv = [0.5, 0.8, 0.3], [0.0, 0.0, 2.0]
    capacity = capacity_for(load, pv, 4.0, island, hours, 95)
    assert capacity.quantity == max(required_kwh(load, pv, 4.0, island, 12.0))
    assert capacity.inputs == (hours,)
    assert "95 % of 3 starts" in capacity.how
    runs = autonomy(
        load, pv, 4.0, island, usable_kwh=5.0, inverter_kw=0.7,
        starts=[0, 1, 2], start_kwh=[5.0] * 3, horizon_steps=20, wraps=True,
    )  # fmt: skip
    lasts = autonomy_of(runs, 5, fingerprint(load, pv))
    assert lasts.quantity == 0.0
    assert "3 end by overload" in lasts.how
    cost = least_cost(HOURLY, BATTERY, Permission(), Demand(), ENDS)
    assert cost.quantity == optimum(HOURLY, BATTERY, Permission(), Demand(), ENDS).cost
    assert fingerprint([1.0]) != fingerprint([1.0000001])


def test_break_even_prints_its_formula() -> None:
    values = [given(symbol, number, unit, "case") for symbol, number, unit in _BREAK_EVEN]
    found = break_even(*values)
    assert found.quantity == pytest.approx(0.4 * 0.95 - 0.1 / 0.95)
    assert found.how == "v * eta_dis - b / eta_ch"


_BREAK_EVEN = [("b", 0.1, "1/kWh"), ("v", 0.4, "1/kWh"), ("e", 0.95, "1"), ("f", 0.95, "1")]
