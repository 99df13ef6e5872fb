"""Which procedure a generator falls under: notify afterwards, or apply before connection."""

from standfast.sheet import Value, chosen, work
from standfast.shelf import Edition

NOTIFY, APPLY = "notify afterwards", "apply before connection"


def limit_per_phase(book: Edition, voltage: Value) -> Value:
    """Greatest power in W per phase of the simple procedure, at a voltage to neutral in V."""
    return work("P_phase", "I_G98 * U", "W", book.clause("scope"), book.number("simple_procedure_current"), U=voltage)


def limit(book: Edition, per_phase: Value, phases: Value) -> Value:
    """Greatest power in W of the simple procedure over all phases."""
    return work("P_limit", "n * P_phase", "W", book.clause("scope"), n=phases, P_phase=per_phase)


def current_per_phase(power: Value, voltage: Value, phases: Value) -> Value:
    """Registered current in A per phase from the total power in W, the voltage to neutral in V and the phases."""
    return work("I_phase", "P / (n * U)", "A", None, P=power, n=phases, U=voltage)


def route(book: Edition, current: Value) -> Value:
    """The procedure for a registered current per phase in A."""
    greatest = book.number("simple_procedure_current")
    if current.missing or current.quantity <= greatest.quantity:
        reason = f"not more than {greatest.quantity:g} A per phase"
        return chosen("route", NOTIFY, "", reason, book.clause("notify"), current, greatest)
    reason = f"more than {greatest.quantity:g} A per phase"
    return chosen("route", APPLY, "", reason, book.clause("apply_first"), current, greatest)
