"""How long a capacitor takes to discharge through a resistor: for planning only, since a resistor may be open.

The voltage is measured before anything is touched, whatever the time says.
"""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def time(book: Edition, start: Value, resistance: Value, capacitance: Value, target: Value) -> Value:
    """Time in s from a voltage to a lower one, both in V: resistance in ohm, capacitance in F.

    Zero where the start is not above the target; BadFormula for a target of zero, which is never reached.
    """
    text, clause = "max(0, R * C * ln(V_0 / V))", book.clause("capacitor_discharge")
    return work("t", text, "s", clause, R=resistance, C=capacitance, V_0=start, V=target)
