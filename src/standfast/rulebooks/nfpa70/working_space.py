"""Working space about equipment likely to be worked on while live, and the space dedicated to it."""

from typing import NamedTuple

from standfast.sheet import Value
from standfast.shelf import Edition


class WorkingSpace(NamedTuple):
    """Depth in ft from the enclosure or live parts; least width in in and height in ft (the equipment's where more)."""

    depth: Value
    width: Value
    height: Value


def least(book: Edition, volts_to_ground: Value, condition: Value) -> WorkingSpace:
    """Least working space.

    Args:
        book: the code.
        volts_to_ground: nominal, in V.
        condition: what faces the live parts: 1 nothing live or grounded, 2 grounded (concrete, brick and tile count as
            grounded), 3 live parts on both sides.

    Raises:
        OutsideTable: above 1000 V.
    """
    table = book.table("working_depth")
    depth = table.look("d_work", "depth", condition=condition, volts_to_ground=volts_to_ground)
    return WorkingSpace(depth, book.number("working_width"), book.number("working_height"))
