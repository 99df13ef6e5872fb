"""Cases of anchors in concrete, American and European."""

from typing import Any

from standfast.proof.anchors import gaps, kilonewton, not_negative, optional, positive, reduced, worded
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.aci318 import bond as aci_bond
from standfast.rulebooks.aci318 import headed, shear, steel, tension
from standfast.rulebooks.aci318.interaction import Form, interaction
from standfast.rulebooks.en1992_4 import shear as en_shear
from standfast.rulebooks.en1992_4 import tension as en_tension
from standfast.sheet import attempt, given, work
from standfast.shelf import edition

_INSTALL = {"cast_in": "cast-in", "post_installed": "post-installed"}
_ATTACHMENT: dict[str, shear.Attachment] = {"loose": "loose", "welded": "welded"}
_DIRECTION: dict[str, shear.Direction] = {"to_edge": "to edge", "parallel": "parallel"}
_FORM: dict[str, Form] = {"sum_1_2": "sum", "power_5_3": "powers"}


@method("aci318.steel")
def steel_strength(case: Inputs) -> dict[str, Any]:
    """Steel of one anchor in tension and shear."""
    book = edition("aci318", "2019")
    A_se, f_uta = positive(case, "ase_in2", "A_se", "in2"), positive(case, "futa_psi", "f_uta", "psi")
    N_sa = steel.steel_tension(book, A_se, f_uta)
    answer: dict[str, Any] = {"nsa_lb": N_sa.quantity} | reduced(book, case, "phi_tension", "phi_nsa_lb", N_sa)
    if "shear_factor" not in case:
        return answer
    V_sa = steel.steel_shear(book, A_se, f_uta, case.value("shear_factor", "k_V", "1"))
    return answer | {"vsa_lb": V_sa.quantity} | reduced(book, case, "phi_shear", "phi_vsa_lb", V_sa)


@method("aci318.tension_breakout")
def tension_breakout(case: Inputs) -> dict[str, Any]:
    """Breakout of one anchor or a rectangular group in tension."""
    book = edition("aci318", "2019")
    found = tension.breakout(
        book,
        f_c=positive(case, "fc_psi", "f_c", "psi"),
        h_ef=positive(case, "hef_in", "h_ef", "in"),
        lambda_a=positive(case, "lambda_a", "lambda_a", "1"),
        cracked=given("cracked", case.yes("cracked"), "", "case, cracked"),
        install=worded(case, "install", _INSTALL),
        k_c=optional(case, "kc", "k_c", "1"),
        deep_form=case.yes("deep_form", False),
        layout=tension.Layout(
            gaps(case, "s_x_in"),
            gaps(case, "s_y_in"),
            *(optional(case, f"c_{axis}_{way}_in", "c_a", "in") for axis in "xy" for way in ("neg", "pos")),
        ),
    )
    answer: dict[str, Any] = {
        "anc_in2": found.A_Nc.quantity,
        "anco_in2": found.A_Nco.quantity,
        "area_ratio": work("r_A", "A_Nc / A_Nco", "1", None, found.A_Nc, found.A_Nco).quantity,
        "psi_ed": found.psi_ed.quantity,
        "nb_lb": found.N_b.quantity,
        "ncb_lb": found.N_cb.quantity,
    }
    return answer | reduced(book, case, "phi", "phi_ncb_lb", found.N_cb)


@method("aci318.pullout")
def pullout(case: Inputs) -> dict[str, Any]:
    """Pullout of a headed anchor in cracked concrete."""
    book = edition("aci318", "2019")
    A_brg, f_c = positive(case, "abrg_in2", "A_brg", "in2"), positive(case, "fc_psi", "f_c", "psi")
    N_p = headed.pullout(book, A_brg, f_c)
    return {"np_lb": N_p.quantity} | reduced(book, case, "phi", "phi_np_lb", N_p)


@method("aci318.bond")
def bond(case: Inputs) -> dict[str, Any]:
    """Bond of an adhesive anchor or of a row parallel to an edge."""
    book = edition("aci318", "2019")
    found = aci_bond.bond(
        book,
        tau=positive(case, "tau_psi", "tau", "psi"),
        tau_uncr=positive(case, "tau_uncr_psi", "tau_uncr", "psi"),
        d_a=positive(case, "da_in", "d_a", "in"),
        h_ef=positive(case, "hef_in", "h_ef", "in"),
        lambda_a=optional(case, "lambda_a", "lambda_a", "1"),
        spacings=gaps(case, "s_in"),
        edge=optional(case, "edge_in", "c_a", "in"),
    )
    answer: dict[str, Any] = {
        "cna_in": found.c_Na.quantity,
        "nba_lb": found.N_ba.quantity,
        "ana_in2": found.A_Na.quantity,
        "anao_in2": found.A_Nao.quantity,
        "nag_lb": found.N_ag.quantity,
    }
    return answer | reduced(book, case, "phi", "phi_nag_lb", found.N_ag)


