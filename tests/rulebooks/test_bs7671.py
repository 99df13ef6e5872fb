"""BS 7671 and the British network procedures on invented figures."""

import pytest

from standfast import shelf
from standfast.faults import OutsideTable
from standfast.rulebooks.bs7671 import cables, earth_fault, loads
from standfast.rulebooks.erec import route
from standfast.sheet import Value, given, missing

BOOK = shelf.edition("bs7671", "2018-a2")
EREC = shelf.edition("erec", "2019")


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def test_loop_impedance_and_its_limits() -> None:
    assert earth_fault.loop_impedance(BOOK, of(0.2, "ohm"), of(0.4, "ohm")).quantity == pytest.approx(0.6)
    z = earth_fault.greatest_loop_impedance(BOOK, "d", of(20, "A"), of(230, "V"), of(0.95, "1"))
    assert z.quantity == pytest.approx(230 * 0.95 / (20 * 20))
    assert earth_fault.cold_reading_limit(BOOK, z).quantity == pytest.approx(0.8 * z.quantity)
    with pytest.raises(OutsideTable):
        earth_fault.greatest_loop_impedance(BOOK, "z", of(20, "A"), of(230, "V"), of(1, "1"))


def test_adiabatic_up_to_its_longest_time() -> None:
    fault = earth_fault.earth_fault_current(BOOK, of(230, "V"), of(0.5, "ohm"))
    area = earth_fault.least_protective_conductor(BOOK, fault, of(0.1, "s"), of(143, "A s^0.5/mm2"))
    assert area.quantity == pytest.approx(460 * 0.1**0.5 / 143)
    with pytest.raises(OutsideTable, match="5 s"):
        earth_fault.least_protective_conductor(BOOK, fault, of(6, "s"), of(143, "A s^0.5/mm2"))


@pytest.mark.parametrize(("multiple", "longest"), [(1, 300), (1.5, 300), (2, 150), (5, 40), (10, 40)])
def test_tripping_time_of_the_point_at_or_below(multiple: float, longest: float) -> None:
    assert earth_fault.longest_tripping_time(BOOK, "general", of(multiple, "1")).quantity == longest


def test_no_tripping_time_below_the_rated_residual_current() -> None:
    with pytest.raises(OutsideTable):
        earth_fault.longest_tripping_time(BOOK, "general", of(0.5, "1"))


@pytest.mark.parametrize(
    ("low_voltage", "volts", "sensitive", "limits"),
    [
        (True, 230, False, (500, 1)),
        (True, 500, False, (500, 1)),
        (True, 690, False, (1000, 1)),
        (True, 690, True, (250, 1)),
        (False, 24, False, (250, 0.5)),
        (False, 24, True, (250, 0.5)),
    ],
)
def test_insulation_rows(low_voltage: bool, volts: float, sensitive: bool, limits: tuple[float, float]) -> None:
    row = earth_fault.insulation_row(BOOK, low_voltage, of(volts, "V"), sensitive)
    assert tuple(each.quantity for each in earth_fault.insulation_limits(BOOK, row)) == limits


def test_a_circuit_above_extra_low_voltage_is_no_selv() -> None:
    with pytest.raises(OutsideTable, match="SELV"):
        earth_fault.insulation_row(BOOK, False, of(230, "V"), False)
    row = earth_fault.insulation_row(BOOK, True, missing("U", "V", "the voltage"), False)
    assert all(each.missing for each in earth_fault.insulation_limits(BOOK, row))


def test_assembly_and_cooker() -> None:
    assert earth_fault.sources_and_supply(BOOK, of(80, "A"), of(16, "A")).quantity == 96
    assert loads.cooker_demand(BOOK, of(8, "A"), False).quantity == 8
    assert loads.cooker_demand(BOOK, of(20, "A"), True).quantity == pytest.approx(10 + 3 + 5)


def test_cable_tables_and_factors() -> None:
    tabulated = cables.tabulated_current(BOOK, "4D5", "C", 2, of(6, "mm2"))
    factor = cables.combined_factor(BOOK, [of(0.9, "1"), of(0.8, "1"), of(0.5, "1")])
    assert factor.quantity == pytest.approx(0.36)
    assert cables.effective_current(BOOK, tabulated, factor).quantity == pytest.approx(47 * 0.36)
    assert cables.combined_factor(BOOK, []).quantity == 1
    drop = cables.drop_per_ampere_metre(BOOK, "70 °C thermoplastic", "single phase", of(10, "mm2"))
    assert (drop.quantity, drop.unit) == (4.4, "mV/A/m")
    with pytest.raises(OutsideTable):
        cables.tabulated_current(BOOK, "4D5", "C", 2, of(5, "mm2"))


def test_cells_from_memory_say_so() -> None:
    assert cables.tabulated_current(BOOK, "4D5", "101", 2, of(6, "mm2")).seen == "memory"
    assert cables.tabulated_current(BOOK, "4D5", "C", 2, of(6, "mm2")).seen == "secondary"


@pytest.mark.parametrize(("power_w", "found"), [(3680, route.NOTIFY), (3690, route.APPLY)])
def test_network_procedure(power_w: float, found: str) -> None:
    voltage, phases = of(230, "V"), of(1, "1")
    assert route.route(EREC, route.current_per_phase(of(power_w, "W"), voltage, phases)).word == found


def test_three_phases_carry_three_times_the_power() -> None:
    per_phase = route.limit_per_phase(EREC, of(230, "V"))
    assert route.limit(EREC, per_phase, of(3, "1")).quantity == pytest.approx(3 * per_phase.quantity)
