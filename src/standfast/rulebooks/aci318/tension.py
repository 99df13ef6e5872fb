"""Concrete breakout in tension of one anchor or a rectangular group, ACI 318 17.6.2."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.rulebooks.aci318.concrete import concrete_strength, edge_factor, extent
from standfast.sheet import Value, chosen, work, worst
from standfast.shelf import Edition


class Layout(NamedTuple):
    """One anchor or a rectangular group, and the concrete around it.

    Attributes:
        s_x: gaps between the columns, in; empty for one column.
        s_y: gaps between the rows, in; empty for one row.
        c_x_neg: distance from the outermost anchor to the edge on one side, in; None where there is no edge near.
        c_x_pos: to the edge on the other side.
        c_y_neg: below.
        c_y_pos: above.
    """

    s_x: tuple[Value, ...] = ()
    s_y: tuple[Value, ...] = ()
    c_x_neg: Value | None = None
    c_x_pos: Value | None = None
    c_y_neg: Value | None = None
    c_y_pos: Value | None = None

    @property
    def edges(self) -> list[Value]:
        """The edges that are near."""
        return [c for c in (self.c_x_neg, self.c_x_pos, self.c_y_neg, self.c_y_pos) if c is not None]

    @property
    def gaps(self) -> tuple[Value, ...]:
        """All gaps."""
        return self.s_x + self.s_y


class Breakout(NamedTuple):
    """Breakout strength with the steps that a reviewer asks for; lengths in, areas in2, strengths lb."""

    h_ef: Value
    A_Nc: Value
    A_Nco: Value
    psi_ed: Value
    psi_c: Value
    N_b: Value
    N_cb: Value


def effective_depth(book: Edition, h_ef: Value, layout: Layout) -> Value:
    """Depth that counts where three or four edges are nearer than the breakout body reaches, in; else the depth itself.

    Source: ACI 318 17.6.2.1.2.
    """
    clause, reach = book.clause("tension_narrow"), book.number("breakout_reach")
    facts = [h_ef, *layout.edges, *layout.gaps]
    if any(fact.missing for fact in facts):
        return chosen("h_ef_n", 0.0, "in", "", clause, *facts)
    near = [edge for edge in layout.edges if edge.quantity < reach.quantity * h_ef.quantity]
    if len(near) < 3:
        return h_ef
    c_max = worst("c_a_max", near, "max", clause)
    if not layout.gaps:
        return work("h_ef_n", "min(h_ef, c_a_max / k_cr)", "in", clause, reach, c_max, h_ef=h_ef)
    s_max = worst("s_max", layout.gaps, "max", clause)
    text = "min(h_ef, max(c_a_max / k_cr, s_max / (2 * k_cr)))"
    return work("h_ef_n", text, "in", clause, reach, c_max, s_max, h_ef=h_ef)


def basic_strength(book: Edition, k_c: Value, lambda_a: Value, f_c: Value, h_ef: Value, install: str) -> Value:
    """Basic breakout strength of one anchor in cracked concrete, lb. Source: ACI 318 17.6.2.2.1."""
    strength = concrete_strength(book, f_c, install)
    text = "k_c * lambda_a * sqrt(f_c_used) * h_ef ** 1.5"
    clause = book.clause("tension_basic")
    return work("N_b", text, "lb", clause, strength, k_c=k_c, lambda_a=lambda_a, h_ef=h_ef)


def basic_strength_deep(book: Edition, lambda_a: Value, f_c: Value, h_ef: Value, h_counts: Value) -> Value:
    """The form permitted for deep cast-in headed anchors, lb.

    Args:
        book: the edition in force.
        lambda_a: factor of lightweight concrete.
        f_c: concrete strength, psi.
        h_ef: embedment depth, in, which must lie between the ends of the clause.
        h_counts: the depth that counts (effective_depth), in.

    Raises:
        OutsideTable: where the depth lies outside the range of the clause.

    Source: ACI 318 17.6.2.2.3.
    """
    low, high, clause = book.number("deep_from"), book.number("deep_to"), book.clause("tension_basic_deep")
    if not h_ef.missing and not low.quantity <= h_ef.quantity <= high.quantity:
        raise OutsideTable(f"{clause} holds from {low.quantity:g} in to {high.quantity:g} in deep")
    strength = concrete_strength(book, f_c, "cast-in")
    text = "k_deep * lambda_a * sqrt(f_c_used) * h_ef ** (5 / 3)"
    return work("N_b", text, "lb", clause, strength, book.number("deep_coefficient"), lambda_a=lambda_a, h_ef=h_counts)


def cracking_factor(book: Edition, install: str, cracked: Value, k_c: Value) -> Value:
    """Gain where analysis shows no cracks.

    A post-installed anchor has it only with the coefficient of the code: a product report states its own pair.

    Args:
        book: the edition in force.
        install: ``cast-in`` or ``post-installed``.
        cracked: yes or no; ``book.bounding("cracked_unknown", reason)`` where nobody has shown that there are none.
        k_c: the coefficient used in the basic strength.

    Source: ACI 318 17.6.2.5.1.
    """
    clause = book.clause("tension_cracking")
    if cracked.missing:
        return chosen("psi_c_N", 1.0, "1", "", clause, cracked)
    if cracked.yes:
        return _branch(book.number("cracking_cracked"), "concrete may be cracked", cracked)
    if install == "cast-in":
        return _branch(book.number("cracking_cast_in"), "cast in, no cracks", cracked)
    if k_c.quantity == book.number("kc_post_installed").quantity:
        return _branch(
            book.number("cracking_post_installed"), "post-installed, no cracks, coefficient of the code", k_c
        )
    return _branch(book.number("cracking_cracked"), "coefficient of a product report, which holds its own factor", k_c)


def splitting_factor(book: Edition, h_ef: Value, c_min: Value, c_ac: Value) -> Value:
    """Loss by splitting for a post-installed anchor in concrete without cracks or added reinforcement.

    Args:
        book: the edition in force.
        h_ef: embedment depth, in.
        c_min: nearest edge, in.
        c_ac: critical edge distance of the product report, in.

    Source: ACI 318 17.6.2.6.1.
    """
    text = "min(1, max(c_a_min, k_cr * h_ef) / c_ac)"
    reach, clause = book.number("breakout_reach"), book.clause("tension_splitting")
    return work("psi_cp_N", text, "1", clause, reach, h_ef=h_ef, c_a_min=c_min, c_ac=c_ac)


def eccentricity_factor(book: Edition, h_ef: Value, e_N: Value) -> Value:
    """Loss where the resultant lies e_N in off the centre of the anchors in tension. Source: ACI 318 17.6.2.3.1."""
    reach, clause = book.number("breakout_reach"), book.clause("tension_eccentricity")
    return work("psi_ec_N", "min(1, 1 / (1 + e_N / (k_cr * h_ef)))", "1", clause, reach, h_ef=h_ef, e_N=e_N)


def breakout(
    book: Edition,
    *,
    f_c: Value,
    h_ef: Value,
    lambda_a: Value,
    cracked: Value,
    install: str,
    k_c: Value | None = None,
    deep_form: bool = False,
    layout: Layout | None = None,
    further: Sequence[Value] = (),
) -> Breakout:
    """Breakout strength of one anchor or a group.

    Args:
        book: the edition in force.
        f_c: specified concrete strength, psi.
        h_ef: embedment depth, in.
        lambda_a: factor of lightweight concrete for anchors, 1 for normal weight.
        cracked: yes or no, see cracking_factor.
        install: ``cast-in`` or ``post-installed``.
        k_c: coefficient of the product report; None for that of the code.
        deep_form: use the form for cast-in anchors 11 to 25 in deep, without k_c.
        layout: spacings and edges; None for one anchor far from edges.
        further: splitting_factor and eccentricity_factor where they apply.

    Returns:
        The strength and its steps.

    Raises:
        OutsideTable: for the deep form outside its range.

    Source: ACI 318 17.6.2.1.
    """
    layout = layout or Layout()
    clause, area, ratio = book.clause("tension_breakout"), book.clause("tension_area"), book.number("breakout_reach")
    depth = effective_depth(book, h_ef, layout)
    reach = work("c_reach", "k_cr * h_ef", "in", area, ratio, h_ef=depth)
    width = extent("b_x", area, reach, layout.c_x_neg, layout.s_x, layout.c_x_pos)
    height = extent("b_y", area, reach, layout.c_y_neg, layout.s_y, layout.c_y_pos)
    A_Nc = work("A_Nc", "b_x * b_y", "in2", area, width, height)
    A_Nco = work("A_Nco", "(2 * c_reach) ** 2", "in2", area, reach)
    psi_ed = edge_factor(book, "psi_ed_N", book.clause("tension_edge"), reach, layout.edges)
    coefficient = k_c if k_c is not None else book.number("kc_cast_in" if install == "cast-in" else "kc_post_installed")
    if deep_form:
        N_b = basic_strength_deep(book, lambda_a, f_c, h_ef, depth)
    else:
        N_b = basic_strength(book, coefficient, lambda_a, f_c, depth, install)
    psi_c = cracking_factor(book, install, cracked, coefficient)
    factors = {f"psi_{number}": factor for number, factor in enumerate((psi_ed, psi_c, *further), 1)}
    text = " * ".join(("A_Nc / A_Nco", *factors, "N_b"))
    N_cb = work("N_cb", text, "lb", clause, A_Nc, A_Nco, N_b, **factors)
    return Breakout(depth, A_Nc, A_Nco, psi_ed, psi_c, N_b, N_cb)


def _branch(number: Value, condition: str, fact: Value) -> Value:
    return chosen(number.symbol, number.quantity, "1", condition, number.clause, fact, number)
