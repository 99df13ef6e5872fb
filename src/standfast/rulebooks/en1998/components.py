"""Seismic coefficient of a non-structural element (EN 1998-1 4.3.5.2)."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def coefficient(book: Edition, alpha: Value, S: Value, z_over_H: Value, Ta_over_T1: Value) -> Value:
    """S_a, a ratio, never less than at the ground (4.25).

    Args:
        book: the edition.
        alpha: design ground acceleration over g.
        S: soil factor.
        z_over_H: height of the element over the foundation, over the height of the building.
        Ta_over_T1: period of the element over that of the building.
    """
    k, n = book.number("amplification"), book.number("amplification_less")
    text = "alpha * S * max(1, k_a * (1 + z_over_H) / (1 + (1 - Ta_over_T1) ** 2) - k_b)"
    return work("S_a", text, "1", book.clause("coefficient"), k, n, alpha=alpha, S=S, z_over_H=z_over_H,
                Ta_over_T1=Ta_over_T1)  # fmt: skip


def force(book: Edition, S_a: Value, W_a: Value, gamma_a: Value, q_a: Value) -> Value:
    """F_a on the element, in the unit of its weight (4.24)."""
    return work("F_a", "S_a * W_a * gamma_a / q_a", W_a.unit, book.clause("force"), S_a=S_a, W_a=W_a,
                gamma_a=gamma_a, q_a=q_a)  # fmt: skip
