"""Voltage drop and rise along a conductor. The arithmetic is in general use; codes only recommend limits.

A single-phase or direct-current loop goes and returns: factor 2; a three-phase line: factor sqrt(3).
"""

from typing import Literal

from standfast.sheet import Value, work
from standfast.shelf import Edition

System = Literal["dc", "single_phase", "three_phase"]
_LOOP: dict[str, str] = {"dc": "2", "single_phase": "2", "three_phase": "sqrt(3)"}


def by_resistance(book: Edition, system: System, resistance: Value, current: Value, length: Value) -> Value:
    """Drop in V.

    Args:
        book: the handbook.
        system: which loop.
        resistance: of one conductor in ohm per 1000 ft; reactance is left out.
        current: in A.
        length: one way, in ft.
    """
    text = f"{_LOOP[system]} * I * R_kft * L / 1000"
    return work("V_d", text, "V", book.clause("drop_resistance"), I=current, R_kft=resistance, L=length)


def longest(book: Edition, system: System, resistance: Value, current: Value, limit: Value) -> Value:
    """Longest run one way in ft that stays within a drop in V; resistance in ohm per 1000 ft."""
    text = f"1000 * V_lim / ({_LOOP[system]} * I * R_kft)"
    return work("L_max", text, "ft", book.clause("drop_resistance"), V_lim=limit, I=current, R_kft=resistance)


def percent(book: Edition, drop: Value, voltage: Value) -> Value:
    """Drop or rise in per cent of a voltage, both in V."""
    return work("V_pct", "100 * V_d / V", "%", book.clause("drop_percent"), V_d=drop, V=voltage)


def limit(book: Edition, voltage: Value, percent: Value) -> Value:
    """Drop in V that a limit in per cent allows."""
    return work("V_lim", "V * p / 100", "V", book.clause("drop_percent"), V=voltage, p=percent)


def lowest(book: Edition, voltage: Value, limit: Value) -> Value:
    """Voltage in V that is left at the end."""
    return work("V_low", "V - V_lim", "V", book.clause("drop_percent"), V=voltage, V_lim=limit)


def by_constant(book: Edition, system: System, k: Value, current: Value, length: Value, area: Value) -> Value:
    """Drop in V by the constant K.

    Args:
        book: the handbook.
        system: which loop.
        k: resistance of one circular mil over one foot, in ohm cmil/ft.
        current: in A.
        length: one way, in ft.
        area: of the conductor in circular mils.
    """
    text = f"{_LOOP[system]} * K * I * L / A"
    return work("V_d", text, "V", book.clause("drop_constant"), K=k, I=current, L=length, A=area)


def least_area(book: Edition, system: System, k: Value, current: Value, length: Value, limit: Value) -> Value:
    """Least area in circular mils that keeps the drop within a limit in V."""
    text = f"{_LOOP[system]} * K * I * L / V_lim"
    return work("A_min", text, "cmil", book.clause("drop_constant"), K=k, I=current, L=length, V_lim=limit)


def by_millivolts(book: Edition, figure: Value, current: Value, length: Value) -> Value:
    """Drop in V from millivolts per ampere and metre, which already hold the return conductor."""
    text = "mV_A_m * I * L / 1000"
    return work("V_d", text, "V", book.clause("drop_millivolts"), mV_A_m=figure, I=current, L=length)


def greatest_millivolts(book: Edition, limit: Value, current: Value, length: Value) -> Value:
    """Largest figure in mV per ampere and metre that keeps within a limit in V."""
    text = "1000 * V_lim / (I * L)"
    return work("mV_A_m_max", text, "mV/(A·m)", book.clause("drop_millivolts"), V_lim=limit, I=current, L=length)


def millivolts(book: Edition, system: System, resistivity: Value, area: Value) -> Value:
    """Figure in mV per ampere and metre from resistivity in ohm mm2/m and area in mm2; the loop is counted."""
    text = f"{_LOOP[system]} * rho / A * 1000"
    return work("mV_A_m", text, "mV/(A·m)", book.clause("drop_millivolts"), rho=resistivity, A=area)
