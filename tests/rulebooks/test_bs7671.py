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


# Table 41.3, as published: curve, rating and greatest loop impedance.
RATINGS = (6, 10, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125)
PRINTED = {
    "b": (7.28, 4.37, 2.73, 2.19, 1.75, 1.37, 1.09, 0.87, 0.69, 0.55, 0.44, 0.35),
    "c": (3.64, 2.19, 1.37, 1.09, 0.87, 0.68, 0.55, 0.44, 0.35, 0.27, 0.22, 0.17),
    "d": (1.82, 1.09, 0.68, 0.55, 0.44, 0.34, 0.27, 0.22, 0.17, 0.14, 0.11, 0.09),
}
CELLS = [(curve, rating, z) for curve, row in PRINTED.items() for rating, z in zip(RATINGS, row, strict=True)]


@pytest.mark.parametrize(("curve", "rating", "printed"), CELLS)
def test_the_table_of_loop_impedances_comes_out_of_its_formula(curve: str, rating: int, printed: float) -> None:
    c_min = BOOK.number("voltage_factor_min")
    z = earth_fault.greatest_loop_impedance(BOOK, curve, of(rating, "A"), of(230, "V"), c_min)
    assert abs(z.quantity - printed) < 0.01  # the table rounds down or to nearest, not always alike


FLAT, ARMOURED = "70 °C thermoplastic, flat with protective conductor", "90 °C thermosetting, armoured"


def test_thermosetting_cables_are_taken_at_the_current_of_70_degrees() -> None:
    for cable, table in ((ARMOURED, "4D4A"), ("90 °C thermosetting, singles in conduit", "4D1A")):
        method = "C" if table == "4D4A" else "B"
        here = cables.current_of(BOOK, cable, method, 2, of(6, "mm2")).quantity
        assert here == cables.tabulated_current(BOOK, table, method, 2, of(6, "mm2")).quantity


def test_a_cooler_conductor_drops_less_and_a_full_one_as_the_table_says() -> None:
    full = cables.drop_temperature_factor(BOOK, FLAT, of(47, "A"), of(47, "A"), of(1, "1"))
    half = cables.drop_temperature_factor(BOOK, FLAT, of(23.5, "A"), of(47, "A"), of(1, "1"))
    assert full.quantity == pytest.approx(1)
    assert half.quantity == pytest.approx((230 + 70 - 0.75 * 40) / 300)
    assert cables.drop_temperature_factor(BOOK, ARMOURED, of(5, "A"), of(47, "A"), of(1, "1")).quantity == 1


def test_conductors_that_a_fault_finds_warm() -> None:
    assert cables.warm_factor(BOOK, FLAT).quantity == pytest.approx(1.2)
    assert cables.warm_factor(BOOK, ARMOURED).quantity == pytest.approx(1.28)
    assert cables.resistance(BOOK, of(10, "mm2")).quantity == 1.83


@pytest.mark.parametrize(("area", "protective"), [(10, 10), (16, 16), (25, 16), (35, 16), (50, 25)])
def test_protective_conductor_by_selection(area: float, protective: float) -> None:
    assert earth_fault.protective_by_selection(BOOK, of(area, "mm2")).quantity == protective


def test_flat_cable_has_the_protective_conductor_that_it_is_made_with() -> None:
    assert earth_fault.protective_of_cable(BOOK, FLAT, of(10, "mm2")).quantity == 4
    assert earth_fault.protective_of_cable(BOOK, ARMOURED, of(10, "mm2")).quantity == 10
    assert earth_fault.protective_of_cable(BOOK, ARMOURED, missing("S", "mm2", "its area")).missing


@pytest.mark.parametrize(("system", "circuit", "longest"), [
    ("TN-S", "final", 0.4), ("TN-C-S", "final", 0.4), ("TN-S", "distribution", 5), ("TT", "final", 0.2),
    ("TT", "distribution", 1),
])  # fmt: skip
def test_disconnection_times(system: str, circuit: str, longest: float) -> None:
    assert earth_fault.disconnection_time(BOOK, system, circuit).quantity == longest


def test_energy_let_through_has_rows_up_to_32_ampere() -> None:
    assert earth_fault.let_through_energy(BOOK, "B", of(20, "A"), of(6000, "A")).quantity == 45000
    assert earth_fault.let_through_energy(BOOK, "B", of(16, "A"), of(6000, "A")).quantity == 35000
    with pytest.raises(OutsideTable):
        earth_fault.let_through_energy(BOOK, "B", of(40, "A"), of(6000, "A"))


@pytest.mark.parametrize(
    ("ambient", "factor"), [(10, 1.03), (25, 1.03), (26, 1.0), (31, 0.94), (40, 0.87), (40.1, 0.79)]
)
def test_ambient_factor_of_the_hotter_row(ambient: float, factor: float) -> None:
    assert cables.ambient_factor(BOOK, FLAT, of(ambient, "°C")).quantity == factor


def test_air_above_the_last_row_is_refused() -> None:
    with pytest.raises(OutsideTable):
        cables.ambient_factor(BOOK, FLAT, of(61, "°C"))


def test_an_amendment_leaves_alone_what_it_does_not_name() -> None:
    amended = shelf.edition("bs7671", "2018-a3")
    assert amended.clause("residual_direction").clause == "530.3.201"
    assert BOOK.clause("residual_direction").clause != "530.3.201"
    assert amended.number("cold_reading").quantity == BOOK.number("cold_reading").quantity
    assert amended.number("cold_reading").clause is not None
    assert str(amended.number("cold_reading").clause).startswith("BS 7671 2018-a3")
    rows = [shelf.edition("bs7671", each).table("current_capacity").rows for each in ("2018-a2", "2018-a3")]
    assert rows[0] == rows[1]
    states = [
        {each["clause"]: each["state"] for each in book.coverage["clause"]}["530.3.201"] for book in (BOOK, amended)
    ]
    assert states == ["not done", "done"]


def test_cables_have_the_currents_of_the_international_table() -> None:
    """The columns A2, B2 and C of multicore cables, A1 and B1 of singles, are the same there."""
    iec = shelf.edition("iec60364", "2009").table("capacity")
    same = {("4D2A", "A"): "A2", ("4D2A", "B"): "B2", ("4D2A", "C"): "C", ("4D1A", "A"): "A1", ("4D1A", "B"): "B1"}
    compared = 0
    for row in BOOK.table("current_capacity").rows:
        column = same.get((str(row["table"]), str(row["method"])))
        if column is not None:
            there = iec.pick("I", "current", insulation="pvc70", loaded=row["loaded"], column=column, area=row["area"])
            assert there.quantity == row["I_t"], row
            compared += 1
    assert compared > 60


def test_ambient_and_grouping_are_those_of_the_international_table_but_in_cool_air() -> None:
    iec = shelf.edition("iec60364", "2009")
    for row in BOOK.table("ambient").rows:
        kind = {"70 °C thermoplastic": "pvc70", "90 °C thermosetting": "xlpe90"}[str(row["insulation"])]
        there = iec.table("ambient").pick("C", "factor", insulation=kind, ambient=row["ambient"]).quantity
        assert there == row["C_a"] or (row["ambient"] == 25 and there > float(row["C_a"])), row
