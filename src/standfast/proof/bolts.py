"""Cases of bolts: preload and torque."""

from typing import Any

from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.iso898 import strength
from standfast.rulebooks.vdi2230 import tightening
from standfast.sheet import work
from standfast.shelf import edition


@method("bolt.vdi2230")
def at_share_of_yield(case: Inputs) -> dict[str, Any]:
    """Preload and torque at a share of yield; least preload where the scatter is given."""
    book = edition("vdi2230", "2015")
    bolt = tightening.Bolt(
        d=case.value("d_mm", "d", "mm"),
        P=case.value("pitch_mm", "P", "mm"),
        d_w=case.value("dw_mm", "d_w", "mm"),
        d_h=case.value("dh_mm", "d_h", "mm"),
    )
    found = tightening.tighten(
        book,
        bolt,
        case.value("rp02_mpa", "R_p02", "MPa"),
        case.value("nu", "nu", "1"),
        case.value("mu_thread", "mu_G", "1"),
        case.value("mu_head", "mu_K", "1"),
    )
    answer = {"f_max_kn": found.F_M.quantity, "torque_nm": found.M_A.quantity}
    if "alpha_a" in case:
        alpha_A = case.value("alpha_a", "alpha_A", "1")
        answer["f_min_kn"] = tightening.least_preload(book, found.F_M, alpha_A).quantity
    return answer


@method("bolt.nut_factor")
def by_nut_factor(case: Inputs) -> dict[str, Any]:
    """Preload and torque by T = K d F, from a share of the proof load or from a torque."""
    steel, joint = edition("iso898", "2013"), edition("vdi2230", "2015")
    d, A_s, K = case.value("d_mm", "d", "mm"), case.value("as_mm2", "A_s", "mm2"), case.value("k", "K", "1")
    S_p = strength.proof_stress(steel, case.word("property_class"), d)
    F_p = strength.proof_load(steel, S_p, A_s)
    if ("torque_nm" in case) == ("proof_fraction" in case):
        raise BadCase("exactly one of torque_nm and proof_fraction must be given")
    if "torque_nm" in case:
        T = case.value("torque_nm", "T", "N·m")
        F = tightening.preload_by_nut_factor(joint, K, d, T)
    else:
        F = work("F", "k_p * F_p", "kN", None, F_p, k_p=case.value("proof_fraction", "k_p", "1"))
        T = tightening.torque_by_nut_factor(joint, K, d, F)
    percent = work("percent", "100 * F / F_p", "%", None, F, F_p)
    return {
        "proof_load_kn": F_p.quantity,
        "f_kn": F.quantity,
        "torque_nm": T.quantity,
        "stress_mpa": strength.stress(steel, F, A_s).quantity,
        "percent_of_proof": percent.quantity,
    }
