"""Branches of the anchor chapter that no published case reaches. Numbers of worked examples stand in the proof."""

import math

import pytest

from standfast.faults import BadFormula, OutsideTable
from standfast.rulebooks.aci318 import bond, distances, headed, shear, steel, strength_reduction, tension
from standfast.rulebooks.aci318.interaction import interaction
from standfast.rulebooks.aci318.tension import Layout
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

BOOK = edition("aci318", "2019")


def v(symbol: str, number: float | bool, unit: str) -> Value:
    return given(symbol, number, unit, "test")


def breakout(layout: Layout | None = None, **changes: object) -> tension.Breakout:
    facts: dict[str, object] = {
        "f_c": v("f_c", 2500.0, "psi"),
        "h_ef": v("h_ef", 4.0, "in"),
        "lambda_a": v("lambda_a", 1.0, "1"),
        "cracked": v("cracked", True, ""),
        "install": "post-installed",
    }
    return tension.breakout(BOOK, layout=layout, **(facts | changes))  # type: ignore[arg-type]


def inches(*numbers: float) -> tuple[Value, ...]:
    return tuple(v("x", number, "in") for number in numbers)


def test_a_single_anchor_far_from_edges_has_the_basic_strength() -> None:
    found = breakout()
    assert found.N_b.quantity == pytest.approx(17 * 50 * 8)
    assert found.N_cb.quantity == pytest.approx(found.N_b.quantity)


def test_a_gap_wider_than_two_reaches_counts_as_two_anchors() -> None:
    alone = breakout().N_cb.quantity
    for gap in (12.0, 40.0):
        assert breakout(Layout(s_x=inches(gap))).N_cb.quantity == pytest.approx(2 * alone)


def test_several_gaps_both_ways_multiply() -> None:
    found = breakout(Layout(s_x=inches(6, 3), s_y=inches(4)))
    assert found.A_Nc.quantity == pytest.approx((9 + 12) * (4 + 12))


def test_two_near_edges_keep_the_depth_and_three_reduce_it() -> None:
    two = breakout(Layout(c_x_neg=v("c", 3, "in"), c_x_pos=v("c", 3, "in")))
    three = breakout(Layout(c_x_neg=v("c", 3, "in"), c_x_pos=v("c", 3, "in"), c_y_neg=v("c", 4.5, "in")))
    assert two.h_ef.quantity == 4
    assert three.h_ef.quantity == pytest.approx(4.5 / 1.5)
    assert three.N_b.quantity == pytest.approx(17 * 50 * 3**1.5)


def test_in_a_narrow_member_a_wide_group_keeps_a_third_of_its_gap_as_depth() -> None:
    edges = {"c_x_neg": v("c", 2, "in"), "c_x_pos": v("c", 2, "in"), "c_y_neg": v("c", 2, "in")}
    assert breakout(Layout(s_y=inches(9), **edges)).h_ef.quantity == pytest.approx(3)
    assert breakout(Layout(s_y=inches(90), **edges)).h_ef.quantity == 4


@pytest.mark.parametrize(
    ("install", "k_c", "gain"),
    [("cast-in", None, 1.25), ("cast-in", 24, 1.25), ("post-installed", None, 1.4), ("post-installed", 21, 1.0)],
)
def test_concrete_without_cracks_gains_by_the_coefficient_in_use(install: str, k_c: float | None, gain: float) -> None:
    coefficient = None if k_c is None else v("k_c", k_c, "1")
    assert breakout(install=install, k_c=coefficient, cracked=v("cracked", False, "")).psi_c.quantity == gain


def test_the_deep_form_needs_no_coefficient_and_holds_only_in_its_range() -> None:
    deep = breakout(install="cast-in", deep_form=True, h_ef=v("h_ef", 12.0, "in"))
    assert deep.N_b.quantity == pytest.approx(16 * 50 * 12 ** (5 / 3))
    with pytest.raises(OutsideTable, match="11 in to 25 in"):
        breakout(install="cast-in", deep_form=True, h_ef=v("h_ef", 10.9, "in"))


def test_strong_concrete_counts_only_up_to_the_limit() -> None:
    at_limit = breakout(f_c=v("f_c", 8000.0, "psi")).N_b.quantity
    assert breakout(f_c=v("f_c", 12000.0, "psi")).N_b.quantity == at_limit


