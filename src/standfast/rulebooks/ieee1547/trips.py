"""Trips on voltage and frequency: default settings, and the ranges within which a utility may choose others.

Functions are named as in the standard: ``ov`` over-voltage, ``uv`` under-voltage, ``of`` over-frequency, ``uf``
under-frequency; 2 is the further stage.
"""

from contextlib import suppress
from typing import NamedTuple

from standfast.faults import NotInEdition, OutsideTable
from standfast.sheet import Value
from standfast.shelf import Edition

VOLTAGE = ("ov2", "ov1", "uv1", "uv2")
FREQUENCY = ("of2", "of1", "uf1", "uf2")


class Trip(NamedTuple):
    """Threshold (pu of the nominal voltage, or Hz) and the longest time to clear in s."""

    threshold: Value
    clearing: Value


class Range(NamedTuple):
    """Least and greatest threshold (pu or Hz), least and greatest clearing time in s."""

    least: Value
    greatest: Value
    least_time: Value
    greatest_time: Value


def voltage_trip(book: Edition, category: str, function: str) -> Trip:
    """Default trip of a voltage function in a category of abnormal operation (``i``, ``ii``, ``iii``)."""
    table, row = book.table("voltage_trips"), {"category": category, "function": function}
    return Trip(table.pick("V_trip", "threshold", **row), table.pick("t_clear", "clearing", **row))


def frequency_trip(book: Edition, function: str) -> Trip:
    """Default trip of a frequency function, the same in every category."""
    table = book.table("frequency_trips")
    threshold = table.pick("f_trip", "threshold", function=function)
    return Trip(threshold, table.pick("t_clear", "clearing", function=function))


def voltage_range(book: Edition, category: str, function: str) -> Range:
    """Range of settings of a voltage function in a category."""
    table = book.table("voltage_trip_ranges")
    return Range(*(table.pick(column, column, category=category, function=function) for column in Range._fields))


def frequency_range(book: Edition, function: str) -> Range:
    """Range of settings of a frequency function."""
    table = book.table("frequency_trip_ranges")
    return Range(*(table.pick(column, column, function=function) for column in Range._fields))


def ranges(book: Edition, category: str) -> dict[str, Range]:
    """The ranges of all functions that an edition holds; those of the voltage for a category, none for no category.

    OutsideTable for a category that the edition does not have.
    """
    found: dict[str, Range] = {}
    if category:
        held = [row["function"] for row in book.table("voltage_trip_ranges").rows if row["category"] == category]
        found |= {str(function): voltage_range(book, category, str(function)) for function in held}
        if not found:
            raise OutsideTable(f"{book.short} {book.edition} holds no ranges for the category {category!r}")
    # An amendment holds only what it changed.
    with suppress(NotInEdition):
        found |= {function: frequency_range(book, function) for function in FREQUENCY}
    return found