@method("aci318.side_face")
def side_face(case: Inputs) -> dict[str, Any]:
    """Side-face blowout of a deep headed anchor near an edge."""
    book = edition("aci318", "2019")
    N_sb = headed.side_face(
        book,
        c_a1=positive(case, "ca1_in", "c_a1", "in"),
        A_brg=positive(case, "abrg_in2", "A_brg", "in2"),
        h_ef=positive(case, "hef_in", "h_ef", "in"),
        lambda_a=positive(case, "lambda_a", "lambda_a", "1"),
        f_c=positive(case, "fc_psi", "f_c", "psi"),
    )
    return {"nsb_lb": N_sb.quantity} | reduced(book, case, "phi", "phi_nsb_lb", N_sb)


@method("aci318.shear_area")
def shear_area(case: Inputs) -> dict[str, Any]:
    """Projected area of a row near an edge, and the factors of its geometry."""
    found = shear.shear_area(edition("aci318", "2019"), _edge_row(case))
    return {**_area_answer(found), "psi_ec": found.psi_ec.quantity, "psi_h": found.psi_h.quantity}


@method("aci318.shear_breakout")
def shear_breakout(case: Inputs) -> dict[str, Any]:
    """Breakout of a row near an edge in shear."""
    book = edition("aci318", "2019")
    row = _edge_row(case)
    if ("avc_in2" in case) != ("avco_in2" in case):
        raise BadCase("give both 'avc_in2' and 'avco_in2', or neither")
    if "avc_in2" in case:
        areas = positive(case, "avc_in2", "A_Vc", "in2"), positive(case, "avco_in2", "A_Vco", "in2")
        area = shear.given_area(book, row, *areas)
    else:
        area = shear.shear_area(book, row)
    found = shear.shear_breakout(
        book,
        area,
        d_a=positive(case, "da_in", "d_a", "in"),
        h_ef=positive(case, "hef_in", "h_ef", "in"),
        f_c=positive(case, "fc_psi", "f_c", "psi"),
        lambda_a=positive(case, "lambda_a", "lambda_a", "1"),
        psi_c=positive(case, "psi_c", "psi_c_V", "1"),
        attachment=worded(case, "attachment", _ATTACHMENT),
        direction=worded(case, "direction", _DIRECTION),
    )
    answer = _area_answer(area) | {
        "psi_ed": found.psi_ed.quantity,
        "psi_ec": area.psi_ec.quantity,
        "psi_h": area.psi_h.quantity,
        "vb_a_lb": found.V_b_a.quantity,
        "vb_b_lb": found.V_b_b.quantity,
        "vcb_lb": found.V_cb.quantity,
    }
    return answer | reduced(book, case, "phi", "phi_vcb_lb", found.V_cb)


@method("aci318.pryout")
def pryout(case: Inputs) -> dict[str, Any]:
    """Pryout of one anchor far from edges in cracked concrete."""
    book = edition("aci318", "2019")
    h_ef = positive(case, "hef_in", "h_ef", "in")
    found = tension.breakout(
        book,
        f_c=positive(case, "fc_psi", "f_c", "psi"),
        h_ef=h_ef,
        lambda_a=positive(case, "lambda_a", "lambda_a", "1"),
        cracked=given("cracked", True, "", "the method is for cracked concrete"),
        install=worded(case, "install", _INSTALL),
        k_c=optional(case, "kc", "k_c", "1"),
    )
    factor, V_cp = shear.pryout_factor(book, h_ef), shear.pryout(book, h_ef, found.N_cb)
    answer: dict[str, Any] = {"kcp": factor.quantity, "vcp_lb": V_cp.quantity}
    return answer | reduced(book, case, "phi", "phi_vcp_lb", V_cp)


@method("aci318.interaction")
def tension_and_shear(case: Inputs) -> dict[str, Any]:
    """Tension and shear together."""
    found = interaction(
        edition("aci318", "2019"),
        N_ua=case.value("nua_lb", "N_ua", "lb"),
        phi_N=positive(case, "phi_nn_lb", "phi_N", "lb"),
        V_ua=case.value("vua_lb", "V_ua", "lb"),
        phi_V=positive(case, "phi_vn_lb", "phi_V", "lb"),
        form=worded(case, "form", _FORM),
    )
    return {
        "tension_term": found.tension.quantity,
        "shear_term": found.shear.quantity,
        "interaction": found.together.quantity,
        "verdict": "pass" if found.demand.quantity <= found.limit.quantity else "fail",
    }


