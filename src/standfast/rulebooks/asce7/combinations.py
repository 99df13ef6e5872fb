"""Load combinations with earthquake (ASCE 7 2.3.6 strength, 2.4.5 allowable stress), with wind, and without either.

The vertical earthquake 0.2 S_DS D acts with the horizontal one. Friction from the weight is never counted.
"""

from typing import Literal

from standfast.sheet import Value, work
from standfast.shelf import Edition

Level = Literal["strength", "allowable"]


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


def with_wind(book: Edition, level: Level, F_w: Value) -> Value:
    """Force of the wind in a combination (2.3.1 strength, 2.4.1 allowable stress)."""
    f_W = book.number(f"wind_{level}")
    return work("E_w", "f_W * F_w", F_w.unit, book.clause(f"{level}_wind"), f_W, F_w=F_w)


def wind_down(book: Edition, level: Level, D: Value) -> Value:
    """Weight beside the wind where it makes things worse."""
    f_D = book.number(f"wind_{level}_dead_most")
    return work("D_down", "f_D * D", D.unit, book.clause(f"{level}_wind"), f_D, D=D)


def wind_held(book: Edition, level: Level, D: Value, F_up: Value) -> Value:
    """Weight that may be counted against the wind, less its uplift; never below nothing."""
    f_D, f_W = book.number(f"wind_{level}_dead_least"), book.number(f"wind_{level}")
    text = "max(0, f_D * D - f_W * F_up)"
    return work("D_held", text, D.unit, book.clause(f"{level}_wind"), f_D, f_W, D=D, F_up=F_up)


def _weight(
    book: Edition, symbol: str, text: str, dead: str, clause: str, D: Value, S_DS: Value, *more: Value
) -> Value:
    f_D, k_v = book.number(dead), book.number("vertical_factor")
    return work(symbol, text, D.unit, book.clause(clause), f_D, k_v, *more, D=D, S_DS=S_DS)
