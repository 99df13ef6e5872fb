"""A case gives the inputs that its answers need, and no others: whatever can be answered is answered."""

from typing import Any

import pytest

from standfast.proof.run import prove

CASES: list[tuple[str, dict[str, Any], dict[str, Any]]] = [
    (
        "nec.table",
        {"table": "430.7(B)", "cells": [{"code_letter": "u"}, {"code_letter": "v"}]},
        {"kva_per_hp_from": [20, 22.4], "kva_per_hp_to": [22.39, None]},
    ),
    ("nec.busbar", {"bus_a": 200, "branch_ocpd_a": [20, 60, 60]}, {"option_3_sum_a": 140, "option_3": "pass"}),
    ("nec.busbar.largest_source", {"bus_a": 225, "main_a": 200}, {"option_1_sources_125_a": 25}),
    ("nec.ampacity", {"base_ampacity_a": 30, "current_carrying_conductors": 8}, {"ampacity_a": 21}),
    ("nec.ampacity", {"base_ampacity_a": 30, "insulation_c": 90}, {"ampacity_a": 30}),
    (
        "nec.bonding_jumper",
        {"size": "500", "parallel_sets": 12, "material": "cu"},
        {"service_area_cmil": 6e6, "jumper_area_cmil": 750e3},
    ),
    (
        "nec.bonding_jumper",
        {"size": "500", "parallel_sets": 4, "material": "al"},
        {"jumper_area_cmil": 250e3, "jumper_al_size": "250"},
    ),
    ("nec.ocpd.largest", {"size": "2/0", "material": "cu", "insulation_c": 75}, {"ampacity_a": 175, "max_load_a": 175}),
    ("nec.feeder.tap", {"feeder_ocpd_a": 200, "sources_125_a": 60, "tap_rule_ft": 10}, {"min_ampacity_a": 26}),
    ("nec.feeder.with_source", {"primary_ocpd_a": 63, "sources_a": [32]}, {"required_a": 103}),
    ("drop.ohms", {"size": "10", "material": "cu", "system": "single_phase"}, {"ohm_per_kft": 1.24}),
    (
        "drop.k",
        {
            "k_ohm_cmil_per_ft": 12,
            "current_a": 500,
            "length_ft": 1000,
            "system": "dc",
            "voltage_v": 400,
            "limit_pct": 3,
        },
        {"min_area_cmil": 1e6},
    ),
    ("fault.transformer", {"system": "single_phase", "kva": 48, "voltage_v": 240}, {"full_load_a": 200}),
    (
        "fault.point_to_point",
        {"system": "single_phase_line_line", "voltage_v": 240, "transformer_kva": 48, "transformer_z_pct": 2},
        {"available_a": 10000},
    ),
    (
        "fault.impedance_chain",
        {
            "source_r_mohm": 1,
            "source_x_mohm": 2,
            "cables": [{"r_mohm_per_m": 0.1, "x_mohm_per_m": 0.1, "length_m": 10}],
        },
        {"r_mohm": 2, "x_mohm": 3},
    ),
    ("iec60949.short_circuit", {"area_mm2": 100, "time_s": 1, "x_sqrt_mm2_per_s": 4.4}, {"epsilon": 1.2}),
    ("nds.withdrawal", {"fastener": "lag", "g": 1, "d_in": 1, "tip_in": 0.4}, {"w_lb_per_in": 1800}),
    ("aci318.steel", {"ase_in2": 0.2, "futa_psi": 60000, "phi_tension": 0.75}, {"nsa_lb": 12000, "phi_nsa_lb": 9000}),
]


@pytest.mark.parametrize(("method", "inputs", "expected"), CASES, ids=[case[0] for case in CASES])
def test_what_can_be_answered_is_answered(method: str, inputs: dict[str, Any], expected: dict[str, Any]) -> None:
    case = {"id": method, "method": method, "inputs": inputs, "expected": expected, "tolerance": {}}
    (outcome,) = prove("cases.json", [case])
    assert outcome.verdict == "agrees", f"{outcome.reason}: ours {outcome.ours}"


def test_a_position_with_a_fact_missing_passes_only_by_what_is_stated() -> None:
    inputs = {"inside_unit": [True, False, False], "in_sight": [False, True, False], "distance_ft": [None, None, 50]}
    expected = {"verdict": ["pass", "cannot tell", "cannot tell"]}
    case = {"id": "a", "method": "nec.ess.disconnect_location", "inputs": inputs, "expected": expected}
    (outcome,) = prove("cases.json", [case])
    assert outcome.ours == expected


def test_a_load_beyond_every_worksheet_disagrees_with_a_reason() -> None:
    inputs = {"h_in": 15, "v_in": 27, "d_in": 17, "a_deg": 0, "f_per_min": 0.2, "load_lb": 1e300}
    words = {"duration": "short", "coupling": "poor", "precision": "worksheet"}
    case = {"id": "a", "method": "niosh.rwl", "inputs": inputs | words, "expected": {"rwl_lb": 28.0}}
    (outcome,) = prove("cases.json", [case])
    assert outcome.verdict == "disagrees"
    assert "worksheet" in outcome.reason


def test_largest_copper_of_the_table_in_the_coolest_column() -> None:
    case = {
        "id": "a",
        "method": "nec.table",
        "inputs": {"table": "310.16", "material": "cu", "cells": [{"size": "600", "insulation_c": 60}]},
        "expected": {"ampacity_a": [350]},
    }
    assert prove("cases.json", [case])[0].verdict == "agrees"
