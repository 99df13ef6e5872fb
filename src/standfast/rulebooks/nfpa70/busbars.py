"""A power source on a busbar: the options of 705.12(B). They are alternatives, never added up.

Every busbar on the way from the source to the service has to satisfy one of them.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.sheet import Check, Value, at_most, is_, total, work
from standfast.sheet import chosen as choose
from standfast.shelf import Edition

DO_NOT_RELOCATE = "label: power source output connection, do not relocate this overcurrent device"
SUM_OF_DEVICES = "label: the sum of all overcurrent devices, the main left out, is not to exceed the busbar"


class Room(NamedTuple):
    """What still fits: 125 % of the outputs, and the output current itself, both in A."""

    sources_125: Value
    output: Value


def sources_125(book: Edition, outputs: Sequence[Value]) -> Value:
    """125 % of the rated continuous output currents, in A. Not of the breaker ratings."""
    clause = book.clause("source_busbar")
    sum_outputs = total("I_out", outputs, "A", clause)
    return work("I_src", "k_source * I_out", "A", clause, book.number("source_factor"), sum_outputs)


def sources_by_devices(book: Edition, devices: Sequence[Value]) -> Value:
    """Ratings of the source devices in A where the outputs are not known: not less than 125 % of the outputs."""
    return total("I_src", devices, "A", book.clause("source_busbar"))


def with_main(book: Edition, main: Value, sources: Value) -> Value:
    """Device protecting the busbar plus the sources, in A: the sum of options (1) and (2)."""
    return work("I_sum", "I_main + I_src", "A", book.clause("source_busbar_sum"), I_main=main, I_src=sources)


def limit_120(book: Edition, bus: Value) -> Value:
    """120 % of the busbar in A: the limit of option (2)."""
    return work(
        "I_120", "k_bus * I_bus", "A", book.clause("source_busbar_120"), book.number("busbar_factor"), I_bus=bus
    )


def least_bus_120(book: Edition, total_a: Value) -> Value:
    """Least busbar in A that satisfies option (2) for a sum of main and sources."""
    clause, factor = book.clause("source_busbar_120"), book.number("busbar_factor")
    return work("I_bus_least", "I_sum / k_bus", "A", clause, factor, I_sum=total_a)


def devices(book: Edition, ratings: Sequence[Value]) -> Value:
    """Sum in A of every load and source device on the busbar, the one protecting it left out: option (3)."""
    return total("I_dev", ratings, "A", book.clause("source_busbar_devices"))


def option_1(book: Edition, id: str, total_a: Value, bus: Value) -> Check:
    """Option (1): main and 125 % of the sources within the busbar; the sources may stand anywhere."""
    title = "Main device and sources within the busbar"
    return at_most(id, title, book.clause("source_busbar_sum"), total_a, bus)


def option_2(book: Edition, id: str, total_a: Value, bus: Value, opposite_ends: Value) -> Check:
    """Option (2): within 120 % of the busbar, with the sources at the end opposite the main, and a label."""
    title, clause = "Main device and sources within 120 % of the busbar", book.clause("source_busbar_120")
    if not opposite_ends.missing and not opposite_ends.yes:
        return is_(id, title, clause, opposite_ends, choose("needed", True, "", "sources opposite the main", clause))
    within = at_most(id, title, clause, total_a, limit_120(book, bus), condition=DO_NOT_RELOCATE)
    if opposite_ends.missing and within.verdict == "pass":
        return is_(id, title, clause, opposite_ends, choose("needed", True, "", "sources opposite the main", clause))
    return within


def option_3(book: Edition, id: str, devices: Value, bus: Value, main: Value | None) -> Check:
    """Option (3): all load and source devices within the busbar, and the main not above it, and a label."""
    title, clause = "All devices on the busbar within the busbar", book.clause("source_busbar_devices")
    if main is not None and not (main.missing or bus.missing) and main.quantity > bus.quantity:
        return at_most(id, title, clause, main, bus)
    return at_most(id, title, clause, devices, bus, condition=SUM_OF_DEVICES)


def option_4(book: Edition, id: str, total_a: Value, bus: Value, sources_at_one_end: Value) -> Check:
    """Option (4): a dwelling panelboard fed in the middle, sources at one end only, within 120 %, and a label."""
    title, clause = "Centre-fed panelboard: main device and sources within 120 %", book.clause("source_busbar_centre")
    if sources_at_one_end.missing or not sources_at_one_end.yes:
        needed = choose("needed", True, "", "sources at one end only", clause)
        return is_(id, title, clause, sources_at_one_end, needed)
    return at_most(id, title, clause, total_a, limit_120(book, bus), condition=DO_NOT_RELOCATE)


def controlled(book: Edition, setting: Value, others: Sequence[Value]) -> Value:
    """What a busbar carries under power control, in A: the setting as a continuous load, and what it does not hold.

    Args:
        book: the code.
        setting: current in A that the listed control keeps the busbar below; it counts as continuous.
        others: rated outputs in A of the sources that the control does not hold back.
    """
    clause, factor = book.clause("source_control"), book.number("continuous_factor")
    rest = sources_125(book, others)
    return work("I_ctl", "k_cont * I_set + I_src", "A", clause, factor, rest, I_set=setting)


def power_control(book: Edition, id: str, carried: Value, bus: Value) -> Check:
    """Power control: what a listed control leaves is within the busbar; the sources may stand anywhere."""
    return at_most(id, "Setting of the listed control within the busbar", book.clause("source_control"), carried, bus)


def power(current: Value, voltage: Value) -> Value:
    """Power in kW of a single-phase output current."""
    return work("P_out", "I_out * U / 1000", "kW", None, I_out=current, U=voltage)


def room(book: Edition, bus: Value, main: Value) -> Room:
    """What fits on a busbar under option (1)."""
    clause = book.clause("source_busbar_sum")
    free = work("I_room", "max(0, I_bus - I_main)", "A", clause, I_bus=bus, I_main=main)
    return Room(free, _output(book, free))


def room_120(book: Edition, bus: Value, main: Value, centre_fed: bool) -> Room:
    """What fits under option (2), or at one end of a centre-fed dwelling panelboard under option (4)."""
    clause = book.clause("source_busbar_centre" if centre_fed else "source_busbar_120")
    factor = book.number("busbar_factor")
    free = work("I_room", "max(0, k_bus * I_bus - I_main)", "A", clause, factor, I_bus=bus, I_main=main)
    return Room(free, _output(book, free))


def _output(book: Edition, free: Value) -> Value:
    clause = book.clause("source_busbar")
    return work("I_out", "I_room / k_source", "A", clause, book.number("source_factor"), I_room=free)
