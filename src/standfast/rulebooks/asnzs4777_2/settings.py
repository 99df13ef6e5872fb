"""Settings of an inverter by region, or by the rule of a network.

A *rule* is a row of the edition's tables: the regions ``australia_a``, ``australia_b``, ``australia_c`` and
``new_zealand`` of the edition of 2020; ``australia`` of that of 2015, and a network's own rule beside it.
"""

from typing import NamedTuple

from standfast.faults import NotInEdition
from standfast.sheet import Value
from standfast.shelf import Edition

POINTS = (1, 2, 3, 4)
LIMITS = ("v_low", "v_high", "f_low", "f_high")


class Trip(NamedTuple):
    """Threshold in V or Hz, least delay in s (None where none is stated), longest disconnection time in s."""

    threshold: Value
    delay: Value | None
    longest: Value


class Reconnection(NamedTuple):
    """Limits in V and Hz (None where none is held), least time inside them and ramp to full power in s."""

    v_low: Value | None
    v_high: Value | None
    f_low: Value | None
    f_high: Value | None
    delay: Value
    ramp: Value


class VoltVar(NamedTuple):
    """Points of voltage in V and reactive power in % of the rating (positive: supplying), response time in s."""

    v: tuple[Value, ...]
    q: tuple[Value, ...]
    response: Value | None


class VoltWatt(NamedTuple):
    """Voltages in V at which the limit of power begins and ends, power left in %, response time in s."""

    v1: Value
    v2: Value
    p2: Value
    response: Value | None


class Sustained(NamedTuple):
    """Limit in V of the voltage averaged over ten minutes."""

    limit: Value


class Droop(NamedTuple):
    """Response to high frequency: deadband in Hz and droop per unit of frequency for full power."""

    deadband: Value
    droop: Value


def rule_of(book: Edition, country: str, network: str) -> Value:
    """The rule that a network of a country asks for."""
    return book.table("regions").pick("rule", "rule", country=country, network=network)


def chosen_by_network(book: Edition) -> Value:
    """Whether the network, and not the installer, chooses the region."""
    return book.number("region_chosen_by_network")


def voltage_trip(book: Edition, rule: str, function: str) -> Trip:
    """Passive voltage trip: ``uv1`` (V<), ``uv2`` (V<<), ``ov1`` (V>), ``ov2`` (V>>)."""
    return _trip(book, "voltage_trips", rule, function)


def frequency_trip(book: Edition, rule: str, function: str) -> Trip:
    """Passive frequency trip: ``uf1`` (F<), ``of1`` (F>)."""
    return _trip(book, "frequency_trips", rule, function)


def sustained_voltage(book: Edition, rule: str) -> Sustained:
    """Limit of sustained operation."""
    return Sustained(book.table("sustained_voltage").pick("V_nom_max", "limit", rule=rule))


def reconnection(book: Edition, rule: str) -> Reconnection:
    """Wait, limits and ramp before and after connecting again."""
    v_low, v_high, f_low, f_high = (_stated(book, "reconnection", column, rule=rule) for column in LIMITS)
    delay, ramp = (book.table("reconnection").pick(column, column, rule=rule) for column in ("delay", "ramp"))
    return Reconnection(v_low, v_high, f_low, f_high, delay, ramp)


def volt_var(book: Edition, rule: str) -> VoltVar:
    """Default points of reactive power by voltage."""
    table = book.table("volt_var")
    v, q = (tuple(table.pick(f"{name}_{n}", name, rule=rule, point=n) for n in POINTS) for name in "vq")
    return VoltVar(v, q, response(book, "volt_var"))


def volt_watt(book: Edition, rule: str) -> VoltWatt:
    """Default points of active power by voltage."""
    table = book.table("volt_watt")
    v1, v2, p2 = (table.pick(column, column, rule=rule) for column in ("v1", "v2", "p2"))
    return VoltWatt(v1, v2, p2, response(book, "volt_watt"))


def frequency_droop(book: Edition, rule: str) -> Droop:
    """Response to high frequency."""
    table = book.table("frequency_droop")
    return Droop(table.pick("db", "deadband", rule=rule), table.pick("k", "droop", rule=rule))


def _trip(book: Edition, table: str, rule: str, function: str) -> Trip:
    row = {"rule": rule, "function": function}
    threshold, longest = (book.table(table).pick(column, column, **row) for column in ("threshold", "longest"))
    return Trip(threshold, _stated(book, table, "delay", **row), longest)


def response(book: Edition, function: str) -> Value | None:
    """Time in s in which the response of ``volt_var`` or ``volt_watt`` is complete; None where none is held."""
    return _stated(book, "response", "time", function=function)


def _stated(book: Edition, table: str, column: str, **row: str) -> Value | None:
    """A cell, or None where the standard states nothing or the edition holds nothing: an empty cell."""
    try:
        return book.table(table).pick(column, column, **row)
    except NotInEdition:
        return None
