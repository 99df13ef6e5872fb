"""Peak of a short-circuit current, for the making capacity of devices and the strength of busbars."""

from standfast.sheet import Value, chosen, work
from standfast.shelf import Edition


def kappa(book: Edition, r: Value, x: Value) -> Value:
    """Peak factor of a single-fed short circuit.

    Args:
        book: IEC 60909-0.
        r: resistance up to the fault.
        x: reactance up to the fault, in the same unit; zero gives the limit of the formula.
    """
    clause, k_0 = book.clause("peak"), book.number("kappa_floor")
    if not (r.missing or x.missing) and x.quantity == 0 and r.quantity > 0:
        return chosen("kappa", k_0.quantity, "1", "the loop has no reactance", clause, k_0, r, x)
    text = "k_0 + k_1 * exp(-k_d * R / X)"
    return work("kappa", text, "1", clause, k_0, book.number("kappa_span"), book.number("kappa_decay"), R=r, X=x)


def peak_current(book: Edition, kappa_: Value, fault: Value) -> Value:
    """Peak current, in the unit of the fault current (r.m.s.)."""
    return work("i_p", "kappa * sqrt(2) * I_k", fault.unit, book.clause("peak"), kappa=kappa_, I_k=fault)
