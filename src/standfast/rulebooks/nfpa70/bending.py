"""Space to bend a conductor in at its terminal: 312.6."""

from standfast.rulebooks.nfpa70 import sizes
from standfast.sheet import Value
from standfast.shelf import Edition


def needed(book: Edition, size: Value) -> Value | None:
    """Least distance in inches from a terminal to the wall it faces, one wire to a terminal, for a wire that turns.

    None for a size so small that the table asks nothing.

    Raises:
        OutsideTable: beyond the largest size of the table.
    """
    table = book.table("bending_space")
    if not size.missing:
        smallest = str(table.rows[0]["size"])
        if not sizes.not_smaller(book, size.word, smallest):
            return None
    return table.look("b_least", "space", size=size)
