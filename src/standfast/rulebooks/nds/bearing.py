"""Dowel bearing strength of wood, psi (NDS 12.3.3 and 12.3.4)."""

from standfast.sheet import Value, missing, work
from standfast.shelf import Edition


def strength(book: Edition, G: Value, D: Value, theta: Value, step: Value | None = None) -> Value:
    """F_e at an angle of load to grain, by the nominal diameter.

    Args:
        book: the edition.
        G: specific gravity.
        D: nominal diameter, in. Below the least large diameter the angle does not matter.
        theta: angle of load to grain, degrees.
        step: step that the table rounds to (`table_step`), psi; None leaves full precision.
    """
    clause = book.clause("bearing")
    edge = book.number("large_diameter")
    if D.missing:
        return missing("F_e", "psi", D.how, D)
    if D.quantity < edge.quantity:
        k = book.number("bearing_small")
        return _stepped(book, work("F_e", "k_e * G ** 1.84", "psi", clause, k, G=G), step)
    along = work("F_e_par", "k_par * G", "psi", clause, book.number("bearing_parallel"), G=G)
    across = work("F_e_perp", "k_perp * G ** 1.45 / sqrt(D)", "psi", clause, book.number("bearing_across"), G=G, D=D)
    along, across = _stepped(book, along, step), _stepped(book, across, step)
    text = "F_e_par * F_e_perp / (F_e_par * sin(theta * pi / 180) ** 2 + F_e_perp * cos(theta * pi / 180) ** 2)"
    return work("F_e", text, "psi", book.clause("bearing_angle"), along, across, theta=theta)


def table_step(book: Edition) -> Value:
    """The step that the table of bearing strengths is rounded to, psi."""
    return book.number("bearing_step", "step")


def _stepped(book: Edition, value: Value, step: Value | None) -> Value:
    if step is None:
        return value
    text = "floor(F / step + 0.5) * step"
    return work(value.symbol, text, "psi", book.clause("bearing"), step=step, F=value)
