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
    with pytest.raises(NotInEdition):
        wind.exposure_coefficient(NOW, "B", v(5, "m"))
    assert wind.exposure_coefficient(BEFORE, "B", missing("z", "m", "measure z")).missing
