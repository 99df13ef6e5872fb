"""Preload and torque of a bolt, by share of yield (VDI 2230) or by nut factor; and whether a printed torque is sane.

The maker's printed torque always wins: the formulas are a band of reason around it. N, mm, MPa; torque in N·m.
"""

from typing import NamedTuple

from standfast.sheet import Value, work
from standfast.shelf import Edition


class Tightening(NamedTuple):
    """Greatest preload in kN and the torque in N·m that gives it."""

    F_M: Value
    M_A: Value


class Bolt(NamedTuple):
    """Dimensions of a bolt: diameter, pitch, bearing diameter of the head, hole; all mm."""

    d: Value
    P: Value
    d_w: Value
    d_h: Value


def bolt(book: Edition, size: str) -> Bolt:
    """A metric bolt of coarse thread by its name, for instance ``M6``. OutsideTable for a size that is not held."""
    table = book.table("coarse_bolts")
    return Bolt(*(table.pick(name, name, size=size) for name in ("d", "P", "d_w", "d_h")))


def tighten(book: Edition, bolt: Bolt, R_p02: Value, nu: Value, mu_G: Value, mu_K: Value) -> Tightening:
    """Preload and torque at a share of the yield strength.

    Args:
        book: the edition.
        bolt: dimensions.
        R_p02: yield strength, MPa.
        nu: share of yield that tension and torsion together may use.
        mu_G: friction in the thread.
        mu_K: friction under the head.
    """
    clause = book.clause("assembly_preload")
    d_2, d_3 = pitch_diameter(book, bolt.d, bolt.P), core_diameter(book, bolt.d, bolt.P)
    d_0 = work("d_0", "(d_2 + d_3) / 2", "mm", clause, d_2, d_3)
    A_0 = work("A_0", "pi / 4 * d_0 ** 2", "mm2", clause, d_0)
    torsion = work("t_M", "1.5 * d_2 / d_0 * (P / (pi * d_2) + k_f * mu_G)", "1", clause, d_2, d_0,
                   book.number("flank_factor", "k_f"), P=bolt.P, mu_G=mu_G)  # fmt: skip
    sigma = work("sigma_M", "nu * R_p02 / sqrt(1 + 3 * t_M ** 2)", "MPa", clause, torsion, nu=nu, R_p02=R_p02)
    F_M = work("F_M", "sigma_M * A_0 / 1000", "kN", clause, sigma, A_0)
    D_Km = work("D_Km", "(d_w + d_h) / 2", "mm", clause, d_w=bolt.d_w, d_h=bolt.d_h)
    k_P, k_2 = book.number("pitch_factor", "k_P"), book.number("thread_factor", "k_2")
    M_A = work("M_A", "F_M * (k_P * P + k_2 * d_2 * mu_G + D_Km / 2 * mu_K)", "N·m", book.clause("assembly_torque"),
               F_M, d_2, D_Km, k_P, k_2, P=bolt.P, mu_G=mu_G, mu_K=mu_K)  # fmt: skip
    return Tightening(F_M, M_A)


def least_preload(book: Edition, F_M: Value, alpha_A: Value) -> Value:
    """F_Mmin that the scatter of the tightening method leaves, kN."""
    return work("F_Mmin", "F_M / alpha_A", "kN", book.clause("tightening_factor"), F_M=F_M, alpha_A=alpha_A)


def pitch_diameter(book: Edition, d: Value, P: Value) -> Value:
    """d_2 of a metric thread, mm."""
    return work("d_2", "d - 3 / 8 * sqrt(3) * P", "mm", book.clause("thread"), d=d, P=P)


def core_diameter(book: Edition, d: Value, P: Value) -> Value:
    """d_3 of a metric thread, mm."""
    return work("d_3", "d - 17 / 24 * sqrt(3) * P", "mm", book.clause("thread"), d=d, P=P)


def torque_by_nut_factor(book: Edition, K: Value, d: Value, F: Value) -> Value:
    """T = K d F: torque in N·m for a preload in kN and a diameter in mm."""
    return work("T", "K * d * F", "N·m", book.clause("nut_factor"), K=K, d=d, F=F)


def preload_by_nut_factor(book: Edition, K: Value, d: Value, T: Value) -> Value:
    """F = T / (K d): preload in kN of a torque in N·m and a diameter in mm."""
    return work("F", "T / (K * d)", "kN", book.clause("nut_factor"), K=K, d=d, T=T)


def band(book: Edition, size: str, R_p02: Value) -> tuple[Value, Value]:
    """Least and greatest torque in N·m that a printed torque may have without a question (common practice).

    Taken around the torque of a plain bolt at the usual share of yield and friction. OutsideTable for an unknown size.
    """
    nu, mu = book.number("usual_share"), book.number("usual_friction")
    M_A = tighten(book, bolt(book, size), R_p02, nu, mu, mu).M_A
    low, high = book.number("band_low"), book.number("band_high")
    clause = book.clause("sanity_band")
    return (
        work("M_low", "k_low * M_A", "N·m", clause, M_A, low),
        work("M_high", "k_high * M_A", "N·m", clause, M_A, high),
    )
