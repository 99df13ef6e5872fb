"""Maximum demand of a single house, by the load groups of Table C1."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def lights(book: Edition, points: Value) -> Value:
    """Demand in A of so many lighting points: the first of them together, then in groups as large."""
    return _points(book, "lights", points)


def sockets(book: Edition, points: Value) -> Value:
    """Demand in A of so many socket-outlets up to 10 A; a double outlet is two."""
    return _points(book, "sockets", points)


def cooking(book: Edition, full: Value) -> Value:
    """Demand in A of cooking and laundry equipment over 10 A, from its full current in A."""
    return work("I_cooking", "k_cooking * I_full", "A", book.clause("maximum_demand"), book.number("demand_cooking"),
                I_full=full)  # fmt: skip


def climate(book: Edition, full: Value) -> Value:
    """Demand in A of fixed heating and cooling, from its full current in A."""
    return work("I_climate", "k_climate * I_full", "A", book.clause("maximum_demand"), book.number("demand_climate"),
                I_full=full)  # fmt: skip


def _points(book: Edition, kind: str, points: Value) -> Value:
    first, more = book.number(f"demand_{kind}_first"), book.number(f"demand_{kind}_more")
    text = "I_first * min(n, 1) + I_more * max(0 - floor((n_first - n) / n_first), 0)"
    return work(f"I_{kind}", text, "A", book.clause("maximum_demand"), first, more, book.number("demand_points_first"),
                n=points)  # fmt: skip
