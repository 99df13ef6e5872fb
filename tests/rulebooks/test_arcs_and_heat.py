"""Arcs of direct current, discharge, temperature differences, dead buses."""

import math

import pytest

from standfast import shelf
from standfast.faults import BadFormula, NotInEdition, OutsideTable
from standfast.rulebooks.dc_arcs import steady_arc
from standfast.rulebooks.handbook import discharge, field_bus, grid_side
from standfast.rulebooks.iso11898 import terminators
from standfast.rulebooks.neta import thermal
from standfast.rulebooks.nfpa70e import dc_arc
from standfast.sheet import Value, given, missing

ARCS, E70 = shelf.edition("dc_arcs", "2010"), shelf.edition("nfpa70e", "undated")
HANDBOOK, NETA = shelf.edition("handbook", "2026"), shelf.edition("neta", "undated")
BUS = shelf.edition("iso11898", "undated")


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def arc(voltage: float, fault: float, gap: float) -> steady_arc.Arc:
    return steady_arc.arc(ARCS, of(voltage, "V"), of(fault, "A"), of(gap, "mm"), of(1, "s"))


def test_circuit_and_arc_balance() -> None:
    found = arc(300, 2000, 20)
    assert found.resistance is not None
    current = found.current.quantity
    assert current * (300 / 2000 + found.resistance.quantity) == pytest.approx(300, rel=1e-9)


def test_no_sustained_arc_is_an_answer() -> None:
    found = arc(30, 20_000, 40)
    assert (found.current.quantity, found.resistance, found.energy) == (0, None, None)
    assert "no sustained arc" in found.current.how


def test_a_missing_gap_leaves_the_arc_unknown() -> None:
    found = steady_arc.arc(ARCS, of(300, "V"), of(2000, "A"), missing("g", "mm", "measure the gap"), of(1, "s"))
    assert found.current.missing
    assert found.energy is None


@pytest.mark.parametrize(("voltage", "fault", "gap"), [(0, 100, 1), (100, 0, 1), (100, -5, 1), (100, 100, -1)])
def test_a_circuit_that_is_none_is_refused(voltage: float, fault: float, gap: float) -> None:
    with pytest.raises(OutsideTable):
        arc(voltage, fault, gap)


def test_the_boundary_is_where_the_energy_is_the_one_asked_for() -> None:
    voltage, time, current = of(90, "V"), of(0.5, "s"), dc_arc.arc_current(E70, of(4000, "A"))
    edge = dc_arc.boundary(E70, voltage, current, time, of(2, "cal/cm2"))
    assert dc_arc.incident_energy(E70, voltage, current, time, edge).quantity == pytest.approx(2)


def test_a_discharge_of_one_time_constant() -> None:
    time = discharge.time(HANDBOOK, of(math.e * 10, "V"), of(2e4, "ohm"), of(1e-3, "F"), of(10, "V"))
    assert time.quantity == pytest.approx(20)


def test_a_voltage_below_the_target_needs_no_time_and_zero_is_never_reached() -> None:
    assert discharge.time(HANDBOOK, of(5, "V"), of(1e5, "ohm"), of(1e-3, "F"), of(10, "V")).quantity == 0
    with pytest.raises(BadFormula):
        discharge.time(HANDBOOK, of(5, "V"), of(1e5, "ohm"), of(1e-3, "F"), of(0, "V"))


def test_terminators_in_parallel_and_none() -> None:
    assert field_bus.in_parallel(HANDBOOK, [of(90, "ohm"), of(45, "ohm")]).quantity == pytest.approx(30)
    with pytest.raises(OutsideTable, match="open"):
        field_bus.in_parallel(HANDBOOK, [])


@pytest.mark.parametrize(("fitted", "word"), [(1, "one_terminator"), (2, "two_terminators"), (4, "three_or_more")])
def test_what_is_fitted_is_what_is_told(fitted: int, word: str) -> None:
    reading = field_bus.in_parallel(HANDBOOK, [of(120, "ohm")] * fitted)
    assert terminators.diagnosis(BUS, reading).word.startswith(word)


@pytest.mark.parametrize("reading", [72.0, 89.0, 140.0, 199.0])
def test_between_two_bands_a_reading_tells_nothing(reading: float) -> None:
    with pytest.raises(NotInEdition):
        terminators.diagnosis(BUS, of(reading, "ohm"))


def test_a_resistance_below_zero_is_refused() -> None:
    with pytest.raises(OutsideTable):
        terminators.diagnosis(BUS, of(-1, "ohm"))


def test_between_two_rows_a_difference_falls_in_the_worse_one() -> None:
    found = thermal.judge(NETA, "ambient", of(10.5, "K"))
    assert found.meaning.word == "probable_deficiency"
    assert found.greatest is not None
    assert found.greatest.quantity > 10.5
    assert found.above is None


def test_a_difference_that_the_table_does_not_know() -> None:
    with pytest.raises(OutsideTable):
        thermal.judge(NETA, "similar", of(0.4, "K"))
    assert thermal.judge(NETA, "similar", missing("dT", "K", "measure it")).meaning.missing


def test_a_share_of_the_nominal_voltage_and_the_balance() -> None:
    assert grid_side.volts(HANDBOOK, of(0.5, "pu"), of(240, "V")).quantity == 120
    assert grid_side.export(HANDBOOK, of(100, "W"), of(700, "W")).quantity == -600
