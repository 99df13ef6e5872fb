"""Fault currents with resistance and reactance apart, on figures worked out by hand and by complex numbers."""

import cmath
import math

import pytest

from standfast import shelf
from standfast.faults import OutsideTable
from standfast.rulebooks.handbook import fault_path as path
from standfast.rulebooks.handbook.fault_path import Impedance
from standfast.rulebooks.iec60909 import network
from standfast.sheet import Value, given, missing

BOOK, IEC = shelf.edition("handbook", "2026"), shelf.edition("iec60909", "2016")
LOW, HIGH = BOOK.number("impedance_tolerance"), BOOK.number("impedance_tolerance_high")


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def pole(z: float = 1.5, factor: Value = LOW, q: float = 1.5, kva: float = 25) -> Impedance:
    """A pole transformer of 240 V."""
    return path.of_transformer(BOOK, of(kva, "kVA"), of(240, "V"), of(z, "%"), factor, of(q, "1"))


def ohm(piece: Impedance) -> complex:
    """In ohm."""
    return complex(piece.r.quantity, piece.x.quantity) / 1000


def test_pitfall_36_the_tolerance_of_a_marked_impedance_goes_both_ways() -> None:
    # 25 kVA / 240 V = 104.2 A; / (0.015 × 0.9) = 7.716 kA, / (0.015 × 1.1) = 6.313 kA.
    assert path.in_loop(BOOK, of(240, "V"), pole()).quantity == pytest.approx(7.716049)
    assert path.in_loop(BOOK, of(240, "V"), pole(factor=HIGH)).quantity == pytest.approx(6.313131)


def test_pitfall_31_models_of_the_half_winding_differ_between_four_thirds_and_five_thirds() -> None:
    def multiple(q: float) -> float:
        winding = pole(q=q)
        whole = path.in_loop(BOOK, of(240, "V"), winding).quantity
        return path.in_loop(BOOK, of(120, "V"), path.half_winding(BOOK, winding)).quantity / whole

    assert multiple(0) == pytest.approx(4 / 3)
    assert multiple(1e6) == pytest.approx(BOOK.number("half_winding_bound").quantity)
    assert 4 / 3 < multiple(1) < multiple(2) < 5 / 3
    plain = path.in_loop(BOOK, of(120, "V"), path.by_multiple(BOOK, pole())).quantity
    assert plain == pytest.approx(1.5 * 7.716049)


def test_pitfall_31_further_away_the_loop_to_neutral_has_less_current() -> None:
    def both(feet: float) -> tuple[float, float]:
        one = path.of_conductor(BOOK, of(0.49, "ohm/kft"), of(0.051, "ohm/kft"), of(feet, "ft"), of(1, "1"))
        lines = path.in_series(BOOK, [pole(), one, one])
        neutral = path.in_series(BOOK, [path.half_winding(BOOK, pole()), one, one])
        return path.in_loop(BOOK, of(240, "V"), lines).quantity, path.in_loop(BOOK, of(120, "V"), neutral).quantity

    near, far = both(0), both(150)
    assert near[1] > near[0]
    assert far[1] < far[0]


def test_pitfall_32_two_lines_of_three_phases_carry_less_than_three() -> None:
    phase = Impedance(of(3, "mohm"), of(4, "mohm"))
    three = path.three_phase(BOOK, of(208, "V"), phase).quantity
    assert three == pytest.approx(208 / math.sqrt(3) / 5)
    assert path.two_phase(BOOK, of(208, "V"), phase).quantity == pytest.approx(three * math.sqrt(3) / 2)


def test_pitfall_33_the_vector_sum_is_never_below_that_of_magnitudes() -> None:
    source = path.of_current(BOOK, of(240, "V"), of(9, "kA"), of(5, "1"))
    run = path.of_conductor(BOOK, of(0.78, "ohm/kft"), of(0.05, "ohm/kft"), of(60, "ft"), of(1, "1"))
    whole = path.in_series(BOOK, [source, run])
    assert ohm(whole) == pytest.approx(ohm(source) + ohm(run))
    vector = path.in_loop(BOOK, of(240, "V"), whole).quantity
    plain = 0.24 / (abs(ohm(source)) + abs(ohm(run)))
    assert vector > plain
    assert vector == pytest.approx(0.24 / abs(ohm(source) + ohm(run)))


def test_a_stated_current_comes_back_at_its_ratio() -> None:
    found = path.of_current(BOOK, of(240, "V"), of(10, "kA"), of(1.2, "1"))
    assert path.in_loop(BOOK, of(240, "V"), found).quantity == pytest.approx(10)
    assert cmath.phase(ohm(found)) == pytest.approx(math.atan(1.2))


def test_the_grid_ahead_of_a_transformer_lowers_its_current() -> None:
    grid = path.of_level(BOOK, of(240, "V"), of(100_000, "kVA"), of(5, "1"))
    assert abs(ohm(grid)) == pytest.approx(0.24**2 / 100)
    behind = path.in_loop(BOOK, of(240, "V"), path.in_series(BOOK, [grid, pole()])).quantity
    assert behind < path.in_loop(BOOK, of(240, "V"), pole()).quantity


