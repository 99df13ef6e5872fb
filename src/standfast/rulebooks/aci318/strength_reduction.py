"""Strength reduction factors and design strengths, ACI 318 17.5.3 and 17.10.5.4."""

from typing import Literal

from standfast.sheet import Value, work
from standfast.shelf import Edition

Install = Literal["cast-in", "post-installed"]
Reinforced = Literal["supplementary reinforcement", "none"]


def phi_steel(book: Edition, load: Literal["tension", "shear"], steel: Literal["ductile", "brittle"]) -> Value:
    """Factor for the steel of an anchor. Source: ACI 318 table 17.5.3(a)."""
    return book.table("strength_reduction").pick("phi_s", "phi", mode=f"steel {load}", anchor="any", condition=steel)


def phi_concrete_tension(book: Edition, anchor: str, reinforced: Reinforced) -> Value:
    """Factor for breakout, bond and side-face blowout in tension.

    Args:
        book: the edition in force.
        anchor: ``cast-in``, ``post-installed category 1``, ``2`` or ``3``, as the product report states it.
        reinforced: whether reinforcement ties the breakout body to the member.

    Source: ACI 318 table 17.5.3(b).
    """
    table = book.table("strength_reduction")
    return table.pick("phi_cN", "phi", mode="concrete tension", anchor=anchor, condition=reinforced)


def phi_concrete_shear(book: Edition, reinforced: Reinforced) -> Value:
    """Factor for concrete breakout in shear. Source: ACI 318 table 17.5.3(b)."""
    table = book.table("strength_reduction")
    return table.pick("phi_cV", "phi", mode="concrete shear", anchor="any", condition=reinforced)


def phi_pullout(book: Edition, anchor: str) -> Value:
    """Factor for pullout; `anchor` as in phi_concrete_tension. Source: ACI 318 table 17.5.3(c)."""
    return book.table("strength_reduction").pick("phi_p", "phi", mode="pullout", anchor=anchor, condition="any")


def phi_pryout(book: Edition) -> Value:
    """Factor for pryout. Source: ACI 318 table 17.5.3(c)."""
    return book.table("strength_reduction").pick("phi_cp", "phi", mode="pryout", anchor="any", condition="any")


def design_strength(book: Edition, symbol: str, phi: Value, nominal: Value) -> Value:
    """The strength that a load is compared with, lb: phi times nominal. Source: ACI 318 17.5.3."""
    return work(symbol, "phi * R_n", "lb", book.clause("strength_reduction"), phi=phi, R_n=nominal)


def seismic_tension_strength(book: Edition, symbol: str, phi: Value, nominal: Value) -> Value:
    """Design strength of a concrete mode in tension where the earthquake is in the load, lb.

    Breakout, pullout, side-face blowout and bond; not steel, and no mode of shear.
    Source: ACI 318 17.10.5.4, for seismic design categories C to F.
    """
    factor, clause = book.number("seismic_tension"), book.clause("seismic_tension")
    return work(symbol, "k_seismic * phi * R_n", "lb", clause, factor, phi=phi, R_n=nominal)
