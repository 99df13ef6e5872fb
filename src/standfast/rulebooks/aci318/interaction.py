"""Tension and shear together, ACI 318 17.8."""

from typing import Literal, NamedTuple

from standfast.faults import BadFormula
from standfast.sheet import Value, chosen, work, worst
from standfast.shelf import Edition

Form = Literal["sum", "powers"]


class Interaction(NamedTuple):
    """Ratios and what is compared: `demand` at most `limit`."""

    tension: Value
    shear: Value
    together: Value
    demand: Value
    limit: Value


def interaction(book: Edition, *, N_ua: Value, phi_N: Value, V_ua: Value, phi_V: Value, form: Form) -> Interaction:
    """How much of an anchor is used by tension and shear together.

    Args:
        book: the edition in force.
        N_ua: tension at strength level, lb; where it is a pressure (below zero) it uses no strength.
        phi_N: least design strength in tension, lb.
        V_ua: magnitude of the shear, lb.
        phi_V: least design strength in shear, lb.
        form: ``sum``: ratios add up to at most 1.2, and where one is at most 0.2 the other may use all its strength;
            ``powers``: the 5/3 powers add up to at most 1.

    Raises:
        BadFormula: for a shear below zero.

    Source: ACI 318 17.8, commentary R17.8 for the powers.
    """
    if not V_ua.missing and V_ua.quantity < 0:
        raise BadFormula(f"{V_ua.symbol} is a magnitude and cannot be below zero")
    power = "" if form == "sum" else " ** (5 / 3)"
    clause = book.clause("interaction" if form == "sum" else "interaction_powers")
    tension = work("r_N", f"max(0, N_ua / phi_N){power}", "1", clause, N_ua=N_ua, phi_N=phi_N)
    shear = work("r_V", f"(V_ua / phi_V){power}", "1", clause, V_ua=V_ua, phi_V=phi_V)
    together = work("r_NV", "r_N + r_V", "1", clause, tension, shear)
    if form == "powers":
        return Interaction(tension, shear, together, together, book.number("interaction_powers"))
    small = book.number("interaction_small")
    if tension.missing or shear.missing or min(tension.quantity, shear.quantity) > small.quantity:
        return Interaction(tension, shear, together, together, book.number("interaction_sum"))
    larger = worst("r_larger", [tension, shear], "max", clause)
    words = f"one ratio is at most {small.quantity:g}: the other may use its full strength"
    demand = chosen("r_alone", larger.quantity, "1", words, small.clause, larger, small)
    return Interaction(tension, shear, together, demand, book.number("ratio_full"))