def test_what_is_not_known_stays_not_known() -> None:
    unknown = missing("c_a", "in", "measure the edge")
    found = breakout(Layout(c_x_neg=unknown))
    assert found.N_cb.missing
    assert breakout(cracked=missing("cracked", "", "look at the slab")).N_cb.missing
    assert shear.pryout_factor(BOOK, missing("h_ef", "in", "depth")).missing


def test_cracked_concrete_is_the_bounding_assumption() -> None:
    found = breakout(cracked=BOOK.bounding("cracked_unknown", "nobody has shown that there are none"))
    assert found.psi_c.quantity == 1
    assert any(value.kind == "assumed" and value.bounding for value in found.N_cb.trail())


def test_splitting_and_eccentricity_reduce_and_never_gain() -> None:
    h_ef = v("h_ef", 4.0, "in")
    splitting = tension.splitting_factor(BOOK, h_ef, v("c", 3.0, "in"), v("c_ac", 10.0, "in"))
    assert splitting.quantity == pytest.approx(0.6)
    assert tension.splitting_factor(BOOK, h_ef, v("c", 12.0, "in"), v("c_ac", 10.0, "in")).quantity == 1
    eccentric = tension.eccentricity_factor(BOOK, h_ef, v("e_N", 2.0, "in"))
    assert eccentric.quantity == pytest.approx(0.75)
    both = breakout(further=(splitting, eccentric))
    assert both.N_cb.quantity == pytest.approx(0.45 * breakout().N_cb.quantity)


def row(**changes: object) -> shear.EdgeRow:
    return shear.EdgeRow(**({"c_a1": v("c_a1", 8.0, "in")} | changes))  # type: ignore[arg-type]


def test_a_thin_narrow_member_limits_the_edge_distance() -> None:
    sides = {"c_2_neg": v("c_2", 6.0, "in"), "c_2_pos": v("c_2", 3.0, "in"), "h_a": v("h_a", 4.5, "in")}
    assert shear.shear_area(BOOK, row(**sides)).c_a1.quantity == pytest.approx(4)
    assert shear.shear_area(BOOK, row(**sides, gaps=inches(15))).c_a1.quantity == pytest.approx(5)
    assert shear.shear_area(BOOK, row(**(sides | {"c_2_neg": v("c_2", 12.0, "in")}))).c_a1.quantity == 8
    assert shear.shear_area(BOOK, row(**(sides | {"h_a": missing("h_a", "in", "drill")}))).A_Vc.missing


def shear_strength(direction: shear.Direction, attachment: shear.Attachment) -> shear.ShearBreakout:
    return shear.shear_breakout(
        BOOK,
        shear.shear_area(BOOK, row(c_2_neg=v("c_2", 4.0, "in"))),
        d_a=v("d_a", 0.5, "in"),
        h_ef=v("h_ef", 4.0, "in"),
        f_c=v("f_c", 2500.0, "psi"),
        lambda_a=v("lambda_a", 1.0, "1"),
        psi_c=BOOK.number("shear_cracked_plain"),
        attachment=attachment,
        direction=direction,
    )


def test_along_the_edge_the_strength_doubles_and_side_edges_do_not_count() -> None:
    towards, along = shear_strength("to edge", "loose"), shear_strength("parallel", "loose")
    assert towards.psi_ed.quantity == pytest.approx(0.8)
    assert along.psi_ed.quantity == 1
    assert along.V_cb.quantity == pytest.approx(2 / 0.8 * towards.V_cb.quantity)


def test_welded_studs_have_their_own_coefficient_under_the_same_limit() -> None:
    loose, welded = shear_strength("to edge", "loose"), shear_strength("to edge", "welded")
    assert welded.V_b_a.quantity == pytest.approx(8 / 7 * loose.V_b_a.quantity)
    assert welded.V_b_b.quantity == loose.V_b_b.quantity


def test_pryout_doubles_from_two_and_a_half_inches() -> None:
    assert shear.pryout_factor(BOOK, v("h_ef", 2.49, "in")).quantity == 1
    assert shear.pryout_factor(BOOK, v("h_ef", 2.5, "in")).quantity == 2


def test_side_face_asks_nothing_of_an_anchor_that_is_not_deep() -> None:
    facts = {"A_brg": v("A", 1, "in2"), "lambda_a": v("l", 1, "1"), "f_c": v("f_c", 2500, "psi")}
    with pytest.raises(OutsideTable):
        headed.side_face(BOOK, c_a1=v("c_a1", 4, "in"), h_ef=v("h_ef", 10, "in"), **facts)
    found = headed.side_face(BOOK, c_a1=v("c_a1", 4, "in"), h_ef=v("h_ef", 10.1, "in"), **facts)
    assert found.quantity == pytest.approx(160 * 4 * 50)


