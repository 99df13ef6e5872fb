"""Limits and marks that cases look up: every entry leads to a number of the unit that its name ends in."""

from typing import Any

import pytest

from standfast.faults import Refusal
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.limits import lookups
from standfast.proof.methods import adapter_of
from standfast.proof.run import prove

ENTRIES = [
    (kind, code, quantity)
    for kind, codes in lookups().items()
    for code, quantities in codes.items()
    for quantity in quantities
]


def ask(method: str, **inputs: Any) -> dict[str, Any]:
    adapter = adapter_of(method)
    assert adapter is not None
    return adapter(Inputs(inputs))


@pytest.mark.parametrize(("kind", "code", "quantity"), ENTRIES)
def test_every_entry_is_held_and_has_the_unit_of_its_name(kind: str, code: str, quantity: str) -> None:
    names = {"limit": ("code.limit", "code", "quantity"), "label": ("label.spec", "standard", "label")}[kind]
    found = ask(names[0], **{names[1]: code, names[2]: quantity})
    assert set(found) == set(lookups()[kind][code][quantity]) - {"book", "edition"}
    assert all(isinstance(answer, float | str | bool) for answer in found.values())


def test_a_minute_is_sixty_seconds() -> None:
    from standfast.proof.endings import plain
    from standfast.sheet import given

    assert plain(given("t", 1.5, "min", "test"), "within_s") == 90
    with pytest.raises(ValueError, match="measures"):
        plain(given("t", 1.5, "min", "test"), "max_v")


@pytest.mark.parametrize(
    ("method", "inputs"),
    [
        ("code.limit", {"code": "nobody", "quantity": "nothing"}),
        ("code.limit", {"code": "hse_gs38"}),
        ("label.spec", {"standard": "adr", "label": "class_8"}),
        ("grid.trip_setting", {"standard": "ieee1547_2018", "function": "ov1"}),
        ("grid.trip_setting", {"standard": "ieee1547_2018", "category": "iv", "function": "ov1"}),
        ("grid.trip_setting", {"standard": "g100", "function": "ov1"}),
        ("grid.trip_setting", {"standard": "g98", "function": "uv2"}),
        ("grid.function_default", {"standard": "g98", "function": "volt_var"}),
        ("grid.function_default", {"standard": "ieee1547_2018", "function": "volt_watt", "network": "western_power"}),
        ("grid.function_default", {"standard": "ieee1547_2018_a1", "function": "enter_service"}),
        ("grid.setting_range", {"standard": "ieee1547_2018", "group": "droop"}),
        ("grid.ride_through", {"standard": "ieee1547_2018", "voltage_pu": [0.8]}),
        ("grid.region", {"country": "au", "network": "nobody"}),
        ("sunspec.model_length", {"model": 64001, "counts": {}}),
        ("sunspec.model_length", {"counts": {}}),
        ("sunspec.model_length", {"layout": {"registers": 9, "groups": [{"registers": 2}]}}),
        ("sunspec.model_length", {"layout": {"registers": 9, "groups": [{"count": -1, "registers": 2}]}}),
        ("sunspec.point_value", {"points": [{"type": "int16", "registers": [1, 2]}]}),
        ("sunspec.power_direction", {"model": 203, "w": [5]}),
        ("sunspec.power_direction", {"model": 701, "w": [5, 0]}),
        ("sunspec.bases", {"standard": "another"}),
        ("modbus.crc16", {"bytes": [300]}),
        ("modbus.registers_from_bytes", {"bytes": [1.5, 2]}),
        ("fieldbus.termination_resistance", {"terminators_ohm": [120]}),
        ("fieldbus.termination_resistance", {"terminators_ohm": [[]]}),
        ("transport.lithium_us", {"damaged": True, "purpose": "repair", "mode": "road"}),
        ("transport.lithium_us", {"purpose": "reuse", "mode": "road"}),
        ("fire.lithium_storage", {"code": "wac_51_54a_0322"}),
        ("fire.lithium_storage", {"code": "wac_51_54a_0322", "battery_wh": 100}),
        ("au.photo_rule", {"install_date_yyyymmdd": [20260230]}),
        ("thermal.neta_class", {"basis": "elsewhere", "delta_k": 5}),
        ("arc.dc.box_factors", {"enclosure": ["bucket"]}),
    ],
)
def test_what_cannot_be_asked_is_refused(method: str, inputs: dict[str, Any]) -> None:
    with pytest.raises((BadCase, Refusal)):
        ask(method, **inputs)


def test_counts_find_the_controls_of_a_model_that_calls_them_so() -> None:
    once, twice = (ask("sunspec.model_length", model=711, counts={"curves": n})["length"] for n in (1, 2))
    assert twice - once == ask("sunspec.model_length", model=711, counts={"controls": 2})["length"] - once > 0


def test_a_stated_layout_decides() -> None:
    assert ask("sunspec.model_length", model=713, counts={}, layout={"registers": 30})["length"] == 28


def test_without_a_sustained_arc_there_is_no_energy() -> None:
    found = ask("arc.dc.stokes_oppenlander", voltage_v=12, fault_a=9000, gap_mm=30, time_s=1, distance_mm=300)
    assert found == {"arc_a": 0, "arc_ohm": None, "arc_energy_j": 0, "open_air_cal_cm2": 0}


def test_the_verdict_on_one_position_stands_alone_or_in_a_list() -> None:
    inputs = {"inside_unit": False, "in_sight": True, "distance_ft": 10, "lockable": False}
    for right, verdict in (
        (["pass"], "agrees"),
        ("pass", "agrees"),
        (["fail"], "disagrees"),
        (["pass"] * 2, "disagrees"),
    ):
        case = {"id": "a", "method": "nec.ess.disconnect_location", "inputs": inputs, "expected": {"verdict": right}}
        assert prove("cases.json", [case])[0].verdict == verdict


@pytest.mark.parametrize(
    ("method", "inputs", "expected"),
    [
        ("grid.ride_through", {"category": "ii", "frequency_hz": [61.3]}, {"min_s": [299]}),
        ("grid.function_default", {"function": "reconnection"}, {"delay_s": 300}),
        ("grid.setting_range", {"group": "trip"}, {"of1_hz": [61, 66]}),
    ],
)
def test_what_is_the_same_in_every_category_needs_none(
    method: str, inputs: dict[str, Any], expected: dict[str, Any]
) -> None:
    case = {"id": "a", "method": method, "inputs": {"standard": "ieee1547_2018", **inputs}, "expected": expected}
    assert prove("cases.json", [case])[0].verdict == "agrees"


def test_a_category_that_is_none_disagrees_with_a_reason() -> None:
    inputs = {"standard": "ieee1547_2018", "category": "iv", "frequency_hz": [61.3]}
    (outcome,) = prove(
        "c", [{"id": "a", "method": "grid.ride_through", "inputs": inputs, "expected": {"min_s": [299]}}]
    )
    assert (outcome.verdict, outcome.ours) == ("disagrees", {})
    assert "iv" in outcome.reason
