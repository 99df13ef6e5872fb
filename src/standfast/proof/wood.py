"""Cases of fasteners in wood."""

from typing import Any

from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.nds import bearing, lateral, withdrawal
from standfast.sheet import Value, given
from standfast.shelf import Edition, edition


@method("nds.withdrawal")
def withdrawn(case: Inputs) -> dict[str, Any]:
    """Withdrawal value for each inch, and of the whole fastener where its penetration is given."""
    book = edition("nds", "2018")
    fastener = case.word("fastener")
    W = withdrawal.per_inch(book, fastener, case.value("g", "G", "1"), case.value("d_in", "D", "in"))
    answer = {"w_lb_per_in": W.quantity}
    tip = _tip(case, fastener) if "tip_in" in case or "penetration_in" in case else None
    if "penetration_in" in case and tip is not None:
        p_t = withdrawal.holding(book, fastener, case.value("penetration_in", "p", "in"), tip)
        answer["w_total_lb"] = withdrawal.whole(book, fastener, W, p_t).quantity
    return answer


@method("nds.lateral")
def sheared(case: Inputs) -> dict[str, Any]:
    """Lateral value by the yield limit equations, and the mode that governs."""
    book = edition("nds", "2018")
    fastener = case.word("fastener")
    if fastener not in ("lag", "wood_screw", "nail"):
        raise BadCase(f"fastener is lag, wood_screw or nail, not {fastener!r}")
    D_nominal = case.value("d_in", "D", "in")
    D = case.value("dr_in", "D_r", "in") if "dr_in" in case else D_nominal
    theta, step = case.value("grain_deg", "theta", "deg"), _step(case)
    joint = lateral.Joint(
        D_nominal=D_nominal,
        D=D,
        D_K=case.value("kd_diameter_in", "D_K", "in") if "kd_diameter_in" in case else D,
        F_yb=case.value("fyb_psi", "F_yb", "psi"),
        l_m=_main_length(book, case, fastener),
        l_s=case.value("side_t_in", "l_s", "in"),
        F_em=bearing.strength(book, case.value("main_g", "G", "1"), D_nominal, theta, step),
        F_es=_side(book, case, D_nominal, theta, step),
        theta=theta,
        shear=case.word("shear"),
    )
    found = lateral.strength(book, joint)
    return {"z_lb": found.Z.quantity, "mode": found.mode}


def _tip(case: Inputs, fastener: str) -> Value:
    """The tip of a lag screw does not count and must be given; the length of a nail or screw counts with its tip."""
    return case.value("tip_in", "E", "in", None if fastener == "lag" else 0.0)


def _step(case: Inputs) -> Value | None:
    step = case.number("fe_rounded_to_psi", 0.0)
    return given("step", step, "psi", "case, fe_rounded_to_psi") if step > 0 else None


def _main_length(book: Edition, case: Inputs, fastener: str) -> Value:
    if "lm_in" in case:
        return case.value("lm_in", "l_m", "in")
    return lateral.bearing_length(book, case.value("penetration_in", "p", "in"), _tip(case, fastener))


def _side(book: Edition, case: Inputs, D: Value, theta: Value, step: Value | None) -> Value:
    side = case.word("side")
    if side == "steel":
        return case.value("side_fe_psi", "F_es", "psi")
    if side == "wood":
        return bearing.strength(book, case.value("side_g", "G", "1"), D, theta, step)
    raise BadCase(f"side is steel or wood, not {side!r}")
