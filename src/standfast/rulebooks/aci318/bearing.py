"""Bearing of a foot on concrete, ACI 318 22.8.3."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def bearing(book: Edition, f_c: Value, A_1: Value) -> Value:
    """Design strength of concrete under a foot, lb, without the gain of a wider support.

    Args:
        book: the edition in force.
        f_c: specified strength of the concrete, psi.
        A_1: area on which the foot presses, in2.

    Source: ACI 318 22.8.3.2, Table 21.2.1.
    """
    k_b, phi = book.number("bearing_factor"), book.number("bearing_reduction")
    return work("phi_B_n", "phi * k_b * f_c * A_1", "lb", book.clause("bearing"), k_b, phi, f_c=f_c, A_1=A_1)
