"""Concrete breakout in shear and pryout, ACI 318 17.7.2 and 17.7.3."""

from typing import Literal, NamedTuple

from standfast.rulebooks.aci318.concrete import concrete_strength, edge_factor, extent
from standfast.sheet import Value, chosen, work, worst
from standfast.shelf import Edition

Attachment = Literal["loose", "welded"]
Direction = Literal["to edge", "parallel"]


class EdgeRow(NamedTuple):
    """One row of anchors along an edge, loaded in shear.

    Attributes:
        c_a1: distance from the row to the edge, in.
        gaps: spacings along the edge, in; empty for one anchor.
        c_2_neg: from the outermost anchor to the side edge on one side, in; None where there is none near.
        c_2_pos: to the other side edge.
        h_a: thickness of the member, in; None where it is thick enough not to matter.
        e_V: distance of the shear from the centre of the row, in; None where it acts at the centre.
    """

    c_a1: Value
    gaps: tuple[Value, ...] = ()
    c_2_neg: Value | None = None
    c_2_pos: Value | None = None
    h_a: Value | None = None
    e_V: Value | None = None


class Area(NamedTuple):
    """Projected area and the factors of geometry; the edge distance that counts in, areas in2."""

    c_a1: Value
    A_Vc: Value
    A_Vco: Value
    psi_ec: Value
    psi_ed: Value
    psi_h: Value


class ShearBreakout(NamedTuple):
    """Breakout strength in shear and its steps, lb."""

    area: Area
    psi_ed: Value
    V_b_a: Value
    V_b_b: Value
    V_b: Value
    V_cb: Value


def effective_edge(book: Edition, row: EdgeRow) -> Value:
    """Edge distance that counts in a member that is narrow on both sides and thin, in; else the distance itself.

    Source: ACI 318 17.7.2.1.2.
    """
    sides = (row.c_2_neg, row.c_2_pos, row.h_a)
    if row.c_2_neg is None or row.c_2_pos is None or row.h_a is None:
        return row.c_a1
    clause, side = book.clause("shear_narrow"), book.number("shear_area_side")
    facts = [row.c_a1, *row.gaps, *(each for each in sides if each is not None)]
    if any(fact.missing for fact in facts):
        return chosen("c_a1_n", 0.0, "in", "", clause, *facts)
    limit = side.quantity * row.c_a1.quantity
    if any(each.quantity >= limit for each in (row.c_2_neg, row.c_2_pos, row.h_a)):
        return row.c_a1
    widest = worst("c_max", [row.c_2_neg, row.c_2_pos, row.h_a], "max", clause)
    if not row.gaps:
        return work("c_a1_n", "min(c_a1, c_max / k_cv)", "in", clause, side, widest, c_a1=row.c_a1)
    s_max = worst("s_max", row.gaps, "max", clause)
    text = "min(c_a1, max(c_max / k_cv, s_max / (2 * k_cv)))"
    return work("c_a1_n", text, "in", clause, side, widest, s_max, c_a1=row.c_a1)


def shear_area(book: Edition, row: EdgeRow) -> Area:
    """Projected area of a row and the factors of its geometry. Source: ACI 318 17.7.2.1 to 17.7.2.6."""
    area = book.clause("shear_area")
    c_a1 = effective_edge(book, row)
    reach = _reach(book, c_a1)
    width = extent("b_V", area, reach, row.c_2_neg, row.gaps, row.c_2_pos)
    if row.h_a is None:
        depth = work("h_V", "c_reach", "in", area, reach)
    else:
        depth = work("h_V", "min(h_a, c_reach)", "in", area, reach, h_a=row.h_a)
    A_Vc = work("A_Vc", "b_V * h_V", "in2", area, width, depth)
    A_Vco = work("A_Vco", "2 * c_reach * c_reach", "in2", area, reach)
    return _area(book, row, c_a1, A_Vc, A_Vco)


def given_area(book: Edition, row: EdgeRow, A_Vc: Value, A_Vco: Value) -> Area:
    """The factors of geometry beside projected areas that were found otherwise, in2."""
    return _area(book, row, row.c_a1, A_Vc, A_Vco)


