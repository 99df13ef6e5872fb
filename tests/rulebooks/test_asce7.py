"""Branches of the load book that no worked example reaches."""

import pytest

from standfast.faults import NotInEdition, OutsideTable
from standfast.rulebooks.asce7 import combinations, components, wind
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

NOW, BEFORE = edition("asce7", "2022"), edition("asce7", "2016")


def v(number: float, unit: str = "1", symbol: str = "x") -> Value:
    return given(symbol, number, unit, "test")


def at_grade(S_DS: float) -> components.Force:
    H_f, R_mu = components.at_grade(NOW)
    C_AR, R_po = (components.component(NOW, s, c, "battery") for s, c in (("C_AR", "C_AR_grade"), ("R_po", "R_po")))
    return components.force_by_resonance(NOW, v(S_DS), v(1.0), v(300, "lb"), H_f, R_mu, C_AR, R_po)


def test_a_battery_at_grade_is_governed_by_the_minimum() -> None:
    found = at_grade(1.0)
    assert found.governs.word == "minimum"
    assert found.F_p.quantity == pytest.approx(90)


def test_the_maximum_bounds_a_soft_component_high_up() -> None:
    H_f = components.height_factor(NOW, v(1.0), None)
    found = components.force_by_resonance(NOW, v(1), v(1), v(100, "lb"), H_f, v(1.3), v(4), v(1.3))
    assert (found.governs.word, found.F_p.quantity) == ("maximum", 160)


def test_a_missing_acceleration_stays_missing() -> None:
    unknown = missing("S_DS", "1", "state SDS of the site")
    force = components.force_by_resonance(NOW, unknown, v(1), v(300, "lb"), v(1), v(1), v(1), v(1.5))
    assert force.F_p.missing and force.governs.missing


def test_an_unknown_building_takes_the_least_ductility() -> None:
    known = components.ductility_of_building(NOW, v(1.5), v(1), v(2.5))
    assert components.ductility_unknown(NOW).quantity == known.quantity == 1.3


def test_each_edition_keeps_to_its_own_factors() -> None:
    assert components.component(BEFORE, "R_p", "R_p", "cabinet").quantity == 6
    for book, column in ((BEFORE, "R_po"), (NOW, "R_p")):
        with pytest.raises(NotInEdition):
            components.component(book, "x", column, "battery")
    with pytest.raises(OutsideTable):
        components.component(NOW, "x", "R_po", "chimney")


def test_the_weight_that_holds_is_less_and_the_weight_that_pulls_is_more() -> None:
    D, S_DS = v(100, "lb"), v(1.0)
    assert combinations.strength_up(NOW, D, S_DS).quantity == pytest.approx(70)
    assert combinations.strength_down(NOW, D, S_DS).quantity == pytest.approx(140)
    assert combinations.allowable_up(NOW, D, S_DS).quantity == pytest.approx(46)
    assert combinations.allowable_down(NOW, D, S_DS).quantity == pytest.approx(114)
    assert combinations.allowable_earthquake(NOW, D).quantity == pytest.approx(70)
    assert combinations.strength_permanent(NOW, D).quantity == pytest.approx(140)


def test_wind_counts_low_heights_as_the_least_and_ends_at_the_gradient() -> None:
    low, least = (wind.exposure_coefficient(BEFORE, "B", v(z, "m")).quantity for z in (1.0, 4.572))
    assert low == least
    with pytest.raises(OutsideTable):
        wind.exposure_coefficient(BEFORE, "D", v(214, "m"))
    with pytest.raises(OutsideTable):
        wind.exposure_coefficient(BEFORE, "A", v(5, "m"))
    assert wind.exposure_coefficient(BEFORE, "B", missing("z", "m", "measure z")).missing


@pytest.mark.parametrize(("exposure", "printed"), [("B", 0.57), ("C", 0.85), ("D", 1.03)])
def test_low_heights_have_the_two_digits_that_every_print_of_the_table_shows(exposure: str, printed: float) -> None:
    for book in (NOW, BEFORE):
        assert wind.exposure_coefficient(book, exposure, v(1.5, "m")).quantity == pytest.approx(printed, abs=0.006)


def test_wind_on_a_box_by_hand() -> None:
    # 110 mph = 49.1744 m/s, exposure C, up to 15 ft: K_z 0.851, q = 0.613 x 0.851 x 49.17^2 = 1261 Pa;
    # on 1 m2: 1261 x 0.85 x 1.9 = 2037 N, the same as 26.3 lb/ft2 x 0.85 x 1.9 in the units of the print.
    q = wind.pressure_without_direction(NOW, v(49.1744, "m/s"), "C", v(2, "m"), v(1.0))
    assert q.quantity == pytest.approx(1261, rel=1e-3)
    assert q.quantity / 47.880259 == pytest.approx(0.00256 * 0.851 * 110**2, rel=2e-3)
    F = wind.on_box(NOW, q, NOW.bounding("box_coefficient", "test"), v(1.0, "m2"))
    assert F.quantity == pytest.approx(q.quantity * 0.85 * 1.9)
    assert F.inputs and any(value.bounding for value in F.trail())


def test_weight_and_wind_by_hand() -> None:
    D, up = v(100, "lb"), v(20, "lb")
    assert combinations.wind_held(NOW, "strength", D, up).quantity == pytest.approx(0.9 * 100 - 20)
    assert combinations.wind_held(NOW, "allowable", D, up).quantity == pytest.approx(0.6 * 100 - 0.6 * 20)
    assert combinations.wind_held(NOW, "allowable", D, v(900, "lb")).quantity == 0
    assert combinations.wind_down(NOW, "strength", D).quantity == pytest.approx(120)
    assert combinations.with_wind(NOW, "allowable", D).quantity == pytest.approx(60)
