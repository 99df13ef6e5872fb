"""Loss of capacity of iron phosphate cells. Valid for the cells that the papers tested; others age unlike."""

from typing import NamedTuple

from standfast.sheet import Value, work
from standfast.shelf import Edition


class Calendar(NamedTuple):
    """Constants of ageing at rest: rate per root second, activation energy, gas constant, reference temperature in K,
    and those of the curve over the state of charge."""

    k_ref: Value
    E_a: Value
    R: Value
    T_ref: Value
    c: Value
    d: Value


class Cycle(NamedTuple):
    """Constants of ageing by use: of the line over the rate, and of the curve over the depth of discharge."""

    a: Value
    b: Value
    c: Value
    dod_ref: Value
    d: Value


def published_calendar(book: Edition) -> Calendar:
    """The constants of the paper of 2018."""
    return Calendar(*(book.number(name) for name in Calendar._fields))


def published_cycle(book: Edition) -> Cycle:
    """The constants of the paper of 2020."""
    return Cycle(*(book.number(name) for name in Cycle._fields))


def calendar_loss(book: Edition, temperature: Value, soc: Value, time: Value, by: Calendar) -> Value:
    """Capacity lost at rest in per cent of the first capacity.

    Args:
        book: the paper of 2018.
        temperature: of the cells in °C.
        soc: state of charge, per unit.
        time: at rest in s.
        by: constants.
    """
    kelvin = work("T", "theta + T_0", "K", book.clause("calendar"), theta=temperature, T_0=book.number("T_0"))
    text = "100 * k_ref * exp(-E_a / R * (1 / T - 1 / T_ref)) * (c * (soc - soc_ref) ** 3 + d) * sqrt(t)"
    named = {**by._asdict(), "T": kelvin, "soc": soc, "soc_ref": book.number("soc_ref"), "t": time}
    return work("Q_loss_cal", text, "%", book.clause("calendar"), **named)


def cycle_loss(book: Edition, rate: Value, depth: Value, full_cycles: Value, by: Cycle) -> Value:
    """Capacity lost by use in per cent of the first capacity.

    Args:
        book: the paper of 2020.
        rate: mean current by capacity, in 1/h as a ratio.
        depth: depth of the cycles, per unit.
        full_cycles: charge passed by twice the capacity.
        by: constants.
    """
    text = "(a * C + b) * (c * (dod - dod_ref) ** 3 + d) * sqrt(N)"
    named = {**by._asdict(), "C": rate, "dod": depth, "N": full_cycles}
    return work("Q_loss_cyc", text, "%", book.clause("cycle"), **named)
