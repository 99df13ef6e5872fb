"""Branches of EN 1992-4 that no published case reaches."""

import pytest

from standfast.faults import OutsideTable
from standfast.rulebooks.en1992_4 import shear, tension
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

BOOK = edition("en1992_4", "2018")


def v(symbol: str, number: float | bool, unit: str) -> Value:
    return given(symbol, number, unit, "test")


@pytest.mark.parametrize(("strength", "share"), [(400, 0.6), (500, 0.6), (501, 0.5), (1000, 0.5)])
def test_share_of_strength_in_shear(strength: float, share: float) -> None:
    assert shear.shear_share(BOOK, v("f_uk", strength, "MPa")).quantity == share


def test_steel_beyond_the_clause_is_refused() -> None:
    with pytest.raises(OutsideTable):
        shear.shear_share(BOOK, v("f_uk", 1001, "MPa"))


def test_no_factor_of_the_cone_goes_above_one() -> None:
    h_ef = v("h_ef", 150, "mm")
    assert tension.edge_factor(BOOK, h_ef, v("c", 500, "mm")).quantity == 1
    assert tension.dense_reinforcement_factor(BOOK, h_ef, v("dense", True, "")).quantity == 1
    shallow = v("h_ef", 60, "mm")
    assert tension.dense_reinforcement_factor(BOOK, shallow, v("dense", True, "")).quantity == pytest.approx(0.8)
    assert tension.dense_reinforcement_factor(BOOK, shallow, v("dense", False, "")).quantity == 1
    assert tension.dense_reinforcement_factor(BOOK, shallow, missing("dense", "", "scan")).missing
    assert tension.eccentricity_factor(BOOK, h_ef, v("e_N", 0, "mm")).quantity == 1


def edge(**changes: Value | None) -> shear.EdgeShear:
    facts = {
        "k_9": BOOK.number("k9_cracked"),
        "d": v("d", 12, "mm"),
        "l_f": v("l_f", 80, "mm"),
        "f": v("f", 25, "MPa"),
        "c_1": v("c_1", 100, "mm"),
        "gamma_Mc": v("gamma_Mc", 1.5, "1"),
    }
    return shear.concrete_edge(BOOK, **(facts | changes))  # type: ignore[arg-type]


def test_far_sides_and_a_thick_member_leave_the_basic_strength() -> None:
    found = edge()
    assert found.area_ratio.quantity == pytest.approx(1)
    assert found.V_Rd_c.quantity == pytest.approx(found.V0_Rk_c.quantity / 1.5)
    far = edge(c_2=v("c_2", 150, "mm"), h=v("h", 150, "mm"))
    assert far.V_Rd_c.quantity == pytest.approx(found.V_Rd_c.quantity)


def test_coefficients_stand_in_the_table() -> None:
    picked = BOOK.table("k1").pick("k_1", "k_1", fastener="post-installed", concrete="cracked")
    assert picked.quantity == 7.7
    assert BOOK.table("gamma_inst").pick("gamma_inst", "gamma", safety="normal").quantity == 1.2
