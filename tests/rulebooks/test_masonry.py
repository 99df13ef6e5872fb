"""Branches of the masonry books that no published case reaches."""

import pytest

from standfast.faults import NotInEdition
from standfast.rulebooks.ac58 import breakout
from standfast.rulebooks.tms402 import bolts
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

CRITERIA = edition("ac58", "undated")


def v(symbol: str, number: float, unit: str) -> Value:
    return given(symbol, number, unit, "test")


def adhesive(edge: Value | None = None) -> breakout.MasonryBreakout:
    facts = {"f_m": v("f_m", 1600.0, "psi"), "h_ef": v("h_ef", 4.0, "in"), "A_Nm": v("A_Nm", 144.0, "in2")}
    return breakout.masonry_breakout(CRITERIA, edge=edge, **facts)


def test_a_full_cone_away_from_joints_has_the_strength_of_one_anchor() -> None:
    found = adhesive()
    assert found.N_bm.quantity == pytest.approx(17 * 40 * 8)
    assert found.N_mbg.quantity == pytest.approx(found.N_bm.quantity)


def test_a_head_joint_is_an_edge_and_an_unknown_joint_is_not_a_pass() -> None:
    assert adhesive(v("c_a", 3.0, "in")).psi_ed.quantity == pytest.approx(0.85)
    assert adhesive(v("c_a", 30.0, "in")).psi_ed.quantity == 1
    assert adhesive(missing("c_a", "in", "find the joint")).N_mbg.missing


def bolt(year: str) -> bolts.BoltStrength:
    facts = {"f_m": v("f_m", 1600.0, "psi"), "l_b": v("l_b", 4.0, "in"), "A_b": v("A_b", 0.01, "in2")}
    return bolts.headed_bolt(edition("tms402", year), f_y=v("f_y", 50000.0, "psi"), **facts)


def test_crushing_changed_with_the_edition_and_nothing_else_did() -> None:
    old, new = bolt("2013"), bolt("2016")
    assert (old.B_vnc.quantity, new.B_vnc.quantity) == (pytest.approx(2100), pytest.approx(3500))
    assert old.B_anb.quantity == new.B_anb.quantity
    assert old.B_vnpry.quantity == pytest.approx(2 * old.B_anb.quantity)
    assert (new.B_ans.quantity, new.B_vns.quantity) == (pytest.approx(500), pytest.approx(300))


def test_the_earlier_edition_has_no_power_form() -> None:
    with pytest.raises(NotInEdition):
        bolts.shear_ratio_allowed(edition("tms402", "2013"), v("r_an", 0.5, "1"))


@pytest.mark.parametrize(("tension", "shear"), [(0.0, 1.0), (1.0, 0.0), (1.3, 0.0)])
def test_ends_of_the_interaction(tension: float, shear: float) -> None:
    found = bolts.shear_ratio_allowed(edition("tms402", "2016"), v("r_an", tension, "1"))
    assert found.quantity == pytest.approx(shear)