def test_pullout_gains_without_cracks() -> None:
    N_p = headed.pullout(BOOK, v("A_brg", 1.0, "in2"), v("f_c", 2500.0, "psi"))
    assert N_p.quantity == 20000
    assert headed.pullout_in_concrete(BOOK, N_p, v("cracked", True, "")).quantity == 20000
    assert headed.pullout_in_concrete(BOOK, N_p, v("cracked", False, "")).quantity == pytest.approx(28000)
    assert headed.pullout_in_concrete(BOOK, N_p, missing("cracked", "", "look")).missing


def test_bond_of_one_anchor_far_from_edges_is_its_surface_times_the_stress() -> None:
    stress = v("tau", 1100.0, "psi")
    facts = {"tau": stress, "tau_uncr": stress, "d_a": v("d_a", 0.5, "in"), "h_ef": v("h_ef", 4.0, "in")}
    found = bond.bond(BOOK, **facts)
    assert found.c_Na.quantity == pytest.approx(5)
    assert found.N_ag.quantity == pytest.approx(1100 * math.pi * 0.5 * 4)
    light = bond.bond(BOOK, lambda_a=v("lambda_a", 0.75, "1"), **facts)
    assert light.N_ag.quantity == pytest.approx(0.75 * found.N_ag.quantity)


def test_steel_counts_up_to_its_limits() -> None:
    area = v("A_se", 1.0, "in2")
    assert steel.steel_tension(BOOK, area, v("f_uta", 150000.0, "psi")).quantity == 125000
    yielding = steel.steel_tension(BOOK, area, v("f_uta", 80000.0, "psi"), v("f_ya", 40000.0, "psi"))
    assert yielding.quantity == pytest.approx(76000)


@pytest.mark.parametrize(
    ("tension_lb", "shear_lb", "limit", "holds"),
    [(100, 20, 1.0, True), (105, 10, 1.0, False), (60, 60, 1.2, True), (70, 51, 1.2, False), (-500, 100, 1.0, True)],
)
def test_sum_of_ratios(tension_lb: float, shear_lb: float, limit: float, holds: bool) -> None:
    hundred = v("phi_R", 100.0, "lb")
    load = {"N_ua": v("N_ua", tension_lb, "lb"), "V_ua": v("V_ua", shear_lb, "lb")}
    found = interaction(BOOK, phi_N=hundred, phi_V=hundred, form="sum", **load)
    assert found.limit.quantity == limit
    assert (found.demand.quantity <= limit) is holds


def test_a_shear_below_zero_is_refused() -> None:
    one = v("phi_R", 1.0, "lb")
    with pytest.raises(BadFormula):
        interaction(BOOK, N_ua=one, phi_N=one, V_ua=v("V_ua", -1.0, "lb"), phi_V=one, form="powers")


def test_strength_reduction_is_found_by_mode_anchor_and_condition() -> None:
    assert strength_reduction.phi_steel(BOOK, "shear", "ductile").quantity == 0.65
    assert strength_reduction.phi_concrete_tension(BOOK, "post-installed category 2", "none").quantity == 0.55
    assert strength_reduction.phi_concrete_shear(BOOK, "none").quantity == 0.7
    assert strength_reduction.phi_pullout(BOOK, "cast-in").quantity == 0.7
    phi = strength_reduction.phi_pryout(BOOK)
    assert strength_reduction.design_strength(BOOK, "phi_V_cp", phi, v("V_cp", 100, "lb")).quantity == pytest.approx(70)
    seismic = strength_reduction.seismic_tension_strength(BOOK, "phi_N_cb", phi, v("N_cb", 100, "lb"))
    assert seismic.quantity == pytest.approx(52.5)
    with pytest.raises(OutsideTable):
        strength_reduction.phi_concrete_tension(BOOK, "post-installed category 4", "none")


def test_least_distances_grow_with_the_diameter() -> None:
    d_a = v("d_a", 0.5, "in")
    assert distances.least_spacing(BOOK, d_a, "cast-in", torqued=False).quantity == 2
    assert distances.least_spacing(BOOK, d_a, "cast-in", torqued=True).quantity == 3
    assert distances.least_spacing(BOOK, d_a, "post-installed", torqued=False).quantity == 3
    assert distances.least_edge_torqued(BOOK, d_a).quantity == 3
    assert distances.greatest_depth(BOOK, v("h_a", 6.0, "in")).quantity == pytest.approx(4)
