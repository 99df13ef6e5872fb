"""Horizontal earthquake force on a nonstructural component (ASCE 7 13.3.1), at strength level.

Two forms of the clause exist: by amplification and response modification factors (2016), and by resonance, ductility
of the building and component strength (2022). Both are held between the same two bounds. S_DS is a multiple of g;
weights and forces are in one unit of force, lb in all that follows.
"""

from typing import NamedTuple

from standfast.sheet import Value, chosen, missing, work
from standfast.shelf import Edition


class Force(NamedTuple):
    """The calculated force, its bounds, the force that counts, and the word that says which of them governs."""

    calculated: Value
    minimum: Value
    maximum: Value
    F_p: Value
    governs: Value


def force_by_amplification(
    book: Edition, S_DS: Value, I_p: Value, W_p: Value, a_p: Value, R_p: Value, z_over_h: Value
) -> Force:
    """F_p in the form of the 2016 edition (13.3-1).

    Args:
        book: the edition.
        S_DS: short-period design acceleration, multiple of g.
        I_p: importance factor of the component.
        W_p: operating weight, lb.
        a_p: amplification factor of the component.
        R_p: response modification factor of the component.
        z_over_h: height of the attachment over the height of the roof, 0 at the base.
    """
    k_F, k_z = book.number("force_factor"), book.number("height_slope")
    text = "k_F * a_p * S_DS * W_p * (1 + k_z * z_over_h) / (R_p / I_p)"
    named = {"S_DS": S_DS, "I_p": I_p, "W_p": W_p, "a_p": a_p, "R_p": R_p, "z_over_h": z_over_h}
    calculated = work("F_p_calc", text, W_p.unit, book.clause("horizontal_force"), k_F, k_z, **named)
    return _between(book, calculated, S_DS, I_p, W_p)


def force_by_resonance(
    book: Edition, S_DS: Value, I_p: Value, W_p: Value, H_f: Value, R_mu: Value, C_AR: Value, R_po: Value
) -> Force:
    """F_p in the form of the 2022 edition (13.3-1).

    Args:
        book: the edition.
        S_DS: short-period design acceleration, multiple of g.
        I_p: importance factor of the component.
        W_p: operating weight, lb.
        H_f: amplification with height (`height_factor`).
        R_mu: ductility reduction of the building (`ductility_of_building`, `ductility_unknown`, `at_grade`).
        C_AR: resonance ductility factor of the component.
        R_po: strength factor of the component.
    """
    k_F = book.number("force_factor")
    text = "k_F * S_DS * I_p * W_p * (H_f / R_mu) * (C_AR / R_po)"
    named = {"S_DS": S_DS, "I_p": I_p, "W_p": W_p, "H_f": H_f, "R_mu": R_mu, "C_AR": C_AR, "R_po": R_po}
    calculated = work("F_p_calc", text, W_p.unit, book.clause("horizontal_force"), k_F, **named)
    return _between(book, calculated, S_DS, I_p, W_p)


def height_factor(book: Edition, z_over_h: Value, T_a: Value | None) -> Value:
    """H_f by the height of the attachment; `T_a` is the period of the building in s, None where it is not known."""
    clause = book.clause("height_factor")
    if T_a is None:
        k_z = book.number("height_slope_period_unknown", "k_z")
        return work("H_f", "1 + k_z * z_over_h", "1", clause, k_z, z_over_h=z_over_h)
    a_1 = work("a_1", "min(1 / T_a, a_1max)", "1", clause, book.number("a_1_most", "a_1max"), T_a=T_a)
    a_2 = work("a_2", "max(0, 1 - (T_0 / T_a) ** 2)", "1", clause, book.number("a_2_period", "T_0"), T_a=T_a)
    return work("H_f", "1 + a_1 * z_over_h + a_2 * z_over_h ** 10", "1", clause, a_1, a_2, z_over_h=z_over_h)


def ductility_of_building(book: Edition, R: Value, I_e: Value, Omega_0: Value) -> Value:
    """R_mu from the factors of the building's own earthquake system."""
    k, least = book.number("ductility_factor"), book.number("ductility_least")
    text = "max(R_mu_min, sqrt(k_mu * R / (I_e * Omega_0)))"
    return work("R_mu", text, "1", book.clause("ductility"), k, least, R=R, I_e=I_e, Omega_0=Omega_0)


def ductility_unknown(book: Edition) -> Value:
    """R_mu that the clause gives where the earthquake system of the building is not known: its least value."""
    least = book.number("ductility_least")
    how = "the earthquake system of the building is not known"
    return chosen("R_mu", least.quantity, "1", how, book.clause("ductility"), least)


def at_grade(book: Edition) -> tuple[Value, Value]:
    """H_f and R_mu of a component that is supported at or below grade."""
    return book.number("height_factor_at_grade", "H_f"), book.number("ductility_at_grade", "R_mu")


def component(book: Edition, symbol: str, column: str, kind: str) -> Value:
    """A factor of table 13.6-1 for a kind of component, for instance ``battery`` or ``cabinet``."""
    return book.table("components").pick(symbol, column, kind=kind)


def with_overstrength(book: Edition, F_p: Value, Omega: Value) -> Value:
    """E_mh: the force that anchors in concrete or masonry must carry (13.4.2)."""
    return work("E_mh", "Omega_0p * F_p", F_p.unit, book.clause("overstrength"), Omega_0p=Omega, F_p=F_p)


def other_direction(book: Edition, E: Value) -> Value:
    """The part of the force that acts across it at the same time."""
    part = book.number("other_direction")
    return work("E_cross", "k_cross * E", E.unit, book.clause("other_direction"), part, E=E)


def vertical(book: Edition, S_DS: Value, W_p: Value) -> Value:
    """E_v: vertical earthquake force, up or down (13.3.1, at the same time as the horizontal one)."""
    k_v = book.number("vertical_factor")
    return work("E_v", "k_v * S_DS * W_p", W_p.unit, book.clause("vertical_force"), k_v, S_DS=S_DS, W_p=W_p)


def _between(book: Edition, calculated: Value, S_DS: Value, I_p: Value, W_p: Value) -> Force:
    low, high = book.number("force_least"), book.number("force_most")
    least, most = book.clause("least_force"), book.clause("greatest_force")
    minimum = work("F_p_min", "k_min * S_DS * I_p * W_p", W_p.unit, least, low, S_DS=S_DS, I_p=I_p, W_p=W_p)
    maximum = work("F_p_max", "k_max * S_DS * I_p * W_p", W_p.unit, most, high, S_DS=S_DS, I_p=I_p, W_p=W_p)
    F_p = work("F_p", "min(F_p_max, max(F_p_min, F_p_calc))", W_p.unit, book.clause("horizontal_force"),
               calculated, minimum, maximum)  # fmt: skip
    if F_p.missing:
        return Force(calculated, minimum, maximum, F_p, missing("governs", "", F_p.how, F_p))
    word = "minimum" if calculated.quantity < minimum.quantity else "calculated"
    word = "maximum" if calculated.quantity > maximum.quantity else word
    clause = {"minimum": least, "maximum": most}.get(word, calculated.clause)
    governs = chosen(
        "governs", word, "", "calculated force against its two bounds", clause, calculated, minimum, maximum
    )
    return Force(calculated, minimum, maximum, F_p, governs)
