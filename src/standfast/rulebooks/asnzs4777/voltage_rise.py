"""Voltage rise between an inverter and the point of supply."""

from standfast.sheet import Value, work
from standfast.shelf import Edition


def limit_ratio(book: Edition) -> Value:
    """Greatest rise as a part of the nominal voltage."""
    return book.number("voltage_rise")


def limit(book: Edition, voltage: Value) -> Value:
    """Greatest rise in V at a nominal voltage in V."""
    return work("U_rise", "u_rise * U_n", "V", book.clause("voltage_rise"), limit_ratio(book), U_n=voltage)
