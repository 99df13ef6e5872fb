"""Tabulated current of cables, what corrections leave of it, and voltage drop per ampere and metre."""

from collections.abc import Sequence

from standfast.sheet import Value, chosen, missing, work
from standfast.shelf import Edition


def tabulated_current(book: Edition, table: str, method: str, loaded: int, area: Value) -> Value:
    """Current-carrying capacity in A before corrections.

    Args:
        book: BS 7671.
        table: ``4D2A``, ``4D5`` or ``4E1A``.
        method: installation reference method as the table names it, for instance ``C`` or ``101``.
        loaded: loaded conductors, 2 or 3.
        area: conductor area in mm2.
    """
    rows = book.table("current_capacity")
    return rows.look("I_t", "I_t", table=table, method=method, loaded=loaded, area=area)


def combined_factor(book: Edition, factors: Sequence[Value]) -> Value:
    """The product of correction factors that act on one and the same piece of cable."""
    names = [f"C_{number}" for number in range(1, len(factors) + 1)]
    named = dict(zip(names, factors, strict=True))
    return work("C", " * ".join(names) or "1", "1", book.clause("correction_factors"), **named)


def effective_current(book: Edition, tabulated: Value, factor: Value) -> Value:
    """What a cable may carry in A after its correction factors."""
    return work("I_z", "I_t * C", "A", book.clause("correction_factors"), I_t=tabulated, C=factor)


def drop_per_ampere_metre(book: Edition, insulation: str, system: str, area: Value) -> Value:
    """Voltage drop in mV/A/m with the return conductor included.

    Args:
        book: BS 7671.
        insulation: ``70 °C thermoplastic`` or ``90 °C thermosetting``.
        system: ``single phase`` or ``three phase``.
        area: conductor area in mm2.
    """
    rows = book.table("voltage_drop")
    return rows.look("z_drop", "z", insulation=insulation, system=system, area=area)


def standard_areas(book: Edition, cable: str) -> list[float]:
    """The areas in mm2 that the table of a kind of cable holds, rising."""
    table = _kind(book, cable, "table").word
    rows = book.table("current_capacity").rows
    return sorted({float(row["area"]) for row in rows if row["table"] == table})


def current_of(book: Edition, cable: str, method: str, loaded: int, area: Value) -> Value:
    """Tabulated current in A of a kind of cable, by the table that its terminals allow.

    Cables for 90 °C are taken at the current that heats them to 70 °C: the terminals of assemblies are made for that,
    unless their maker says otherwise (512.1.5).

    Args:
        book: BS 7671.
        cable: kind of cable, as the job words it.
        method: installation reference method.
        loaded: loaded conductors, 2 or 3.
        area: of the live conductors in mm2.
    """
    return tabulated_current(book, _kind(book, cable, "table").word, method, loaded, area)


def ambient_factor(book: Edition, cable: str, ambient: Value) -> Value:
    """C_a for the air round a kind of cable, at a temperature in °C; between two rows that of the hotter."""
    insulation = book.table("cables").pick("insulation", "rated_as", cable=cable).word
    return book.table("ambient").look("C_a", "C_a", insulation=insulation, ambient=ambient)


def grouping_factor(book: Edition, circuits: Value) -> Value:
    """C_g of circuits that are bunched or share an enclosure, equally loaded; between two rows that of more."""
    return book.table("grouping").look("C_g", "C_g", arrangement="bunched", circuits=circuits)


def insulation_factor(book: Edition, length: Value) -> Value:
    """C_i where thermal insulation surrounds a cable over a length in mm."""
    if length.missing:
        return missing("C_i", "1", length.how, length)
    if length.quantity == 0:
        return chosen("C_i", 1.0, "1", "no thermal insulation surrounds it", book.clause("thermal_insulation"), length)
    long = book.number("insulation_long")
    if length.quantity > long.quantity:
        return book.number("insulation_long_factor", "C_i")
    return book.table("thermal_insulation").look("C_i", "C_i", length=length)


def drop_of(book: Edition, cable: str, system: str, area: Value) -> Value:
    """Voltage drop in mV/A/m of a kind of cable, conductors at their greatest temperature."""
    return drop_per_ampere_metre(book, _kind(book, cable, "insulation").word, system, area)


def drop_temperature_factor(book: Edition, cable: str, I_b: Value, I_t: Value, C_ag: Value) -> Value:
    """C_t, by which conductors that are less loaded are cooler than the table of voltage drop takes them.

    Appendix 4, 6.1. Not below for cables taken under their own temperature: 1 is on the safe side there.

    Args:
        book: BS 7671.
        cable: kind of cable.
        I_b: design current in A.
        I_t: tabulated current in A.
        C_ag: product of ambient and grouping factors.
    """
    kind = book.table("cables").pick("insulation", "rated_as", cable=cable).word
    if kind != _kind(book, cable, "insulation").word:
        return chosen("C_t", 1.0, "1", "taken as hot as it may be", book.clause("voltage_drop"), I_b)
    t_p = book.table("cables").pick("t_p", "temperature", cable=cable)
    t_0, t_air = book.number("resistance_zero"), book.number("ambient_base")
    text = "(t_0 + t_p - max(C_ag**2 - I_b**2 / I_t**2, 0) * (t_p - t_air)) / (t_0 + t_p)"
    clause = book.clause("voltage_drop")
    return work("C_t", text, "1", clause, t_0=t_0, t_p=t_p, t_air=t_air, I_b=I_b, I_t=I_t, C_ag=C_ag)


def resistance(book: Edition, area: Value) -> Value:
    """Greatest resistance of a plain copper conductor in ohm/km at 20 °C."""
    return book.table("conductor_resistance").look("r", "r", area=area)


def warm_factor(book: Edition, cable: str) -> Value:
    """By how much line and protective conductor of a kind of cable resist more at its temperature than at 20 °C."""
    t_p = book.table("cables").pick("t_p", "temperature", cable=cable)
    alpha, t_20, text = book.number("copper_alpha"), book.number("resistance_reference"), "1 + alpha_20 * (t_p - t_20)"
    return work("k_warm", text, "1", book.clause("warm_conductors"), alpha, t_20, t_p=t_p)


def _kind(book: Edition, cable: str, column: str) -> Value:
    return book.table("cables").pick(column, column, cable=cable)
