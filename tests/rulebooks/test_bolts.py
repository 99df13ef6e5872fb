"""Torque and strength of bolts: the band of reason around a printed torque, and what the tables hold."""

import pytest

from standfast.faults import OutsideTable
from standfast.rulebooks.iso898 import strength
from standfast.rulebooks.iso3506 import strength as stainless
from standfast.rulebooks.vdi2230 import tightening
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

VDI, ISO, STAINLESS = edition("vdi2230", "2015"), edition("iso898", "2013"), edition("iso3506", "2020")


def v(number: float, unit: str, symbol: str = "x") -> Value:
    return given(symbol, number, unit, "test")


def band(size: str) -> tuple[float, float]:
    R_p02 = strength.yield_strength(ISO, "8.8", tightening.bolt(VDI, size).d)
    low, high = tightening.band(VDI, size, R_p02)
    return low.quantity, high.quantity


def test_five_newton_metres_suit_m5_and_are_low_for_m6() -> None:
    assert band("M5")[0] <= 5 <= band("M5")[1]
    assert band("M6")[0] > 5


def test_the_band_says_that_it_is_common_practice() -> None:
    assert VDI.number("band_low").seen == VDI.number("band_high").seen == "common practice"


def test_class_8_8_is_stronger_above_16_mm() -> None:
    assert [strength.proof_stress(ISO, "8.8", v(d, "mm")).quantity for d in (10, 16, 17)] == [580, 580, 600]
    assert strength.proof_stress(ISO, "8.8", missing("d", "mm", "read the sheet")).missing


@pytest.mark.parametrize(("property_class", "d"), [("7.7", 10.0), ("8.8", 40.0), ("9.8", 20.0)])
def test_classes_and_sizes_that_are_not_held_are_refused(property_class: str, d: float) -> None:
    with pytest.raises(OutsideTable):
        strength.proof_stress(ISO, property_class, v(d, "mm"))


def test_soft_stainless_holds_less_than_half() -> None:
    soft, hard = (stainless.yield_strength(STAINLESS, each).quantity for each in ("A2-50", "A2-70"))
    assert soft < hard / 2
    with pytest.raises(OutsideTable):
        stainless.yield_strength(STAINLESS, "A9-70")


def test_a_size_that_is_not_held_is_refused() -> None:
    with pytest.raises(OutsideTable):
        tightening.bolt(VDI, "M7")


def test_nut_factor_goes_both_ways() -> None:
    K, d = v(0.2, "1"), v(8, "mm")
    T = tightening.torque_by_nut_factor(VDI, K, d, v(12, "kN"))
    assert tightening.preload_by_nut_factor(VDI, K, d, T).quantity == pytest.approx(12)
