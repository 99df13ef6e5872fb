"""Tabulated current of cables, what corrections leave of it, and voltage drop per ampere and metre."""

from collections.abc import Sequence

from standfast.sheet import Value, work
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
