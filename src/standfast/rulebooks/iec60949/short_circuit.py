"""Short-circuit current that a conductor stands for a time."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def adiabatic(book: Edition, k: Value, beta: Value, area: Value, initial: Value, final: Value, time: Value) -> Value:
    """Permissible current in A if no heat left the conductor.

    Args:
        book: IEC 60949.
        k: constant of the metal in A s^0.5/mm2.
        beta: reciprocal of its temperature coefficient at 0 °C, in °C.
        area: conductor area in mm2.
        initial: temperature before the fault in °C.
        final: temperature allowed after it in °C.
        time: duration in s.
    """
    text = "K * S * sqrt(ln((theta_f + beta) / (theta_i + beta)) / t)"
    named = {"K": k, "S": area, "theta_f": final, "theta_i": initial, "beta": beta, "t": time}
    return work("I_AD", text, "A", book.clause("adiabatic"), **named)


def non_adiabatic_factor(book: Edition, x: Value, y: Value, area: Value, time: Value) -> Value:
    """Factor for heat lost into the insulation.

    `x` in (mm2/s)^0.5 and `y` in mm2/s belong to the pair of metal and insulation; area in mm2, time in s. Both zero
    give 1.
    """
    text = "sqrt(1 + X * sqrt(t / S) + Y * t / S)"
    return work("epsilon", text, "1", book.clause("non_adiabatic"), X=x, Y=y, S=area, t=time)


def permissible(book: Edition, factor: Value, adiabatic_current: Value) -> Value:
    """Permissible current in A."""
    clause = book.clause("non_adiabatic")
    return work("I", "epsilon * I_AD", "A", clause, epsilon=factor, I_AD=adiabatic_current)
