"""Steel, bond and concrete cone in tension, EN 1992-4 7.2.1; N, mm, MPa."""

from standfast.sheet import Value, chosen, work
from standfast.shelf import Edition


def steel_tension(book: Edition, *, A_s: Value, f_uk: Value, gamma_Ms: Value) -> Value:
    """Design resistance of the steel, N: A_s mm2, f_uk MPa. Source: EN 1992-4 7.2.1.3."""
    clause = book.clause("steel_tension")
    return work("N_Rd_s", "A_s * f_uk / gamma_Ms", "N", clause, A_s=A_s, f_uk=f_uk, gamma_Ms=gamma_Ms)


def bond(book: Edition, *, d: Value, h_ef: Value, tau_Rk: Value, gamma_Mp: Value) -> Value:
    """Design resistance of the bond of one fastener away from edges, N: d, h_ef mm, tau_Rk MPa. EN 1992-4 7.2.1.6."""
    text = "pi * d * h_ef * tau_Rk / gamma_Mp"
    return work("N0_Rd_p", text, "N", book.clause("bond"), d=d, h_ef=h_ef, tau_Rk=tau_Rk, gamma_Mp=gamma_Mp)


def cone(book: Edition, *, k_1: Value, f: Value, h_ef: Value, gamma_Mc: Value) -> Value:
    """Design resistance of the concrete cone of one fastener away from edges, N.

    Args:
        book: the edition in force.
        k_1: ``book.table("k1")``, or the coefficient of an older text.
        f: concrete strength that belongs to k_1, MPa: of a cylinder here, of a cube in the texts before.
        h_ef: embedment depth, mm.
        gamma_Mc: partial factor.

    Source: EN 1992-4 7.2.1.4.
    """
    text = "k_1 * sqrt(f) * h_ef ** 1.5 / gamma_Mc"
    return work("N0_Rd_c", text, "N", book.clause("cone"), k_1=k_1, f=f, h_ef=h_ef, gamma_Mc=gamma_Mc)


def edge_factor(book: Edition, h_ef: Value, c: Value) -> Value:
    """Loss by the nearest edge c mm, never above 1. Source: EN 1992-4 7.2.1.4(4)."""
    numbers = (book.number("edge_base"), book.number("edge_slope"), book.number("cone_reach"))
    text = "min(1, a_s + b_s * c / (k_cr * h_ef))"
    return work("psi_s_N", text, "1", book.clause("cone_edge"), *numbers, c=c, h_ef=h_ef)


def dense_reinforcement_factor(book: Edition, h_ef: Value, dense: Value) -> Value:
    """Loss of shallow fasteners in dense reinforcement, never above 1; `dense` is yes or no. EN 1992-4 7.2.1.4(5)."""
    clause = book.clause("cone_dense")
    if dense.missing or not dense.yes:
        return chosen("psi_re_N", 1.0, "1", "reinforcement is not dense", clause, dense)
    base, depth = book.number("dense_base"), book.number("dense_depth")
    return work("psi_re_N", "min(1, a_re + h_ef / h_re)", "1", clause, base, depth, h_ef=h_ef)


def eccentricity_factor(book: Edition, h_ef: Value, e_N: Value) -> Value:
    """Loss where the resultant lies e_N mm off the centre of the fasteners in tension. EN 1992-4 7.2.1.4(6)."""
    text = "min(1, 1 / (1 + e_N / (k_cr * h_ef)))"
    clause = book.clause("cone_eccentric")
    return work("psi_ec_N", text, "1", clause, book.number("cone_reach"), e_N=e_N, h_ef=h_ef)
