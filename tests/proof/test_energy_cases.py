"""Energy cases: every alternative of the inputs, what is absurd, and the named refusal."""

from typing import Any

import pytest

from standfast.proof.run import Outcome, prove

LOAD, SUN = [1.0, 2.0, 0.5], [0.0, 0.0, 2.0]
STORE = {
    "usable_kwh": 4.0, "reserve_kwh": 0.5, "charge_limit_kw": 2.0, "discharge_limit_kw": 2.0,
    "eta_ch": 0.9, "eta_dis": 0.9,
}  # fmt: skip
HOUSE = {"dt_h": 1.0, "load_kwh": LOAD, "pv_kwh": SUN, "buy_per_kwh": 0.3, "sell_per_kwh": [0.1, 0.1, 0.05]}
DISPATCH = {**HOUSE, **STORE, "start_kwh": 1.0, "end_kwh": 1.0}
OUTAGE = {
    "dt_h": 1.0, "load_kw": LOAD, "pv_kw": SUN, "wraps": True, "horizon_steps": 9, "usable_kwh": 4.0,
    "inverter_kw": 3.0, "charge_limit_kw": 2.0, "eta_ch": 0.9, "eta_dis": 0.9, "standby_kw": 0.1,
    "start_step": "all", "start_kwh": 4.0,
}  # fmt: skip
GENERATED = {
    "generator": "home_1", "steps": 200, "seed": 7, "base_kw": [0.5] * 24, "load_factor": 1.0, "load_offset_kw": 0.1,
    "pv_kw": 5.0, "dt_h": 0.25,
}  # fmt: skip


def ask(method: str, inputs: dict[str, Any], expected: dict[str, Any] | None = None) -> Outcome:
    case = {"id": "a", "method": method, "inputs": inputs, "expected": expected or {}, "tolerance": {}}
    return prove("cases.json", [case])[0]


def answers(method: str, inputs: dict[str, Any], *keys: str) -> dict[str, Any]:
    return ask(method, inputs, dict.fromkeys(keys)).ours


def without(inputs: dict[str, Any], *names: str) -> dict[str, Any]:
    return {name: value for name, value in inputs.items() if name not in names}


def test_one_start_a_list_of_starts_and_all_starts_are_told_as_they_are_asked() -> None:
    keys = ("whole_steps", "ends_by", "autonomy_h")
    every = answers("energy.outage.autonomy", OUTAGE, *keys)
    assert len(every["whole_steps"]) == 3
    one = answers("energy.outage.autonomy", {**OUTAGE, "start_step": 1}, *keys)
    assert one == {key: every[key][1] for key in keys}
    some = answers("energy.outage.autonomy", {**OUTAGE, "start_step": [1], "start_kwh": [4.0]}, *keys)
    assert some == {key: [every[key][1]] for key in keys}


def test_the_generated_home_is_one_home_whichever_way_it_is_asked() -> None:
    prices = {"buy_by_hour": [0.3] * 24, "sell_by_hour": [0.1] * 24}
    home = answers("energy.dispatch.optimum", {**without(DISPATCH, *HOUSE), **GENERATED, **prices}, "cost", "load_kwh")
    flat = {"buy_per_kwh": 0.3, "sell_per_kwh": 0.1}
    assert home == answers(
        "energy.dispatch.optimum", {**without(DISPATCH, *HOUSE), **GENERATED, **flat}, "cost", "load_kwh"
    )
    needs = {"hours_h": 8, "charge_limit_kw": 2.0, "eta_ch": 0.9, "eta_dis": 0.9, "standby_kw": 0.0}
    assert len(answers("energy.outage.required_kwh", {**GENERATED, **needs}, "per_start_kwh")["per_start_kwh"]) == 200
    assert answers("energy.bill.without_battery", {**GENERATED, **flat}, "bill", "peak_kw")["peak_kw"] > 0


def test_repeats_lay_the_series_end_to_end() -> None:
    cyclic = {**without(DISPATCH, "start_kwh", "end_kwh"), "cyclic": True}
    once = answers("energy.dispatch.optimum", cyclic, "cost", "load_kwh")
    thrice = answers("energy.dispatch.optimum", {**cyclic, "repeats": 3}, "cost", "load_kwh")
    assert thrice["cost"] == pytest.approx(3 * once["cost"])
    assert thrice["load_kwh"] == pytest.approx(3 * sum(LOAD))


def test_permissions_cost() -> None:
    free = answers("energy.dispatch.optimum", DISPATCH, "cost")["cost"]
    for narrower in (
        {"grid_charge": False},
        {"battery_export": False},
        {"export_cap_kw": 0.2},
        {"standby_kw": 0.05},
        {"wear_per_stored_kwh": 0.05},
        {"wear_per_ac_kwh": 0.05},
        {"demand_price_per_kw": 1.0},
    ):
        assert answers("energy.dispatch.optimum", {**DISPATCH, **narrower}, "cost")["cost"] >= free - 1e-12


