"""Bond of adhesive anchors, ACI 318 17.6.5: one anchor, or one row parallel to an edge. Masonry criteria cite it."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.rulebooks.aci318.concrete import edge_factor, extent
from standfast.sheet import Value, work
from standfast.shelf import Edition


class Bond(NamedTuple):
    """Bond strength and its steps; lengths in, areas in2, strengths lb."""

    c_Na: Value
    A_Na: Value
    A_Nao: Value
    psi_ed: Value
    N_ba: Value
    N_ag: Value


def bond(
    book: Edition,
    *,
    tau: Value,
    tau_uncr: Value,
    d_a: Value,
    h_ef: Value,
    lambda_a: Value | None = None,
    spacings: Sequence[Value] = (),
    edge: Value | None = None,
) -> Bond:
    """Bond strength of an adhesive anchor or of a row of them.

    Args:
        book: the edition in force.
        tau: characteristic bond stress of the product report for the state of the concrete, psi.
        tau_uncr: that in uncracked concrete, which sets how far an anchor reaches, psi.
        d_a: diameter of the anchor, in.
        h_ef: embedment depth, in.
        lambda_a: factor of lightweight concrete; None in masonry, where the stress already holds it.
        spacings: gaps along the row, in.
        edge: distance of the row from an edge parallel to it, in; None where there is none near.

    Returns:
        The strength and its steps. The splitting factor of 17.6.5.5 is not in it: cracked concrete has none.

    Source: ACI 318 17.6.5.1, 17.6.5.2, 17.6.5.4.
    """
    area, basic = book.clause("bond_area"), book.clause("bond_basic")
    reach_text = "k_Na * d_a * sqrt(tau_uncr / tau_ref)"
    reach_numbers = (book.number("bond_reach"), book.number("bond_reference"))
    c_Na = work("c_Na", reach_text, "in", area, *reach_numbers, d_a=d_a, tau_uncr=tau_uncr)
    along = extent("b_along", area, c_Na, None, spacings, None)
    across = extent("b_across", area, c_Na, edge, (), None)
    A_Na = work("A_Na", "b_along * b_across", "in2", area, along, across)
    A_Nao = work("A_Nao", "(2 * c_Na) ** 2", "in2", area, c_Na)
    if lambda_a is None:
        text = "tau * pi * d_a * h_ef"
        N_ba = work("N_ba", text, "lb", basic, tau=tau, d_a=d_a, h_ef=h_ef)
    else:
        text = "lambda_a * tau * pi * d_a * h_ef"
        N_ba = work("N_ba", text, "lb", basic, lambda_a=lambda_a, tau=tau, d_a=d_a, h_ef=h_ef)
    psi_ed = edge_factor(book, "psi_ed_Na", book.clause("bond_edge"), c_Na, [edge])
    N_ag = work("N_ag", "A_Na / A_Nao * psi_ed_Na * N_ba", "lb", book.clause("bond"), A_Na, A_Nao, psi_ed, N_ba)
    return Bond(c_Na, A_Na, A_Nao, psi_ed, N_ba, N_ag)
