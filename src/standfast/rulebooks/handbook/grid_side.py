"""Arithmetic at the grid side: thresholds per unit, and the balance at the meter."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def volts(book: Edition, share: Value, nominal: Value) -> Value:
    """Voltage in V of a share of the nominal voltage in pu."""
    return work("V", "v * U_n", "V", book.clause("per_unit_voltage"), v=share, U_n=nominal)


def export(book: Edition, inverter: Value, load: Value) -> Value:
    """Power in W that flows to the grid, from that out of the inverter and that of the loads; negative: import."""
    return work("P_export", "P_inverter - P_load", "W", book.clause("power_balance"), P_inverter=inverter, P_load=load)