@pytest.mark.parametrize(
    ("method", "inputs"),
    [
        ("energy.dispatch.optimum", without(DISPATCH, "end_kwh")),
        ("energy.dispatch.optimum", {**DISPATCH, "cyclic": True}),
        ("energy.dispatch.optimum", {**DISPATCH, "pv_kwh": [0.0]}),
        ("energy.dispatch.optimum", {**DISPATCH, "buy_per_kwh": [0.3]}),
        ("energy.dispatch.optimum", {**DISPATCH, "load_kwh": [], "pv_kwh": []}),
        ("energy.dispatch.optimum", {**DISPATCH, "load_kwh": [-1.0, 0, 0]}),
        ("energy.dispatch.optimum", {**DISPATCH, "eta_ch": 1.2}),
        ("energy.dispatch.optimum", {**DISPATCH, "eta_dis": 0}),
        ("energy.dispatch.optimum", {**DISPATCH, "reserve_kwh": 5.0}),
        ("energy.dispatch.optimum", {**DISPATCH, "dt_h": 0}),
        ("energy.dispatch.optimum", {**DISPATCH, "repeats": 0}),
        ("energy.dispatch.optimum", {**DISPATCH, "repeats": 1e9}),
        ("energy.dispatch.optimum", {**DISPATCH, "demand_window_steps": 0}),
        ("energy.dispatch.optimum", {**DISPATCH, "colour": "red"}),
        ("energy.dispatch.optimum", {**DISPATCH, "end_kwh": 4.5}),
        ("energy.bill.without_battery", {**GENERATED, "generator": "home_2", "buy_per_kwh": 1, "sell_per_kwh": 1}),
        ("energy.bill.without_battery", {**GENERATED, "steps": 0, "buy_per_kwh": 1, "sell_per_kwh": 1}),
        ("energy.bill.without_battery", {**GENERATED, "dt_h": 0.5, "buy_per_kwh": 1, "sell_per_kwh": 1}),
        ("energy.bill.without_battery", {**GENERATED, "buy_by_hour": [1], "sell_per_kwh": 1}),
        ("energy.outage.autonomy", {**OUTAGE, "start_step": 3}),
        ("energy.outage.autonomy", {**OUTAGE, "start_step": []}),
        ("energy.outage.autonomy", {**OUTAGE, "start_step": "some"}),
        ("energy.outage.autonomy", {**OUTAGE, "start_kwh": [1.0]}),
        ("energy.outage.autonomy", {**OUTAGE, "start_kwh": -1}),
        ("energy.outage.autonomy", {**OUTAGE, "horizon_steps": 0}),
        ("energy.outage.autonomy", {**OUTAGE, "horizon_steps": 1e9}),
        ("energy.outage.autonomy", {**OUTAGE, "standby_side": "dc"}),
        ("energy.outage.autonomy", without(OUTAGE, "wraps")),
        ("energy.clock.day_steps", {"zone": "Europe/Berlin", "local_date_yyyymmdd": 20260230, "step_min": 15}),
        ("energy.clock.day_steps", {"zone": "Mars/Base", "local_date_yyyymmdd": 20260220, "step_min": 15}),
        ("energy.clock.day_steps", {"zone": "UTC", "local_date_yyyymmdd": 99991231, "step_min": 15}),
        ("pv.loss_product", {"losses_pct": ["snow"]}),
        ("inverter.weighted_efficiency", {"weighting": "euro", "efficiency_pct": [90]}),
        ("inverter.efficiency_weights", {"weighting": "moon"}),
        ("load.bdew_dynamisation", {"coefficients": [1], "day_of_year": [1]}),
        ("reliability.major_event_threshold", {"daily_saidi_min": [], "sigmas": 2.5, "deviation": "sample"}),
        ("reliability.major_event_threshold", {"daily_saidi_min": [1, 2], "sigmas": 2.5, "deviation": "other"}),
        ("reliability.mean_interruption", {"saidi_min": [1, 2], "saifi": [1]}),
    ],
)
def test_an_absurd_case_disagrees_with_a_reason(method: str, inputs: dict[str, Any]) -> None:
    outcome = ask(method, inputs, {"cost": 0.0})
    assert outcome.verdict == "disagrees"
    assert outcome.reason
    assert "differs" not in outcome.reason


def test_single_numbers_are_answered_by_single_numbers() -> None:
    prices = {"buy_per_kwh": 0.1, "value_per_kwh": [0.4, 0.3], "eta_ch": 1, "eta_dis": 1}
    found = answers("energy.wear.break_even", prices, "break_even_per_stored_kwh")["break_even_per_stored_kwh"]
    assert found == pytest.approx([0.3, 0.2])
    single = answers("energy.wear.break_even", {**prices, "value_per_kwh": 0.4}, "break_even_per_stored_kwh")
    assert single["break_even_per_stored_kwh"] == pytest.approx(0.3)