@method("en1992_4.steel")
def en_steel(case: Inputs) -> dict[str, Any]:
    """Steel in tension and shear."""
    book = edition("en1992_4", "2018")
    A_s, f_uk = positive(case, "as_mm2", "A_s", "mm2"), positive(case, "fuk_mpa", "f_uk", "MPa")
    gamma = positive(case, "gamma_ms", "gamma_Ms", "1")
    k_6 = optional(case, "k6", "k_6", "1")
    if k_6 is None:
        k_6 = attempt("k_6", "1", lambda: en_shear.shear_share(book, f_uk))
    answer: dict[str, Any] = {
        "nrd_s_kn": kilonewton(en_tension.steel_tension(book, A_s=A_s, f_uk=f_uk, gamma_Ms=gamma))
    }
    sheared = en_shear.steel_shear(book, A_s=A_s, f_uk=f_uk, k_6=k_6, gamma_Ms=gamma)
    return answer if sheared.missing else answer | {"vrd_s_kn": kilonewton(sheared)}


@method("en1992_4.bond")
def en_bond(case: Inputs) -> dict[str, Any]:
    """Bond of one fastener away from edges."""
    found = en_tension.bond(
        edition("en1992_4", "2018"),
        d=positive(case, "d_mm", "d", "mm"),
        h_ef=positive(case, "hef_mm", "h_ef", "mm"),
        tau_Rk=positive(case, "tau_mpa", "tau_Rk", "MPa"),
        gamma_Mp=positive(case, "gamma_mp", "gamma_Mp", "1"),
    )
    return {"n0rd_p_kn": kilonewton(found)}


@method("en1992_4.cone")
def en_cone(case: Inputs) -> dict[str, Any]:
    """Concrete cone of one fastener away from edges."""
    found = en_tension.cone(
        edition("en1992_4", "2018"),
        k_1=positive(case, "k1", "k_1", "1"),
        f=positive(case, "f_mpa", "f", "MPa"),
        h_ef=positive(case, "hef_mm", "h_ef", "mm"),
        gamma_Mc=positive(case, "gamma_mc", "gamma_Mc", "1"),
    )
    return {"n0rd_c_kn": kilonewton(found)}


@method("en1992_4.cone_factors")
def en_cone_factors(case: Inputs) -> dict[str, Any]:
    """Factors of the concrete cone."""
    book = edition("en1992_4", "2018")
    h_ef, c = positive(case, "hef_mm", "h_ef", "mm"), positive(case, "c_mm", "c", "mm")
    dense = given("dense", case.yes("dense_reinforcement", False), "", "case, dense_reinforcement")
    e_N = not_negative(case, "e_mm", "e_N", "mm")
    if e_N is None:
        e_N = given("e_N", 0.0, "mm", "the case names no eccentricity")
    return {
        "psi_s": en_tension.edge_factor(book, h_ef, c).quantity,
        "psi_re": en_tension.dense_reinforcement_factor(book, h_ef, dense).quantity,
        "psi_ec": en_tension.eccentricity_factor(book, h_ef, e_N).quantity,
    }


@method("en1992_4.edge")
def en_edge(case: Inputs) -> dict[str, Any]:
    """Concrete edge in shear, one fastener."""
    found = en_shear.concrete_edge(
        edition("en1992_4", "2018"),
        k_9=positive(case, "k9", "k_9", "1"),
        d=positive(case, "d_mm", "d", "mm"),
        l_f=positive(case, "lf_mm", "l_f", "mm"),
        f=positive(case, "f_mpa", "f", "MPa"),
        c_1=positive(case, "c1_mm", "c_1", "mm"),
        gamma_Mc=positive(case, "gamma_mc", "gamma_Mc", "1"),
        c_2=optional(case, "c2_mm", "c_2", "mm"),
        h=optional(case, "h_mm", "h", "mm"),
    )
    return {
        "v0rk_c_kn": kilonewton(found.V0_Rk_c),
        "area_ratio": found.area_ratio.quantity,
        "psi_s": found.psi_s.quantity,
        "psi_h": found.psi_h.quantity,
        "vrd_c_kn": kilonewton(found.V_Rd_c),
    }


def _edge_row(case: Inputs) -> shear.EdgeRow:
    return shear.EdgeRow(
        positive(case, "ca1_in", "c_a1", "in"),
        gaps(case, "s_in"),
        optional(case, "c2_neg_in", "c_2", "in"),
        optional(case, "c2_pos_in", "c_2", "in"),
        optional(case, "ha_in", "h_a", "in"),
        not_negative(case, "e_in", "e_V", "in"),
    )


def _area_answer(found: shear.Area) -> dict[str, Any]:
    return {
        "avc_in2": found.A_Vc.quantity,
        "avco_in2": found.A_Vco.quantity,
        "area_ratio": work("r_A", "A_Vc / A_Vco", "1", None, found.A_Vc, found.A_Vco).quantity,
        "psi_ed": found.psi_ed.quantity,
    }
