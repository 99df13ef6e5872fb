"""Load combinations with earthquake (ASCE 7 2.3.6 strength, 2.4.5 allowable stress), and permanent load alone.

The vertical earthquake 0.2 S_DS D acts with the horizontal one. Friction from the weight is never counted.
"""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def strength_down(book: Edition, D: Value, S_DS: Value) -> Value:
    """Downward load at strength level, where weight makes it worse."""
    text = "(f_D + k_v * S_DS) * D"
    return _weight(book, "D_down", text, "strength_dead_most", "strength", D, S_DS)


def strength_up(book: Edition, D: Value, S_DS: Value) -> Value:
    """Weight that may be counted against tipping or lifting at strength level."""
    text = "(f_D - k_v * S_DS) * D"
    return _weight(book, "D_held", text, "strength_dead_least", "strength", D, S_DS)


def allowable_down(book: Edition, D: Value, S_DS: Value) -> Value:
    """Downward load at allowable-stress level, where weight makes it worse."""
    text = "(f_D + f_E * k_v * S_DS) * D"
    return _weight(
        book, "D_down", text, "allowable_dead_most", "allowable", D, S_DS, book.number("allowable_earthquake")
    )


def allowable_up(book: Edition, D: Value, S_DS: Value) -> Value:
    """Weight that may be counted against tipping or lifting at allowable-stress level."""
    text = "(f_D - f_E * k_v * S_DS) * D"
    return _weight(
        book, "D_held", text, "allowable_dead_least", "allowable", D, S_DS, book.number("allowable_earthquake")
    )


def allowable_earthquake(book: Edition, E: Value) -> Value:
    """Horizontal earthquake force at allowable-stress level."""
    f_E = book.number("allowable_earthquake")
    return work("E_a", "f_E * E", E.unit, book.clause("allowable"), f_E, E=E)


def strength_permanent(book: Edition, D: Value) -> Value:
    """Permanent load alone at strength level (1.4 D)."""
    return work("D_perm", "f_D * D", D.unit, book.clause("strength_permanent"), book.number("strength_dead_only"), D=D)


def _weight(
    book: Edition, symbol: str, text: str, dead: str, clause: str, D: Value, S_DS: Value, *more: Value
) -> Value:
    f_D, k_v = book.number(dead), book.number("vertical_factor")
    return work(symbol, text, D.unit, book.clause(clause), f_D, k_v, *more, D=D, S_DS=S_DS)
