"""How many terminators the resistance between the wires of a dead bus means."""

from standfast.sheet import Value
from standfast.shelf import Edition


def diagnosis(book: Edition, resistance: Value) -> Value:
    """What a resistance in ohm means: ``two_terminators``, ``one_terminator``, ``three_or_more_terminators``,
    ``none_or_open``, ``short``.

    Raises:
        NotInEdition: between two bands, where a reading tells nothing: look for what else is on the bus.
        OutsideTable: for a resistance below zero.
    """
    return book.table("bus_resistance").look("diagnosis", "diagnosis", **{"from": resistance})
