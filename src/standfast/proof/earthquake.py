"""Cases of earthquake force on equipment, anchorage of a standing base, and wind pressure."""

from typing import Any

from standfast.design.anchorage import statics
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.asce7 import combinations, components, wind
from standfast.rulebooks.asce7.components import Force
from standfast.rulebooks.en1998 import components as parts
from standfast.sheet import Value, given
from standfast.shelf import Edition, edition


@method("seismic.asce7_16")
def asce7_16(case: Inputs) -> dict[str, Any]:
    """Force by amplification and response modification factors."""
    book = edition("asce7", "2016")
    found = components.force_by_amplification(
        book,
        case.value("sds_g", "S_DS", "1"),
        case.value("ip", "I_p", "1"),
        case.value("wp_lb", "W_p", "lb"),
        case.value("ap", "a_p", "1"),
        case.value("rp", "R_p", "1"),
        case.value("z_over_h", "z_over_h", "1"),
    )
    return _force(found)


@method("seismic.asce7_22")
def asce7_22(case: Inputs) -> dict[str, Any]:
    """Force by resonance, ductility of the building and component strength."""
    book = edition("asce7", "2022")
    H_f = _height_factor(book, case)
    R_mu = _ductility(book, case)
    found = components.force_by_resonance(
        book,
        case.value("sds_g", "S_DS", "1"),
        case.value("ip", "I_p", "1"),
        case.value("wp_lb", "W_p", "lb"),
        H_f,
        R_mu,
        case.value("car", "C_AR", "1"),
        case.value("rpo", "R_po", "1"),
    )
    answer = _force(found) | {"hf": H_f.quantity, "rmu": R_mu.quantity}
    if "omega0p" in case:
        E = components.with_overstrength(book, found.F_p, case.value("omega0p", "Omega_0p", "1"))
        answer["omega_fp_lb"] = E.quantity
        answer["omega_fp_30pct_lb"] = components.other_direction(book, E).quantity
    return answer


@method("seismic.ec8")
def ec8(case: Inputs) -> dict[str, Any]:
    """Seismic coefficient of a non-structural element."""
    found = parts.coefficient(
        edition("en1998", "2004"),
        case.value("alpha", "alpha", "1"),
        case.value("soil_factor", "S", "1"),
        case.value("z_over_h", "z_over_H", "1"),
        case.value("ta_over_t1", "Ta_over_T1", "1"),
    )
    return {"sa": found.quantity}


@method("anchorage.base")
def base(case: Inputs) -> dict[str, Any]:
    """Tension and shear of the anchors of a standing base that tips about its toe."""
    book = edition("asce7", "2022")
    W, S_DS = case.value("wp_lb", "W_p", "lb"), case.value("sds_g", "S_DS", "1")
    E = components.with_overstrength(book, case.value("fp_lb", "F_p", "lb"), case.value("omega", "Omega_0p", "1"))
    h, x = case.value("h_cg_in", "h", "in"), case.value("x_cg_in", "x", "in")
    rows = [
        statics.Row(each.value("anchors", "n", "1"), each.value("from_toe_in", "d", "in"))
        for each in case.items("rows")
    ]
    if not any(row.arm.quantity > 0 and row.fasteners.quantity > 0 for row in rows):
        raise BadCase("rows: at least one anchor away from the toe is needed")
    none = given("D_held", 0.0, "lb", "the same base without any weight")
    held = combinations.strength_up(book, W, S_DS)
    n = case.value("anchors_in_shear", "n", "1")
    return {
        "tension_per_anchor_lb": statics.tension(statics.tipping_moment(E, h, held, x), rows, "lb").quantity,
        "gross_tension_lb": statics.tension(statics.tipping_moment(E, h, none, x), rows, "lb").quantity,
        "shear_per_anchor_lb": statics.share("V", E, n).quantity,
        "vertical_per_anchor_lb": statics.share("E_v1", components.vertical(book, S_DS, W), n).quantity,
    }


@method("wind.asce7")
def velocity_pressure(case: Inputs) -> dict[str, Any]:
    """Velocity pressure at a height over ground."""
    found = wind.pressure(
        edition("asce7", "2016"),
        case.value("v_m_per_s", "V", "m/s"),
        case.word("exposure"),
        case.value("z_m", "z", "m"),
        case.value("kd", "K_d", "1"),
        case.value("kzt", "K_zt", "1"),
        case.value("ground_elevation_m", "z_g", "m"),
    )
    return {"kz": found.K_z.quantity, "ke": found.K_e.quantity, "qz_pa": found.q_z.quantity}


def _force(found: Force) -> dict[str, Any]:
    return {
        "fp_calc_lb": found.calculated.quantity,
        "fp_min_lb": found.minimum.quantity,
        "fp_max_lb": found.maximum.quantity,
        "fp_lb": found.F_p.quantity,
        "governs": found.governs.word,
    }


def _grounded(case: Inputs) -> bool:
    return "z_over_h" in case and case.number("z_over_h") <= 0


def _height_factor(book: Edition, case: Inputs) -> Value:
    T_a = case.value("ta_s", "T_a", "s") if "ta_s" in case else None
    z = case.value("z_over_h", "z_over_h", "1") if "z_over_h" in case else None
    if "hf" in case:
        return case.value("hf", "H_f", "1")
    if z is None:
        raise BadCase("one of the inputs 'hf' and 'z_over_h' must be given")
    return components.at_grade(book)[0] if z.quantity <= 0 else components.height_factor(book, z, T_a)


def _ductility(book: Edition, case: Inputs) -> Value:
    if "rmu" in case:
        return case.value("rmu", "R_mu", "1")
    R, I_e, Omega_0 = (
        case.value(name, symbol, "1") for name, symbol in (("r", "R"), ("ie", "I_e"), ("omega0", "Omega_0"))
    )
    return components.at_grade(book)[1] if _grounded(case) else components.ductility_of_building(book, R, I_e, Omega_0)
