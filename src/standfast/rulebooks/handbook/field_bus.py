"""Resistance between the wires of a dead bus."""

from collections.abc import Sequence

from standfast.faults import OutsideTable
from standfast.sheet import Value, total, work
from standfast.shelf import Edition


def in_parallel(book: Edition, terminators: Sequence[Value]) -> Value:
    """Resistance in ohm of terminators in parallel. OutsideTable where none is fitted: the bus is open."""
    if not terminators:
        raise OutsideTable("no terminator is fitted: the bus is open and has no resistance")
    clause = book.clause("parallel_resistance")
    conductances = [work("G", "1 / R", "1/ohm", clause, R=each) for each in terminators]
    return work("R_bus", "1 / G_sum", "ohm", clause, total("G_sum", conductances, "1/ohm", clause))
