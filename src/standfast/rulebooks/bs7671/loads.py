"""Diversity of loads in a household."""

from standfast.sheet import Value, given, work
from standfast.shelf import Edition


def full_current(power: Value, voltage: Value) -> Value:
    """Current in A of a single-phase appliance from its power in W (power factor 1) and voltage in V."""
    return work("I_full", "P / U", "A", None, P=power, U=voltage)


def cooker_demand(book: Edition, full: Value, socket_outlet: bool) -> Value:
    """Current demand in A of a household cooking appliance.

    Args:
        book: BS 7671.
        full: full-load current in A.
        socket_outlet: true where the control unit carries a socket outlet.
    """
    first, rest, clause = book.number("cooker_first"), book.number("cooker_rest"), book.clause("cooker_diversity")
    socket = book.number("cooker_socket") if socket_outlet else given("I_socket", 0.0, "A", "no socket outlet")
    text = "min(I_full, I_first) + k_rest * max(I_full - I_first, 0) + I_socket"
    return work("I_demand", text, "A", clause, first, rest, socket, I_full=full)
