"""Branches of fasteners in wood that no published case reaches."""

import pytest

from standfast.faults import NotInEdition, OutsideTable
from standfast.rulebooks.nds import adjustment, bearing, lateral, withdrawal
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

BOOK = edition("nds", "2018")


def v(number: float, unit: str = "1", symbol: str = "x") -> Value:
    return given(symbol, number, unit, "test")


def joint(theta: float = 0.0, D: float = 0.25, D_r: float = 0.173, shear: str = "single") -> lateral.Joint:
    angle = v(theta, "deg")
    F_em = bearing.strength(BOOK, v(0.42), v(D, "in"), angle, bearing.table_step(BOOK))
    return lateral.Joint(v(D, "in"), v(D_r, "in"), v(D_r, "in"), v(70000, "psi"), v(2, "in"), v(0.25, "in"), F_em,
                         v(87000, "psi"), angle, shear)  # fmt: skip


def test_the_known_table_steps_of_bearing_strength() -> None:
    step = bearing.table_step(BOOK)
    assert bearing.strength(BOOK, v(0.42), v(0.375, "in"), v(0, "deg"), step).quantity == 4700
    assert bearing.strength(BOOK, v(0.42), v(0.375, "in"), v(90, "deg"), step).quantity == pytest.approx(2850)
    assert bearing.strength(BOOK, v(0.42), v(0.19, "in"), v(90, "deg"), step).quantity == 3350


def test_between_along_and_across_the_grain_the_strength_lies_between() -> None:
    values = [bearing.strength(BOOK, v(0.5), v(0.5, "in"), v(a, "deg")).quantity for a in (0, 30, 60, 90)]
    assert values == sorted(values, reverse=True)


def test_the_angle_weakens_a_thick_screw_and_leaves_a_thin_one_alone() -> None:
    assert lateral.strength(BOOK, joint(90)).Z.quantity < lateral.strength(BOOK, joint(0)).Z.quantity
    thin = [lateral.reduction(BOOK, v(0.19, "in"), v(0.152, "in"), v(0.152, "in"), v(a, "deg")) for a in (0, 90)]
    assert thin[0].I.quantity == thin[1].I.quantity == 2.2


def test_a_thick_dowel_takes_its_reduction_by_mode() -> None:
    R_d = lateral.reduction(BOOK, v(0.5, "in"), v(0.371, "in"), v(0.371, "in"), v(90, "deg"))
    assert [each.quantity for each in R_d] == pytest.approx([5.0, 4.5, 4.0])


def test_double_shear_has_four_modes_and_holds_more() -> None:
    single, double = (lateral.strength(BOOK, joint(shear=word)) for word in ("single", "double"))
    assert set(double.modes) == {"Im", "Is", "IIIs", "IV"}
    assert double.Z.quantity > single.Z.quantity


def test_a_missing_diameter_stays_missing() -> None:
    unknown = missing("D", "in", "read the sheet of the screw")
    found = lateral.strength(BOOK, joint()._replace(D=unknown))
    assert found.Z.missing and found.mode == ""
    assert bearing.strength(BOOK, v(0.42), unknown, v(0, "deg")).missing


def test_words_the_book_does_not_know_are_refused() -> None:
    with pytest.raises(NotInEdition):
        withdrawal.per_inch(BOOK, "staple", v(0.42), v(0.1, "in"))
    with pytest.raises(NotInEdition):
        lateral.strength(BOOK, joint(shear="triple"))
    with pytest.raises(OutsideTable):
        adjustment.specific_gravity(BOOK, "oak")


def test_a_screw_that_does_not_reach_the_wood_is_refused() -> None:
    with pytest.raises(OutsideTable):
        withdrawal.holding(BOOK, "lag", v(0.2, "in"), v(0.22, "in"))
    with pytest.raises(OutsideTable):
        lateral.bearing_length(BOOK, v(0.1, "in"), v(0.22, "in"))


def test_unknown_species_takes_the_least_of_the_table_as_a_bounding_value() -> None:
    least = adjustment.specific_gravity_unknown(BOOK, "no grade stamp was read")
    assert least.bounding and least.kind == "assumed"
    every = [float(cell) for cell in BOOK.table("specific_gravity").column("G")]
    assert least.quantity == min(every)


def test_pure_pull_and_pure_shear_are_the_ends_of_the_combined_value() -> None:
    W, Z = v(300, "lb"), v(120, "lb")
    assert adjustment.combined(BOOK, W, Z, v(0, "deg")).quantity == pytest.approx(120)
    assert adjustment.combined(BOOK, W, Z, v(90, "deg")).quantity == pytest.approx(300)


def test_heat_and_permanent_load_weaken() -> None:
    assert adjustment.load_duration(BOOK, "permanent").quantity == 0.9
    assert [adjustment.temperature(BOOK, "dry", v(t, "°C")).quantity for t in (35, 45, 60)] == [1.0, 0.8, 0.7]
    with pytest.raises(OutsideTable):
        adjustment.temperature(BOOK, "dry", v(70, "°C"))


def test_threads_of_long_and_short_lags() -> None:
    assert adjustment.lag_thread(BOOK, v(7, "in")).quantity == 4
    assert adjustment.lag_thread(BOOK, v(1, "in")).quantity == 1
    assert adjustment.lag_thread(BOOK, v(12, "in")).quantity == 6


def test_bending_yield_falls_with_the_diameter_and_ends() -> None:
    values = [adjustment.bending_yield(BOOK, v(d, "in")).quantity for d in (0.12, 0.15, 0.19, 0.242, 0.3, 0.36)]
    assert values == [100000, 90000, 80000, 70000, 60000, 45000]
    for wrong in (0.05, 0.5):
        with pytest.raises(OutsideTable):
            adjustment.bending_yield(BOOK, v(wrong, "in"))