CROSSED = {**DISPATCH, "buy_per_kwh": [-0.2, 0.3, 0.3]}


def test_a_refusal_counts_only_where_the_case_allows_it_and_by_its_word() -> None:
    charged = {**CROSSED, "demand_price_per_kw": 1.0}
    allowed = ask("energy.dispatch.optimum", charged, {"cost": 0.0, "or_refusal": "negative_buy_price"})
    assert allowed.verdict == "agrees"
    assert allowed.ours == {"or_refusal": "negative_buy_price"}
    for expected in ({"cost": 0.0}, {"cost": 0.0, "or_refusal": "sell_above_buy"}):
        assert ask("energy.dispatch.optimum", charged, expected).verdict == "disagrees"


def test_an_answer_counts_where_a_refusal_was_allowed_and_must_be_right() -> None:
    cost = answers("energy.dispatch.optimum", CROSSED, "cost")["cost"]
    right = {"cost": cost, "or_refusal": "negative_buy_price"}
    assert ask("energy.dispatch.optimum", CROSSED, right).verdict == "agrees"
    assert ask("energy.dispatch.optimum", CROSSED, {**right, "cost": cost + 1e-3}).verdict == "disagrees"
    assert ask("energy.dispatch.optimum", CROSSED, {"or_refusal": "negative_buy_price"}).verdict == "disagrees"


def test_an_unasked_condition_of_labels_disagrees() -> None:
    twice = {"zone": "Europe/Berlin", "local_date_yyyymmdd": 20261025, "step_min": 60, "label_min": [60, 120, 120]}
    assert ask("energy.clock.labels", twice, {"verdict": "pass"}).verdict == "disagrees"
    good = {"verdict": "pass", "condition": "repeated_hour_taken_in_order"}
    assert ask("energy.clock.labels", twice, good).verdict == "agrees"


@pytest.mark.parametrize(
    ("method", "inputs"),
    [
        ("energy.dispatch.optimum", {**DISPATCH, "dt_h": 1e308}),
        ("energy.dispatch.optimum", {**DISPATCH, "sell_per_kwh": 0.5, "eta_dis": 1e-320}),
        ("energy.dispatch.optimum", {**DISPATCH, "load_kwh": [1e300, 1.0, 1.0]}),
        ("energy.outage.autonomy", {**OUTAGE, "eta_dis": 1e-320}),
        ("energy.outage.required_kwh", {**without(OUTAGE, "start_step"), "hours_h": 4.0, "dt_h": 1e-320}),
        ("energy.clock.day_steps", {"zone": "UTC", "local_date_yyyymmdd": 20240101, "step_min": 1e-320}),
        (
            "energy.clock.tariff_day",
            {
                "zone": "UTC", "first_start_epoch_s": 0, "dt_h": 1e308, "readings_kwh": [1.0, 1.0],
                "window_from_min": [], "window_to_min": [], "window_buy_per_kwh": [], "buy_else_per_kwh": 0.3,
            },
        ),
        ("au.photo_rule", {"install_date_yyyymmdd": [1e308]}),
    ],
    ids=["step", "efficiency", "load", "outage", "capacity", "interval", "reading", "date"],
)  # fmt: skip
def test_numbers_beyond_all_houses_disagree_with_a_reason(method: str, inputs: dict[str, Any]) -> None:
    outcome = ask(method, inputs)
    assert (outcome.verdict, outcome.ours) == ("disagrees", {})
    assert outcome.reason


@pytest.mark.parametrize(
    ("zone", "day", "step_min", "steps"),
    [
        ("Australia/Lord_Howe", 20240407, 15, 98),
        ("Australia/Lord_Howe", 20241006, 15, 94),
        ("Pacific/Apia", 20111230, 30, 0),
        ("America/Havana", 20241103, 60, 25),
        ("Africa/Cairo", 20240426, 60, 23),
        ("Antarctica/Troll", 20241027, 60, 26),
    ],
)
def test_odd_zones_have_odd_days(zone: str, day: int, step_min: int, steps: int) -> None:
    inputs = {"zone": zone, "local_date_yyyymmdd": day, "step_min": step_min}
    assert ask("energy.clock.day_steps", inputs, {"steps": steps}).verdict == "agrees"


def test_half_an_hour_that_stands_twice_is_taken_in_order() -> None:
    labels = {"zone": "Australia/Lord_Howe", "local_date_yyyymmdd": 20240407, "step_min": 15}
    first = 1712413800  # 01:30 of that day, eleven hours ahead of UTC
    expected = {
        "verdict": "pass",
        "condition": "repeated_hour_taken_in_order",
        "epoch_s": [first + 900 * step for step in range(5)],
    }
    inputs = {**labels, "label_min": [90, 105, 90, 105, 120]}
    assert ask("energy.clock.labels", inputs, expected).verdict == "agrees"
