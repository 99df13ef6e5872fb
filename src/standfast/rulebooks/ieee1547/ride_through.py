"""How long a unit must stay connected while voltage or frequency is off its limits."""

from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, chosen, missing, work
from standfast.shelf import Edition


class Region(NamedTuple):
    """A region of voltage beside continuous operation: which side of its edge in pu, and the least time there in s."""

    side: str
    edge: Value
    time: Value


def regions(book: Edition, category: str) -> list[Region]:
    """The regions of a category with their least times: where it grows with the voltage, that at the lower edge."""
    found: list[Region] = []
    for row in book.table("high_voltage").rows:
        if row["category"] == category:
            top = book.table("high_voltage").pick("V_to", "to", category=category, to=row["to"])
            found.append(Region("up to", top, voltage_time(book, category, top)))
    for row in book.table("low_voltage").rows:
        if row["category"] == category:
            edge = book.table("low_voltage").pick("V_from", "from", **{"category": category, "from": row["from"]})
            found.append(Region("from", edge, voltage_time(book, category, edge)))
    return found


def voltage_time(book: Edition, category: str, voltage: Value) -> Value:
    """Least time in s at a voltage in pu of the nominal one.

    Args:
        book: IEEE 1547.
        category: of abnormal operation: ``i``, ``ii``, ``iii``. In the lowest region of category III the time is the
            one before momentary cessation.
        voltage: applicable voltage in pu.

    Raises:
        OutsideTable: in the region of continuous operation, which has no least time, and where no ride-through is
            asked for.
    """
    low, high = book.number("continuous_v_low"), book.number("continuous_v_high")
    if voltage.missing:
        return missing("t_ride", "s", voltage.how, voltage)
    if low.quantity <= voltage.quantity <= high.quantity:
        _continuous(f"{voltage.quantity:g} pu", low, high)
    if voltage.quantity > high.quantity:
        return book.table("high_voltage").look("t_ride", "time", category=category, to=voltage)
    row: dict[str, Value | str] = {"category": category, "from": voltage}
    table = book.table("low_voltage")
    edge, time, slope = (table.look(symbol, column, **row) for symbol, column in _LOW)
    clause = book.clause("voltage_ride_through")
    return work("t_ride", "t_0 + m * (V - V_0)", "s", clause, edge, time, slope, V=voltage)


_LOW = (("V_0", "from"), ("t_0", "time"), ("m", "slope"))


def frequency_time(book: Edition, frequency: Value) -> Value:
    """Least time in s at a frequency in Hz, the same in every category. OutsideTable as for the voltage."""
    if frequency.missing:
        return missing("t_ride", "s", frequency.how, frequency)
    f, low, high = frequency.quantity, book.number("continuous_f_low"), book.number("continuous_f_high")
    if low.quantity <= f <= high.quantity:
        _continuous(f"{f:g} Hz", low, high)
    lowest, highest = book.number("ride_f_low"), book.number("ride_f_high")
    if not lowest.quantity <= f <= highest.quantity:
        raise OutsideTable(
            f"no ride-through is asked for at {f:g} Hz, only from {lowest.number} to {highest.number} Hz"
        )
    time, clause = book.number("ride_f_time"), book.clause("frequency_ride_through")
    return chosen("t_ride", time.quantity, "s", "beside the range of continuous operation", clause, frequency, time)


def rate_of_change(book: Edition, category: str) -> Value:
    """Rate of change of frequency in Hz/s that a unit of a category must ride through."""
    return book.table("rate_of_change").pick("df_dt", "rate", category=category)


def _continuous(what: str, low: Value, high: Value) -> None:
    raise OutsideTable(f"{what} lies in continuous operation ({low.number} to {high.number} {low.unit}): no least time")
