"""Yield limits of a dowel in single shear whose members stand apart by a gap (TR12; lb, in, psi).

A lining that carries nothing, such as plasterboard between a bracket and a stud, is a gap: the dowel bends across it.
At no gap the equations give what the yield limit equations of the wood standard give.
"""

from typing import NamedTuple

from standfast.sheet import Value, missing, work
from standfast.shelf import Edition


class Dowel(NamedTuple):
    """One fastener through a side member and a gap into a main member; lengths in inches, strengths in psi.

    Attributes:
        D: diameter in the yield equations (root diameter of a threaded fastener).
        F_yb: bending yield strength.
        l_m: bearing length in the main member.
        l_s: bearing length in the side member.
        F_em: bearing strength of the main member.
        F_es: bearing strength of the side member.
        g: gap between the members.
        R_I: reduction term of mode I.
        R_II: reduction term of mode II.
        R_III: reduction term of modes III and IV.
    """

    D: Value
    F_yb: Value
    l_m: Value
    l_s: Value
    F_em: Value
    F_es: Value
    g: Value
    R_I: Value
    R_II: Value
    R_III: Value


class Lateral(NamedTuple):
    """The reference lateral value in lb, the mode that governs, and the value of every mode."""

    Z: Value
    mode: str
    modes: dict[str, Value]


def strength(book: Edition, dowel: Dowel) -> Lateral:
    """Z: the least of the yield modes, each over its reduction term."""
    clause = book.clause("yield_modes")
    q_m = work("q_m", "F_em * D", "lb/in", clause, F_em=dowel.F_em, D=dowel.D)
    q_s = work("q_s", "F_es * D", "lb/in", clause, F_es=dowel.F_es, D=dowel.D)
    M = work("M", "F_yb * D ** 3 / 6", "lb·in", clause, F_yb=dowel.F_yb, D=dowel.D)
    l_m, l_s, g = dowel.l_m, dowel.l_s, dowel.g
    modes = {
        "Im": work("Z_Im", "q_m * l_m / R_d", "lb", clause, q_m, l_m=l_m, R_d=dowel.R_I),
        "Is": work("Z_Is", "q_s * l_s / R_d", "lb", clause, q_s, l_s=l_s, R_d=dowel.R_I),
        "II": _root(book, "II", dowel.R_II,
                    work("A", "1 / (4 * q_s) + 1 / (4 * q_m)", "in/lb", clause, q_s, q_m),
                    work("B", "l_s / 2 + g + l_m / 2", "in", clause, l_s=l_s, g=g, l_m=l_m),
                    work("C", "q_s * l_s ** 2 / 4 + q_m * l_m ** 2 / 4", "lb·in", clause, q_s, q_m, l_s=l_s, l_m=l_m)),
        "IIIm": _root(book, "IIIm", dowel.R_III,
                      work("A", "1 / (2 * q_s) + 1 / (4 * q_m)", "in/lb", clause, q_s, q_m),
                      work("B", "g + l_m / 2", "in", clause, g=g, l_m=l_m),
                      work("C", "M + q_m * l_m ** 2 / 4", "lb·in", clause, M, q_m, l_m=l_m)),
        "IIIs": _root(book, "IIIs", dowel.R_III,
                      work("A", "1 / (4 * q_s) + 1 / (2 * q_m)", "in/lb", clause, q_s, q_m),
                      work("B", "l_s / 2 + g", "in", clause, l_s=l_s, g=g),
                      work("C", "M + q_s * l_s ** 2 / 4", "lb·in", clause, M, q_s, l_s=l_s)),
        "IV": _root(book, "IV", dowel.R_III,
                    work("A", "1 / (2 * q_s) + 1 / (2 * q_m)", "in/lb", clause, q_s, q_m),
                    work("B", "g", "in", clause, g=g),
                    work("C", "2 * M", "lb·in", clause, M)),
    }  # fmt: skip
    lacking = next((value for value in modes.values() if value.missing), None)
    if lacking is not None:
        return Lateral(missing("Z", "lb", lacking.how, lacking), "", modes)
    mode = min(modes, key=lambda name: modes[name].quantity)
    names = {f"Z_{name}": value for name, value in modes.items()}
    return Lateral(work("Z", f"min({', '.join(names)})", "lb", clause, **names), mode, modes)


def _root(book: Edition, mode: str, R_d: Value, A: Value, B: Value, C: Value) -> Value:
    """The load at which a mode yields: the positive root of A P² + B P − C = 0, over the reduction term."""
    P = work("P", "(sqrt(B ** 2 + 4 * A * C) - B) / (2 * A)", "lb", book.clause("yield_modes"), A, B, C)
    return work(f"Z_{mode}", "P / R_d", "lb", book.clause("yield_modes"), P, R_d=R_d)
