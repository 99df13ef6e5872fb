"""Masonry breakout of adhesive anchors in tension, AC58."""

from typing import NamedTuple

from standfast.sheet import Value, chosen, work
from standfast.shelf import Edition


class MasonryBreakout(NamedTuple):
    """Breakout strength and its steps; areas in2, strengths lb."""

    A_Nmo: Value
    psi_ed: Value
    N_bm: Value
    N_mbg: Value


def masonry_breakout(
    book: Edition, *, f_m: Value, h_ef: Value, A_Nm: Value, edge: Value | None = None, k_m: Value | None = None
) -> MasonryBreakout:
    """Breakout strength of an adhesive anchor or a pair in grouted masonry.

    Args:
        book: the edition in force.
        f_m: masonry strength, psi.
        h_ef: embedment depth, in.
        A_Nm: projected area of the anchors together, in2, cut off at edges and head joints.
        edge: nearest edge or head joint, in; None where there is none near.
        k_m: coefficient of the product report; None for that of the criteria.

    Source: AC58, masonry breakout in tension.
    """
    clause, area, ratio = book.clause("breakout"), book.clause("area"), book.number("breakout_reach")
    coefficient = k_m if k_m is not None else book.number("km_uncracked")
    text = "k_m * sqrt(f_m) * h_ef ** 1.5"
    N_bm = work("N_bm", text, "lb", clause, k_m=coefficient, f_m=f_m, h_ef=h_ef)
    A_Nmo = work("A_Nmo", "(2 * k_cr * h_ef) ** 2", "in2", area, ratio, h_ef=h_ef)
    psi_ed = _edge_factor(book, h_ef, edge)
    N_mbg = work("N_mbg", "A_Nm / A_Nmo * psi_ed_m * N_bm", "lb", clause, A_Nmo, psi_ed, N_bm, A_Nm=A_Nm)
    return MasonryBreakout(A_Nmo, psi_ed, N_bm, N_mbg)


def utilisation(book: Edition, N_ua: Value, phi: Value, N_mbg: Value) -> Value:
    """Share of the design strength that a tension uses."""
    return work("u_N", "N_ua / (phi * N_mbg)", "1", book.clause("breakout"), N_ua=N_ua, phi=phi, N_mbg=N_mbg)


def _edge_factor(book: Edition, h_ef: Value, edge: Value | None) -> Value:
    clause = book.clause("edge")
    if edge is None:
        return chosen("psi_ed_m", 1.0, "1", "no edge or head joint is near", clause)
    numbers = (book.number("edge_base"), book.number("edge_slope"), book.number("breakout_reach"))
    text = "min(1, a_ed + b_ed * c_a / (k_cr * h_ef))"
    return work("psi_ed_m", text, "1", clause, *numbers, c_a=edge, h_ef=h_ef)
