"""Settings under Engineering Recommendations G98 and G99, low voltage, type A."""

from collections.abc import Iterator

from standfast.design.settings.points import switch, trip
from standfast.design.settings.setting import Point, Setting
from standfast.rulebooks.erec import settings
from standfast.shelf import Edition

VOLTAGE = {"ov2": "Over-voltage trip, stage 2", "ov1": "Over-voltage trip, stage 1", "uv1": "Under-voltage trip"}
FREQUENCY = {
    "of1": "Over-frequency trip", "uf1": "Under-frequency trip, stage 1", "uf2": "Under-frequency trip, stage 2"
}  # fmt: skip


def rows(book: Edition) -> Iterator[Setting]:
    """Every setting, in the order of the sheet.

    Args:
        book: G98 and G99 as the operator has changed them.
    """
    nominal = book.number("nominal_voltage")
    for function, name in VOLTAGE.items():
        found = settings.voltage_trip(book, function)
        at = trip(function, "threshold", found.threshold, nominal)
        yield Setting(name, "threshold", found.threshold, point=at)
        yield Setting(name, "delay", found.delay, point=trip(function, "time", found.delay))
    for function, name in FREQUENCY.items():
        limit, delay = settings.frequency_trip(book, function)
        yield Setting(name, "threshold", limit, point=trip(function, "threshold", limit))
        yield Setting(name, "delay", delay, point=trip(function, "time", delay))
    rate, time = settings.loss_of_mains(book)
    yield Setting("Loss of mains", "rate of change of frequency", rate)
    yield Setting("Loss of mains", "delay", time)
    wait = settings.reconnection(book).delay
    yield Setting("Reconnection", "delay", wait, "at least", Point(703, "ESDlyTms", wait))
    on, droop = book.number("frequency_droop_on"), settings.frequency_droop(book)
    yield Setting("Frequency droop", "on", on, point=switch(711, on))
    yield Setting("Frequency droop", "deadband above", droop.deadband, point=Point(711, "Ctl[0].DbOf", droop.deadband))
    yield Setting("Frequency droop", "droop above", droop.droop, point=Point(711, "Ctl[0].KOf", droop.droop))
