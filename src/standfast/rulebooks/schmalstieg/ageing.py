"""Loss of capacity of nickel manganese cobalt cells. Far outside the tests it goes beyond all the capacity there is."""

from typing import NamedTuple

from standfast.sheet import Value, work
from standfast.shelf import Edition


class Calendar(NamedTuple):
    """Constants of ageing at rest: of the line over the cell voltage, and activation energy by gas constant in K."""

    a: Value
    b: Value
    E: Value


class Cycle(NamedTuple):
    """Constants of ageing by use: of the curve over the mean cell voltage, and over the depth of discharge."""

    a: Value
    V_ref: Value
    b: Value
    c: Value


def published_calendar(book: Edition) -> Calendar:
    """The constants of the paper."""
    return Calendar(book.number("calendar_a"), book.number("calendar_b"), book.number("calendar_E"))


def published_cycle(book: Edition) -> Cycle:
    """The constants of the paper."""
    return Cycle(*(book.number(f"cycle_{name}") for name in Cycle._fields))


def calendar_loss(book: Edition, temperature: Value, voltage: Value, time: Value, by: Calendar) -> Value:
    """Capacity lost at rest in per cent of the first capacity.

    Args:
        book: the paper.
        temperature: of the cells in °C.
        voltage: of a cell in V.
        time: at rest in d.
        by: constants.
    """
    kelvin = work("T", "theta + T_0", "K", book.clause("calendar"), theta=temperature, T_0=book.number("T_0"))
    text = "100 * (a * V - b) * s * exp(-E / T) * t ** 0.75"
    named = {**by._asdict(), "V": voltage, "s": book.number("calendar_scale"), "T": kelvin, "t": time}
    return work("Q_loss_cal", text, "%", book.clause("calendar"), **named)


def cycle_loss(book: Edition, voltage: Value, depth: Value, passed: Value, by: Cycle) -> Value:
    """Capacity lost by use in per cent of the first capacity.

    Args:
        book: the paper.
        voltage: mean voltage of a cell in V.
        depth: depth of the cycles, per unit.
        passed: charge passed through a cell of the test's size in A h.
        by: constants.
    """
    text = "100 * (a * (V - V_ref) ** 2 + b + c * dod) * sqrt(Q)"
    named = {**by._asdict(), "V": voltage, "dod": depth, "Q": passed}
    return work("Q_loss_cyc", text, "%", book.clause("cycle"), **named)
