"""Overcurrent devices: standard ratings, what may protect a conductor, interrupting rating."""

from typing import NamedTuple

from standfast.sheet import Check, Value, at_most, chosen, work, worst
from standfast.shelf import Edition


class Device(NamedTuple):
    """Current that the device must carry by rule, and the next standard rating, both in A."""

    needed: Value
    rating: Value


def next_standard(book: Edition, current: Value, symbol: str = "I_n") -> Value:
    """Smallest standard rating that is not less than a current in A."""
    return book.table("standard_ratings").look(symbol, "rating", rating=current)


def standard_below(book: Edition, current: Value) -> Value:
    """Largest standard rating that is not more than a current in A. OutsideTable below the smallest."""
    return book.table("standard_ratings_down").look("I_n", "rating", rating=current)


def continuous(book: Edition, continuous: Value, other: Value) -> Device:
    """Device of a branch circuit or feeder: 125 % of the continuous and 100 % of the other load, in A.

    For assemblies that are not listed for 100 % of their rating.
    """
    clause = book.clause("branch_circuit_device")
    factor = book.number("continuous_factor")
    needed = work("I_req", "k_cont * I_cont + I_other", "A", clause, factor, I_cont=continuous, I_other=other)
    return Device(needed, next_standard(book, needed))


def largest(book: Edition, ampacity: Value, round_up: Value, material: Value | None, size: Value | None) -> Value:
    """Largest device in A that may protect a conductor.

    Args:
        book: the code.
        ampacity: of the conductor after every factor, in A; of all parallel conductors together.
        round_up: yes where the conditions of 240.4(B) other than the 800 A limit hold; never for taps.
        material: ``cu`` or ``al``; None where the conductor is known by its ampacity only.
        size: size word; with the material it brings in the limits of small conductors.

    Raises:
        OutsideTable: where even the smallest standard rating is too large.
    """
    if ampacity.missing or round_up.missing:
        return chosen("I_n", 0.0, "A", "", None, ampacity, round_up)
    by_ampacity = _by_ampacity(book, ampacity, round_up)
    small = None if material is None or size is None else small_limit(book, material, size)
    if small is None:
        return by_ampacity
    return worst("I_n", [by_ampacity, small], "min", book.clause("small_conductors"))


def small_limit(book: Edition, material: Value, size: Value) -> Value | None:
    """Largest device in A of a small conductor, after correction factors; None from 8 AWG.

    Not for motor and air-conditioning circuits under 240.4(G), nor taps under 240.4(E).
    """
    if material.missing or size.missing:
        return chosen("I_small", 0.0, "A", "", None, material, size)
    table = book.table("small_conductors")
    if all(row["size"] != size.word or row["material"] != material.word for row in table.rows):
        return None
    return table.look("I_small", "rating", material=material, size=size)


def interrupting(book: Edition, id: str, title: str, available: Value, rating: Value) -> Check:
    """The device can break the fault current at its line terminals; both in kA."""
    return at_most(id, title, book.clause("interrupting_rating"), available, rating)


def marked_interrupting(book: Edition, marked: Value) -> Value:
    """Interrupting rating of a breaker in kA; a breaker without a mark has 5 kA, which is safe for every mark."""
    if marked.missing:
        return book.bounding("unmarked_breaker", f"interrupting rating not known: {marked.how}", marked.symbol)
    return marked


def series_motors(book: Edition, lower: Value) -> Value:
    """Full-load current in A of the motors that may be joined between both devices of a series rating: 240.86(C).

    Args:
        book: the code.
        lower: interrupting rating in kA of the device that is helped.
    """
    text = "1000 * k_motor * I_cu"
    return work("I_motors_max", text, "A", book.clause("series_rating"), book.number("series_motor_share"), I_cu=lower)


def slash(book: Edition, id: str, title: str, rated: Value, to_ground: Value) -> Check:
    """A breaker with a slash rating has its lower voltage from any line to ground: 240.85.

    Args:
        book: the code.
        id: of the check.
        title: of the check.
        rated: the lower of both voltages, in V.
        to_ground: highest voltage to ground of the system, in V.
    """
    return at_most(id, title, book.clause("breaker_voltage_marking"), to_ground, rated)


def _by_ampacity(book: Edition, ampacity: Value, round_up: Value) -> Value:
    ratings = [cell for cell in book.table("standard_ratings").column("rating") if isinstance(cell, float)]
    clause = book.clause("next_size_up")
    if ampacity.quantity in ratings:
        return chosen("I_n", ampacity.quantity, "A", "the ampacity is a standard rating", clause, ampacity)
    limit = book.number("next_size_up_limit")
    if round_up.yes and ampacity.quantity < limit.quantity:
        up = next_standard(book, ampacity)
        return chosen("I_n", up.quantity, "A", "next standard rating above the ampacity", clause, up, round_up, limit)
    down = standard_below(book, ampacity)
    if round_up.yes:
        met = "over 800 A the conductor reaches the rating"
        return chosen("I_n", down.quantity, "A", met, book.clause("over_800"), down, limit)
    met = "no next size up here"
    return chosen("I_n", down.quantity, "A", met, book.clause("conductor_protection"), down, round_up)
