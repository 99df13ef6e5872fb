"""Fault currents on invented figures."""

import math

import pytest

from standfast import shelf
from standfast.faults import OutsideTable
from standfast.rulebooks.handbook import fault_current as faults
from standfast.rulebooks.iec60909 import peak
from standfast.sheet import Value, given, missing

BOOK = shelf.edition("handbook", "2026")
IEC = shelf.edition("iec60909", "2016")


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def test_transformer_and_tolerance() -> None:
    found = faults.at_transformer(BOOK, False, of(25_000, "VA"), of(240, "V"), of(0.02, "1"), of(1, "1"))
    assert found.full_load.quantity == pytest.approx(25_000 / 240)
    assert found.fault.quantity == pytest.approx(25_000 / 240 / 0.02)
    strong = faults.at_transformer(BOOK, False, of(25_000, "VA"), of(240, "V"), of(0.02, "1"), of(0.9, "1"))
    assert strong.fault.quantity == pytest.approx(found.fault.quantity / 0.9)


def test_a_run_of_three_phases_goes_one_way_a_single_phase_run_both() -> None:
    same = of(10_000, "A"), of(240, "V"), of(2000, "ft/ohm"), of(1, "1"), of(30, "ft")
    one = faults.along_run(BOOK, "single_phase_line_line", *same)
    three = faults.along_run(BOOK, "three_phase", *same)
    assert one.f.quantity == pytest.approx(three.f.quantity * 2 / math.sqrt(3))
    assert one.fault.quantity == pytest.approx(10_000 / (1 + 2 * 30 * 10_000 / (2000 * 240)))


def test_chain_adds_r_and_x_apart_and_parallel_runs_divide() -> None:
    cable = faults.Cable(of(0.5, "mohm/m"), of(0.1, "mohm/m"), of(20, "m"), of(2, "1"))
    found = faults.chain(BOOK, of(400, "V"), of(3, "mohm"), of(9, "mohm"), [cable])
    assert found.r.quantity == 8
    assert found.x.quantity == 10
    assert found.fault.quantity == pytest.approx(400 / math.sqrt(3) / math.hypot(8, 10))
    with pytest.raises(OutsideTable, match="no impedance"):
        faults.chain(BOOK, of(400, "V"), of(0, "mohm"), of(0, "mohm"), [])


def test_the_peak_factor_runs_between_its_limits() -> None:
    assert peak.kappa(IEC, of(0, "mohm"), of(5, "mohm")).quantity == pytest.approx(2.0)
    assert peak.kappa(IEC, of(5, "mohm"), of(0, "mohm")).quantity == pytest.approx(1.02)
    kappa = peak.kappa(IEC, of(2, "mohm"), of(4, "mohm"))
    assert kappa.quantity == pytest.approx(1.02 + 0.98 * math.exp(-1.5))
    assert kappa.clause is not None
    assert kappa.clause.book == "IEC 60909-0"
    assert peak.peak_current(IEC, kappa, of(10, "kA")).quantity == pytest.approx(kappa.quantity * math.sqrt(2) * 10)


def test_source_impedance_and_line_to_neutral() -> None:
    assert faults.source_impedance(BOOK, of(400, "V"), of(20_000, "kVA")).quantity == pytest.approx(8.0)
    assert faults.line_to_neutral(BOOK, of(8000, "A"), of(1.5, "1")).quantity == 12_000


def test_an_unknown_length_leaves_the_fault_unknown() -> None:
    same = of(10_000, "A"), of(240, "V"), of(2000, "ft/ohm"), of(1, "1")
    assert faults.along_run(BOOK, "three_phase", *same, missing("L", "ft", "the length of the run")).fault.missing
