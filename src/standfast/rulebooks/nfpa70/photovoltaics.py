"""Photovoltaic arrays on the direct-current inputs of an inverter: voltage, current, protection, shutdown."""

from standfast.sheet import Check, Value, at_most, chosen, is_, not_applicable, work
from standfast.shelf import Edition


def by_coefficient(book: Edition, open_circuit: Value, modules: Value, rise: Value, coldest: Value) -> Value:
    """Greatest voltage in V of a string in the cold, by the coefficient that the maker of the module states: 690.7(A).

    Args:
        book: the code.
        open_circuit: of one module at 25 °C, in V.
        modules: in series.
        rise: how much it rises for each °C below that, in per cent of itself.
        coldest: lowest temperature that is expected, in °C.
    """
    clause, standard = book.clause("pv_voltage"), book.number("pv_standard_temperature")
    below = work("dT", "max(0, T_std - T_low)", "°C", clause, standard, T_low=coldest)
    each = chosen("b_pct", 0.0 if rise.missing else rise.quantity, "1/°C", "per cent for each °C", clause, rise)
    factor = work("k_cold", "1 + b_pct * dT / 100", "1", clause, below, each)
    return work("U_pv", "n_mod * U_oc * k_cold", "V", clause, factor, n_mod=modules, U_oc=open_circuit)


def by_table(book: Edition, open_circuit: Value, modules: Value, coldest: Value) -> Value:
    """Greatest voltage in V of a string of crystalline silicon in the cold, by Table 690.7(A).

    Above 25 °C the row of 20 to 24 °C stands in, which is on the safe side.

    Raises:
        OutsideTable: colder than the table goes.
    """
    factor = book.table("pv_voltage_factor").look("k_cold", "factor", ambient_c=coldest)
    clause = book.clause("pv_voltage_table")
    return work("U_pv", "n_mod * U_oc * k_cold", "V", clause, factor, n_mod=modules, U_oc=open_circuit)


def dwelling_voltage(book: Edition, id: str, title: str, voltage: Value) -> Check:
    """The greatest voltage of arrays at one- and two-family dwellings."""
    return at_most(id, title, book.clause("pv_voltage"), voltage, book.number("pv_dwelling_voltage"))


def current(book: Edition, short_circuit: Value, strings: Value) -> Value:
    """Greatest current in A of strings in parallel: 125 % of their short-circuit currents, for a sun above normal."""
    clause, factor = book.clause("pv_current"), book.number("pv_current_factor")
    return work("I_pv", "k_sun * n_str * I_sc_mod", "A", clause, factor, n_str=strings, I_sc_mod=short_circuit)


def ampacity(book: Edition, greatest: Value) -> Value:
    """Least ampacity in A before factors: 125 % of the greatest current, for it flows three hours and more.

    Here alone both factors are multiplied: 156 % of the short-circuit current.
    """
    clause, factor = book.clause("pv_ampacity"), book.number("pv_continuous_factor")
    return work("I_req", "k_pv * I_pv", "A", clause, factor, I_pv=greatest)


def unfused(book: Edition, id: str, title: str, strings: Value) -> Check:
    """Strings in parallel without fuses: no more than what can feed back into one of them does no harm."""
    return at_most(id, title, book.clause("pv_overcurrent"), strings, book.number("pv_unfused_strings"))


def arc_fault(book: Edition, id: str, title: str, voltage: Value, detects: Value) -> Check:
    """Arrays on or in a building of 80 V and more have protection against arcs."""
    clause, limit = book.clause("pv_arc_fault"), book.number("pv_arc_fault_voltage")
    if not voltage.missing and voltage.quantity < limit.quantity:
        return not_applicable(id, title, clause, f"the array has less than {limit.quantity:g} V")
    needed = chosen("needed", True, "", "at and above the voltage of the clause", clause, voltage, limit)
    return is_(id, title, clause, detects, needed)


def ground_fault(book: Edition, id: str, title: str, voltage: Value, current: Value, detects: Value) -> Check:
    """Arrays of more than 30 V or 8 A have protection against ground faults."""
    clause = book.clause("pv_ground_fault")
    volts, amps = book.number("pv_ground_fault_voltage"), book.number("pv_ground_fault_current")
    known = not (voltage.missing or current.missing)
    if known and voltage.quantity <= volts.quantity and current.quantity <= amps.quantity:
        return not_applicable(id, title, clause, "the array has neither the voltage nor the current of the clause")
    needed = chosen("needed", True, "", "above the voltage or the current of the clause", clause, volts, amps)
    return is_(id, title, clause, detects, needed)