def shear_breakout(
    book: Edition,
    area: Area,
    *,
    d_a: Value,
    h_ef: Value,
    f_c: Value,
    lambda_a: Value,
    psi_c: Value,
    attachment: Attachment,
    direction: Direction,
    install: str = "cast-in",
) -> ShearBreakout:
    """Breakout strength in shear of a row of anchors near an edge.

    Args:
        book: the edition in force.
        area: from shear_area.
        d_a: diameter of the anchor, in.
        h_ef: embedment depth, in.
        f_c: concrete strength, psi.
        lambda_a: factor of lightweight concrete.
        psi_c: ``book.number("shear_cracked_plain")``, ``"shear_cracked_edge_bar"`` or ``"shear_uncracked"``.
        attachment: ``welded`` for studs welded rigidly to the plate, else ``loose``.
        direction: ``to edge``, or ``parallel`` to it: twice the strength, no loss by side edges.
        install: ``cast-in`` or ``post-installed``: sets how much of f_c counts.

    Source: ACI 318 17.7.2.1, 17.7.2.2.
    """
    V_b_a, V_b_b = basic_strengths(
        book, d_a=d_a, h_ef=h_ef, f_c=concrete_strength(book, f_c, install), lambda_a=lambda_a, c_a1=area.c_a1,
        attachment=attachment,
    )  # fmt: skip
    V_b = work("V_b", "min(V_b_a, V_b_b)", "lb", book.clause("shear_basic"), V_b_a, V_b_b)
    text = "A_Vc / A_Vco * psi_ec_V * psi_ed_V * psi_c_V * psi_h_V * V_b"
    parts = {"A_Vc": area.A_Vc, "A_Vco": area.A_Vco, "psi_ec_V": area.psi_ec, "psi_h_V": area.psi_h}
    if direction == "to edge":
        clause = book.clause("shear_breakout")
        V_cb = work("V_cb", text, "lb", clause, V_b, psi_ed_V=area.psi_ed, psi_c_V=psi_c, **parts)
        return ShearBreakout(area, area.psi_ed, V_b_a, V_b_b, V_b, V_cb)
    clause, twice = book.clause("shear_parallel"), book.number("shear_parallel_multiple")
    psi_ed = chosen("psi_ed_V", 1.0, "1", "the shear acts parallel to the edge", clause)
    V_cb = work("V_cb", f"k_par * {text}", "lb", clause, twice, V_b, psi_ed, psi_c_V=psi_c, **parts)
    return ShearBreakout(area, psi_ed, V_b_a, V_b_b, V_b, V_cb)


def basic_strengths(
    book: Edition,
    *,
    d_a: Value,
    h_ef: Value,
    f_c: Value,
    lambda_a: Value,
    c_a1: Value,
    attachment: Attachment,
) -> tuple[Value, Value]:
    """The two expressions for the basic strength of one anchor, lb; the lesser counts. ACI 318 17.7.2.2."""
    clause = book.clause("shear_basic" if attachment == "loose" else "shear_basic_welded")
    l_e = work("l_e", "min(h_ef, k_le * d_a)", "in", clause, book.number("shear_length_limit"), h_ef=h_ef, d_a=d_a)
    k_va = book.number(f"shear_coefficient_{attachment}")
    text = "k_va * (l_e / d_a) ** 0.2 * sqrt(d_a) * lambda_a * sqrt(f_c) * c_a1 ** 1.5"
    first = work("V_b_a", text, "lb", clause, k_va, l_e, d_a=d_a, lambda_a=lambda_a, f_c=f_c, c_a1=c_a1)
    limit = book.number("shear_coefficient_limit")
    text = "k_vb * lambda_a * sqrt(f_c) * c_a1 ** 1.5"
    return first, work("V_b_b", text, "lb", clause, limit, lambda_a=lambda_a, f_c=f_c, c_a1=c_a1)


def pryout(book: Edition, h_ef: Value, N_cp: Value) -> Value:
    """Pryout strength, lb: N_cp is the breakout (adhesive: the lesser of breakout and bond) strength in tension, lb.

    Source: ACI 318 17.7.3.1.
    """
    return work("V_cp", "k_cp * N_cp", "lb", book.clause("pryout"), pryout_factor(book, h_ef), N_cp=N_cp)


def pryout_factor(book: Edition, h_ef: Value) -> Value:
    """1 for shallow anchors, 2 from a depth of 2.5 in. Source: ACI 318 17.7.3.1."""
    limit = book.number("pryout_depth")
    if h_ef.missing:
        return chosen("k_cp", 0.0, "1", "", limit.clause, h_ef)
    shallow = h_ef.quantity < limit.quantity
    factor = book.number("pryout_shallow" if shallow else "pryout_deep")
    words = f"{'less than' if shallow else 'at least'} {limit.quantity:g} in deep"
    return chosen("k_cp", factor.quantity, "1", words, factor.clause, h_ef, factor)


def _area(book: Edition, row: EdgeRow, c_a1: Value, A_Vc: Value, A_Vco: Value) -> Area:
    reach = _reach(book, c_a1)
    ec_clause, h_clause = book.clause("shear_eccentricity"), book.clause("shear_thickness")
    if row.e_V is None:
        psi_ec = chosen("psi_ec_V", 1.0, "1", "the shear acts at the centre", ec_clause)
    else:
        psi_ec = work("psi_ec_V", "min(1, 1 / (1 + e_V / c_reach))", "1", ec_clause, reach, e_V=row.e_V)
    if row.h_a is None:
        psi_h = chosen("psi_h_V", 1.0, "1", "the member is thick", h_clause)
    else:
        psi_h = work("psi_h_V", "max(1, sqrt(c_reach / h_a))", "1", h_clause, reach, h_a=row.h_a)
    psi_ed = edge_factor(book, "psi_ed_V", book.clause("shear_edge"), reach, [row.c_2_neg, row.c_2_pos])
    return Area(c_a1, A_Vc, A_Vco, psi_ec, psi_ed, psi_h)


def _reach(book: Edition, c_a1: Value) -> Value:
    return work("c_reach", "k_cv * c_a1", "in", book.clause("shear_area"), book.number("shear_area_side"), c_a1=c_a1)
