"""Headed bolts cast into masonry, strength design, TMS 402 9.1.6."""

from typing import NamedTuple

from standfast.sheet import Value, work
from standfast.shelf import Edition


class BoltStrength(NamedTuple):
    """Nominal strengths of one bolt, lb, and the area of its full cone, in2."""

    A_pt: Value
    B_anb: Value
    B_ans: Value
    B_vnc: Value
    B_vnpry: Value
    B_vns: Value


def headed_bolt(book: Edition, *, f_m: Value, l_b: Value, A_b: Value, f_y: Value) -> BoltStrength:
    """Nominal strengths of a headed bolt in the face of a wall, its cone neither cut off nor shared.

    Args:
        book: the edition in force.
        f_m: masonry strength, psi.
        l_b: effective embedment, in.
        A_b: area of the bolt, in2.
        f_y: its yield strength, psi.

    Source: TMS 402 6.2.2 (area), 9.1.6.3.1 (tension), 9.1.6.3.2 (shear).
    """
    tension, shear = book.clause("tension"), book.clause("shear")
    A_pt = work("A_pt", "pi * l_b ** 2", "in2", book.clause("projected_area"), l_b=l_b)
    k_ban = book.number("tension_breakout")
    B_anb = work("B_anb", "k_ban * A_pt * sqrt(f_m)", "lb", tension, k_ban, A_pt, f_m=f_m)
    B_ans = work("B_ans", "A_b * f_y", "lb", tension, A_b=A_b, f_y=f_y)
    k_bvc = book.number("shear_crushing")
    B_vnc = work("B_vnc", "k_bvc * (f_m * A_b) ** 0.25", "lb", shear, k_bvc, f_m=f_m, A_b=A_b)
    k_pry = book.number("shear_pryout")
    B_vnpry = work("B_vnpry", "k_bvpry * A_pt * sqrt(f_m)", "lb", shear, k_pry, A_pt, f_m=f_m)
    B_vns = work("B_vns", "k_bvs * A_b * f_y", "lb", shear, book.number("shear_steel"), A_b=A_b, f_y=f_y)
    return BoltStrength(A_pt, B_anb, B_ans, B_vnc, B_vnpry, B_vns)


def design_breakout(book: Edition, B_anb: Value, bolts: Value) -> Value:
    """Design breakout strength in tension of `bolts` bolts, lb. Source: TMS 402 9.1.4."""
    phi, clause = book.number("phi_masonry"), book.clause("strength_reduction")
    return work("phi_B_anb", "phi * B_anb * n_b", "lb", clause, phi, B_anb=B_anb, n_b=bolts)


def shear_ratio_allowed(book: Edition, axial_ratio: Value) -> Value:
    """Share of the shear strength that is left beside a share of the tension strength; 0 where tension uses all.

    Source: TMS 402 9.1.6.5: the 5/3 powers of both shares add up to at most 1.
    """
    text = "max(0, r_max - r_an ** (5 / 3)) ** (3 / 5)"
    limit, clause = book.number("interaction_limit"), book.clause("interaction")
    return work("r_vn", text, "1", clause, r_max=limit, r_an=axial_ratio)
