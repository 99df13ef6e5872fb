"""Arrays on the inputs of the inverter: currents and voltages worked by hand, and what fails."""

import pytest
from dc_job import CABINET, STACK, Changes, asked, task_of

from standfast.design.wiring import pv


def test_what_comes_down_from_the_roof() -> None:
    (found,) = pv.plans(task_of(STACK))
    # 5 °F = −15 °C: 9 × 40 V × (1 + 0.0027 × 40) = 398.88 V; 1.25 × 11 A = 13.75 A; 1.25 × 13.75 A = 17.19 A.
    assert found.voltage.quantity == pytest.approx(398.88)
    assert found.current.quantity == 13.75
    assert found.circuit.need.before.quantity == pytest.approx(17.1875)
    # 12 AWG: 25 A at 75 °C; wet THWN-2 90 °C column 30 A × 0.82 at 120 °F = 24.6 A.
    assert found.circuit.conductor.size.word == "12"
    assert found.circuit.conductor.carried.after_factors.quantity == pytest.approx(30 * 0.82)
    # The device that would protect it: 20 A, so a ground of 12 AWG.
    assert found.circuit.need.device.quantity == 20
    assert found.circuit.ground.word == "12"


def test_the_array_passes() -> None:
    found = {id: check.verdict for id, check in asked(STACK).items() if "roof" in id}
    assert len(found) == 16
    assert set(found.values()) == {"pass"}


def test_without_the_coefficient_the_table_of_the_code_answers() -> None:
    (found,) = pv.plans(task_of(STACK, {'voltage_rise = "0.27 %"\n': ""}))
    assert found.voltage.quantity == pytest.approx(360 * 1.16)  # −11 to −15 °C
    assert str(found.voltage.clause) == "NEC 2023 Table 690.7(A)"


FAULTY: list[tuple[str, Changes, dict[str, Changes], str]] = [
    ("pv-voltage", {"modules = 9": "modules = 14"}, {}, "690.7"),  # 14 × 44.32 V = 620.5 V
    ("pv-input-voltage", {}, {"inverter": {'voltage_max = "600 V"': 'voltage_max = "390 V"'}}, "110.3(B)"),
    ("pv-input-current", {'current = "11 A"': 'current = "17 A"'}, {}, "110.3(B)"),  # 21.25 A on 20 A
    ("pv-input-strings", {"strings = 1": "strings = 2"}, {}, "110.3(B)"),
    ("pv-overcurrent", {"strings = 1": "strings = 3"}, {}, "690.9(A)"),
    ("pv-arc-fault", {}, {"inverter": {"arc_fault = true": "arc_fault = false"}}, "690.11"),
    ("pv-ground-fault", {}, {"inverter": {"ground_fault = true": "ground_fault = false"}}, "690.41(B)"),
    ("pv-rapid-shutdown", {"rapid_shutdown = true": "rapid_shutdown = false"}, {}, "690.12"),
]


@pytest.mark.parametrize(("id", "job", "sheets", "clause"), FAULTY, ids=[each[0] for each in FAULTY])
def test_what_an_array_may_not_be(id: str, job: Changes, sheets: dict[str, Changes], clause: str) -> None:
    found = asked(STACK, job, **sheets)[f"{id}/roof"]
    assert found.verdict == "fail"
    assert str(found.clause) == f"NEC 2023 {clause}"


MISSING: list[tuple[str, Changes, dict[str, Changes], str]] = [
    ("pv-voltage", {'temperature_low = "5 °F"': ""}, {}, "conditions.temperature_low"),
    ("pv-input-current", {'short_circuit_current = "11 A"': ""}, {}, "arrays.roof.short_circuit_current"),
    ("pv-input-voltage", {'input = "pv-1"\n': ""}, {}, "arrays.roof.input"),
    ("pv-rapid-shutdown", {"rapid_shutdown = true\n": ""}, {}, "arrays.roof.rapid_shutdown"),
    ("pv-shutdown-place", {'kind = "emergency shutdown"': 'kind = "gas meter"'}, {}, "land.marks"),
    ("pv-arc-fault", {}, {"inverter": {"arc_fault = true\n": ""}}, "arc_fault"),
    ("pv-disconnect", {}, {"inverter": {"pv_switch_inside = true\n": ""}}, "pv_switch_inside"),
    ("pv-disconnect", {}, {"inverter": {"pv_switch_inside = true": "pv_switch_inside = false"}}, "no switch for PV"),
]


@pytest.mark.parametrize(("id", "job", "sheets", "word"), MISSING, ids=[each[0] for each in MISSING])
def test_a_fact_that_is_not_known_is_named(id: str, job: Changes, sheets: dict[str, Changes], word: str) -> None:
    found = asked(STACK, job, **sheets)[f"{id}/roof"]
    assert found.verdict == "cannot tell"
    assert word in found.reason


def test_an_inverter_without_such_an_input_cannot_tell() -> None:
    assert asked(CABINET)["pv-input-voltage/roof"].verdict == "cannot tell"


def test_two_arrays_on_one_input_are_counted_together() -> None:
    second = JOB_PART.replace('id = "roof"', 'id = "roof-east"')
    found = asked(STACK, {"[tolerances]": f"{second}\n[tolerances]"})
    assert found["pv-input-strings/roof"].verdict == "fail"
    assert found["pv-input-current/roof-east"].demand is not None
    assert found["pv-input-current/roof-east"].demand.quantity == 27.5


JOB_PART = """[[arrays]]
id = "roof"
input = "pv-1"
modules = 9
strings = 1
open_circuit_voltage = "40 V"
short_circuit_current = "11 A"
rapid_shutdown = true
"""


def test_the_ground_of_an_array_does_not_grow_with_its_conductors() -> None:
    before = 'other_current_carrying = 0\nstate = "new"\nsections'
    larger = {before: before.replace("state", 'conductors = { size = "8" }\nstate')}
    (found,) = pv.plans(task_of(STACK, larger))
    assert (found.circuit.conductor.size.word, found.circuit.conductor.least.word) == ("8", "12")
    assert found.circuit.ground.word == "12"
