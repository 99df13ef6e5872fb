"""Interface protection and response of small generators at low voltage (G98, and G99 type A)."""

from typing import NamedTuple

from standfast.sheet import Value, work
from standfast.shelf import Edition


class VoltageTrip(NamedTuple):
    """Threshold in V and in pu of the nominal voltage, and the trip delay in s."""

    threshold: Value
    per_unit: Value
    delay: Value


class FrequencyTrip(NamedTuple):
    """Threshold in Hz, or Hz/s for a rate of change, and the trip delay in s."""

    threshold: Value
    delay: Value


class Reconnection(NamedTuple):
    """Least time in s inside all limits before a generator connects again."""

    delay: Value


class Droop(NamedTuple):
    """Response to high frequency: deadband in Hz and droop per unit of frequency for full power."""

    deadband: Value
    droop: Value


def voltage_trip(book: Edition, function: str) -> VoltageTrip:
    """Voltage protection: ``uv1``, ``ov1``, ``ov2``."""
    table = book.table("voltage_trips")
    share = table.pick("v", "threshold", function=function)
    volts = work("V_trip", "v * U_n", "V", book.clause("protection"), share, book.number("nominal_voltage"))
    return VoltageTrip(volts, share, table.pick("t_delay", "delay", function=function))


def frequency_trip(book: Edition, function: str) -> FrequencyTrip:
    """Frequency protection: ``uf1``, ``uf2``, ``of1``."""
    table = book.table("frequency_trips")
    threshold = table.pick("f_trip", "threshold", function=function)
    return FrequencyTrip(threshold, table.pick("t_delay", "delay", function=function))


def loss_of_mains(book: Edition) -> FrequencyTrip:
    """Loss of mains by rate of change of frequency."""
    return FrequencyTrip(book.number("rate_of_change"), book.number("rate_of_change_delay"))


def reconnection(book: Edition) -> Reconnection:
    """Wait before connecting again."""
    return Reconnection(book.number("reconnection_delay"))


def frequency_droop(book: Edition) -> Droop:
    """Response to high frequency."""
    return Droop(book.number("droop_deadband"), book.number("droop"))
