"""Cases of anchors in masonry."""

from typing import Any

from standfast.proof.anchors import not_negative, optional, positive, worded
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.ac58 import breakout
from standfast.rulebooks.tms402 import bolts
from standfast.sheet import given, work
from standfast.shelf import edition

_CODES = {"tms402_2013": "2013", "tms402_2016": "2016"}


@method("ac58.masonry_breakout")
def masonry_breakout(case: Inputs) -> dict[str, Any]:
    """Breakout of an adhesive anchor or a pair in grouted masonry."""
    book = edition("ac58", "undated")
    found = breakout.masonry_breakout(
        book,
        f_m=positive(case, "fm_psi", "f_m", "psi"),
        h_ef=positive(case, "hef_in", "h_ef", "in"),
        A_Nm=positive(case, "anm_in2", "A_Nm", "in2"),
        edge=optional(case, "edge_in", "c_a", "in"),
        k_m=optional(case, "km", "k_m", "1"),
    )
    answer: dict[str, Any] = {"nbm_lb": found.N_bm.quantity, "nmbg_lb": found.N_mbg.quantity}
    phi, load = optional(case, "phi", "phi", "1"), not_negative(case, "nua_lb", "N_ua", "lb")
    if phi is not None:
        answer["phi_nmbg_lb"] = work("phi_N_mbg", "phi * N_mbg", "lb", None, phi, found.N_mbg).quantity
        if load is not None:
            answer["utilisation"] = breakout.utilisation(book, load, phi, found.N_mbg).quantity
    return answer


@method("tms402.anchor")
def headed_bolt(case: Inputs) -> dict[str, Any]:
    """A headed bolt in the face of a wall."""
    book = edition("tms402", worded(case, "code", _CODES))
    found = bolts.headed_bolt(
        book,
        f_m=positive(case, "fm_psi", "f_m", "psi"),
        l_b=positive(case, "lb_in", "l_b", "in"),
        A_b=positive(case, "ab_in2", "A_b", "in2"),
        f_y=positive(case, "fy_psi", "f_y", "psi"),
    )
    count = optional(case, "bolts", "n_b", "1")
    if count is None:
        count = given("n_b", 1.0, "1", "the case names no number of bolts")
    return {
        "apt_in2": found.A_pt.quantity,
        "ban_breakout_lb": found.B_anb.quantity,
        "ban_steel_lb": found.B_ans.quantity,
        "bvn_crushing_lb": found.B_vnc.quantity,
        "bvn_pryout_lb": found.B_vnpry.quantity,
        "bvn_steel_lb": found.B_vns.quantity,
        "phi_ban_breakout_all_lb": bolts.design_breakout(book, found.B_anb, count).quantity,
    }


@method("tms402.interaction")
def interaction(case: Inputs) -> dict[str, Any]:
    """Shear that may act beside a tension."""
    ratio = case.value("axial_ratio", "r_an", "1")
    if ratio.quantity < 0:
        raise BadCase("the input 'axial_ratio' must not be below zero")
    return {"shear_ratio_allowed": bolts.shear_ratio_allowed(edition("tms402", "2016"), ratio).quantity}
