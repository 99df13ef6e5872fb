"""Steel and concrete edge in shear, EN 1992-4 7.2.2; N, mm, MPa."""

from typing import NamedTuple

from standfast.sheet import Value, chosen, work
from standfast.shelf import Edition


class EdgeShear(NamedTuple):
    """Resistance of the concrete edge and its steps; areas mm2, forces N."""

    V0_Rk_c: Value
    A_c: Value
    A0_c: Value
    area_ratio: Value
    psi_s: Value
    psi_h: Value
    V_Rd_c: Value


def shear_share(book: Edition, f_uk: Value) -> Value:
    """Share of the tensile strength that counts in shear without lever arm. Source: EN 1992-4 7.2.2.3.1."""
    if f_uk.missing:
        return chosen("k_6", 0.0, "1", "", book.clause("steel_shear"), f_uk)
    return book.table("k6").pick("k_6", "k_6", f_uk, fuk_mpa=f_uk.quantity)


def steel_shear(book: Edition, *, A_s: Value, f_uk: Value, k_6: Value, gamma_Ms: Value) -> Value:
    """Design resistance of the steel without lever arm, N: A_s mm2, f_uk MPa. Source: EN 1992-4 7.2.2.3.1."""
    clause = book.clause("steel_shear")
    text = "k_6 * A_s * f_uk / gamma_Ms"
    return work("V_Rd_s", text, "N", clause, k_6=k_6, A_s=A_s, f_uk=f_uk, gamma_Ms=gamma_Ms)


def concrete_edge(
    book: Edition,
    *,
    k_9: Value,
    d: Value,
    l_f: Value,
    f: Value,
    c_1: Value,
    gamma_Mc: Value,
    c_2: Value | None = None,
    h: Value | None = None,
) -> EdgeShear:
    """Resistance of the concrete edge for one fastener, sheared towards it.

    Args:
        book: the edition in force.
        k_9: ``book.number("k9_cracked")`` or ``"k9_uncracked"``, or the coefficient of an older text.
        d: diameter, mm.
        l_f: length that takes the shear, mm.
        f: concrete strength that belongs to k_9, MPa.
        c_1: distance to the edge, mm.
        gamma_Mc: partial factor.
        c_2: distance to the nearest side edge, mm; None where both are far.
        h: thickness of the member, mm; None where it is thick enough not to matter.

    Source: EN 1992-4 7.2.2.5.
    """
    clause, area, share = book.clause("edge"), book.clause("edge_area"), book.number("edge_depth_factor")
    alpha = work("alpha", "k_a * (l_f / c_1) ** 0.5", "1", clause, share, l_f=l_f, c_1=c_1)
    beta = work("beta", "k_a * (d / c_1) ** 0.2", "1", clause, share, d=d, c_1=c_1)
    text = "k_9 * d ** alpha * l_f ** beta * sqrt(f) * c_1 ** 1.5"
    V0_Rk_c = work("V0_Rk_c", text, "N", clause, alpha, beta, k_9=k_9, d=d, l_f=l_f, f=f, c_1=c_1)
    reach = work("c_reach", "k_c1 * c_1", "mm", area, book.number("edge_reach"), c_1=c_1)
    width = work("b_V", "c_reach + min(c_2, c_reach)", "mm", area, reach, c_2=reach if c_2 is None else c_2)
    depth = work("h_V", "min(h, c_reach)", "mm", area, reach, h=reach if h is None else h)
    A_c = work("A_c_V", "b_V * h_V", "mm2", area, width, depth)
    A0_c = work("A0_c_V", "2 * c_reach * c_reach", "mm2", area, reach)
    ratio = work("r_A", "A_c_V / A0_c_V", "1", area, A_c, A0_c)
    psi_s, psi_h = _side_factor(book, reach, c_2), _thickness_factor(book, reach, h)
    text = "V0_Rk_c * r_A * psi_s_V * psi_h_V / gamma_Mc"
    V_Rd_c = work("V_Rd_c", text, "N", clause, V0_Rk_c, ratio, psi_s, psi_h, gamma_Mc=gamma_Mc)
    return EdgeShear(V0_Rk_c, A_c, A0_c, ratio, psi_s, psi_h, V_Rd_c)


def _side_factor(book: Edition, reach: Value, c_2: Value | None) -> Value:
    clause = book.clause("edge_side")
    if c_2 is None:
        return chosen("psi_s_V", 1.0, "1", "no side edge is near", clause)
    base, slope = book.number("edge_base"), book.number("edge_slope")
    return work("psi_s_V", "min(1, a_s + b_s * c_2 / c_reach)", "1", clause, base, slope, reach, c_2=c_2)


def _thickness_factor(book: Edition, reach: Value, h: Value | None) -> Value:
    clause = book.clause("edge_thickness")
    if h is None:
        return chosen("psi_h_V", 1.0, "1", "the member is thick", clause)
    return work("psi_h_V", "max(1, sqrt(c_reach / h))", "1", clause, reach, h=h)