@pytest.mark.parametrize(("metal", "warm"), [("cu", 309.5 / 254.5), ("al", 303.1 / 248.1)])
def test_a_hot_conductor_has_more_resistance(metal: str, warm: float) -> None:
    found = path.at_temperature(BOOK, metal, of(1, "ohm/kft"), of(20, "°C"), of(75, "°C"))
    assert found.quantity == pytest.approx(warm)
    assert found.unit == "ohm/kft"


def test_conductors_in_parallel_and_units_of_length() -> None:
    feet = path.of_conductor(BOOK, of(0.3, "ohm/kft"), of(0.06, "ohm/kft"), of(50, "ft"), of(2, "1"))
    assert ohm(feet) == pytest.approx(complex(0.3, 0.06) * 0.05 / 2)
    metres = path.of_conductor(BOOK, of(1.83, "mohm/m"), of(0.08, "mohm/m"), of(20, "m"), of(1, "1"))
    assert ohm(metres) == pytest.approx(complex(0.0366, 0.0016))


@pytest.mark.parametrize(
    ("kva", "volts", "z", "factor"),
    [(0, 240, 2, 1), (-25, 240, 2, 1), (25, 0, 2, 1), (25, 240, 0, 1), (25, 240, 100, 1), (25, 240, 2, 0),
     (25, 240, 2, -0.2)],
)  # fmt: skip
def test_a_transformer_that_cannot_exist_is_refused(kva: float, volts: float, z: float, factor: float) -> None:
    with pytest.raises(OutsideTable, match=r"no such transformer|is none"):
        path.of_transformer(BOOK, of(kva, "kVA"), of(volts, "V"), of(z, "%"), of(factor, "1"), of(1, "1"))


def test_what_has_no_finite_current_is_refused() -> None:
    with pytest.raises(OutsideTable):
        path.in_loop(BOOK, of(240, "V"), path.none("nothing"))
    with pytest.raises(OutsideTable):
        path.of_current(BOOK, of(240, "V"), of(0, "kA"), of(1, "1"))
    with pytest.raises(OutsideTable):
        path.of_level(BOOK, of(240, "V"), of(-1, "kVA"), of(1, "1"))
    with pytest.raises(OutsideTable):
        path.of_conductor(BOOK, of(1, "ohm/kft"), of(0, "ohm/kft"), of(10, "ft"), of(0, "1"))
    with pytest.raises(OutsideTable):
        path.of_conductor(BOOK, of(1, "ohm/kft"), of(0, "ohm/kft"), of(-1, "ft"), of(1, "1"))


def test_a_missing_piece_leaves_the_current_unknown() -> None:
    whole = path.in_series(BOOK, [pole(), path.unknown("routes.x.length")])
    found = path.in_loop(BOOK, of(240, "V"), whole)
    assert found.missing
    assert "routes.x.length" in found.how
    unsaid = path.of_current(BOOK, of(240, "V"), of(9, "kA"), missing("q", "1", "supply.fault_x_over_r"))
    assert not path.told([unsaid])


def test_pitfall_37_the_voltage_factor_is_part_of_every_answer() -> None:
    r, x, volts = of(10, "mohm"), of(20, "mohm"), of(400, "V")
    found = [
        network.three_phase(IEC, network.voltage_factor(IEC, end), volts, r, x).quantity
        for end in ("greatest", "greatest, wide tolerance", "least")
    ]
    plain = 400 / math.sqrt(3) / math.hypot(10, 20)
    assert found == pytest.approx([1.05 * plain, 1.1 * plain, 0.95 * plain])


def test_a_network_and_a_transformer_of_iec_60909() -> None:
    c = network.voltage_factor(IEC, "greatest")
    z = network.network(IEC, c, of(400, "V"), of(10, "kA"))
    assert z.quantity == pytest.approx(1.05 * 400 / math.sqrt(3) / 10)
    u_k = network.transformer(IEC, of(630, "kVA"), of(400, "V"), of(4, "%"))
    assert u_k.quantity == pytest.approx(0.04 * 400**2 / 630)
    assert network.correction(IEC, c, of(0.038, "1")).quantity == pytest.approx(0.95 * 1.05 / (1 + 0.6 * 0.038))
    with pytest.raises(OutsideTable):
        network.transformer(IEC, of(630, "kVA"), of(400, "V"), of(0, "%"))
    with pytest.raises(OutsideTable):
        network.network(IEC, c, of(400, "V"), of(0, "kA"))


def test_unbalanced_faults_of_iec_60909() -> None:
    c, volts, r, x = network.voltage_factor(IEC, "least"), of(400, "V"), of(30, "mohm"), of(12, "mohm")
    three = network.three_phase(IEC, c, volts, r, x).quantity
    assert network.line_to_line(IEC, c, volts, r, x).quantity == pytest.approx(three * math.sqrt(3) / 2)
    assert network.line_to_earth(IEC, c, volts, r, x, r, x).quantity == pytest.approx(three)
    far = network.line_to_earth(IEC, c, volts, r, x, of(120, "mohm"), of(40, "mohm")).quantity
    assert far == pytest.approx(math.sqrt(3) * 0.95 * 400 / math.hypot(180, 64))
    nothing = of(0, "mohm")
    with pytest.raises(OutsideTable):
        network.line_to_earth(IEC, c, volts, nothing, nothing, nothing, nothing)
