"""Default points of the functions that a utility may ask for, and of entering service."""

from typing import NamedTuple

from standfast.sheet import Value
from standfast.shelf import Edition

POINTS = (1, 2, 3, 4)


class EnterService(NamedTuple):
    """Limits of voltage in pu and frequency in Hz within which a unit may start, delay and ramp in s."""

    v_low: Value
    v_high: Value
    f_low: Value
    f_high: Value
    delay: Value
    ramp: Value


class VoltVar(NamedTuple):
    """Points of voltage and reactive power in pu (positive: supplying), and the open-loop response time in s."""

    v: tuple[Value, ...]
    q: tuple[Value, ...]
    response: Value


class VoltWatt(NamedTuple):
    """Voltages in pu at which the limit of active power begins and ends, the power left in pu, response time in s."""

    v1: Value
    v2: Value
    p2: Value
    response: Value


class Droop(NamedTuple):
    """Deadband in Hz, droop per unit of frequency for full power, open-loop response time in s."""

    deadband: Value
    droop: Value
    response: Value


def enter_service(book: Edition) -> EnterService:
    """Default criteria for entering service."""
    return EnterService(*(book.number(f"enter_{field}") for field in EnterService._fields))


def enter_service_ranges(book: Edition) -> dict[str, tuple[Value, Value]]:
    """Least and greatest setting of each criterion for entering service."""
    return {
        field: (book.number(f"enter_{field}_least"), book.number(f"enter_{field}_greatest"))
        for field in EnterService._fields
    }


def volt_var(book: Edition, category: str) -> VoltVar:
    """Default points in a category of normal operation (``a``, ``b``)."""
    table = book.table("volt_var")
    v, q = (tuple(table.pick(f"{name}_{n}", name, category=category, point=n) for n in POINTS) for name in "vq")
    return VoltVar(v, q, book.table("volt_var_response").pick("t_OL", "time", category=category))


def volt_watt(book: Edition) -> VoltWatt:
    """Default points, the same in both categories."""
    return VoltWatt(*(book.number(f"volt_watt_{field}") for field in VoltWatt._fields))


def frequency_droop(book: Edition) -> Droop:
    """Default settings, the same in all categories."""
    return Droop(book.number("droop_deadband"), book.number("droop"), book.number("droop_response"))
