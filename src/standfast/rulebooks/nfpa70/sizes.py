"""Conductor sizes: their order and their areas. Sizes are words (AWG, then kcmil), never numbers."""

from standfast.faults import OutsideTable
from standfast.sheet import Value, chosen
from standfast.shelf import Edition


def order(book: Edition) -> list[str]:
    """Every size of Chapter 9 Table 8, smallest first."""
    return [str(cell) for cell in book.table("conductor_area").column("size")]


def area(book: Edition, size: Value, symbol: str = "A_c") -> Value:
    """Area of a conductor in circular mils. Chapter 9 Table 8."""
    return book.table("conductor_area").look(symbol, "area", size=size)


def with_area(book: Edition, needed: Value, symbol: str = "size", clause: str = "conductor_resistance") -> Value:
    """Smallest size that has an area.

    Args:
        book: the code.
        needed: area in circular mils; compared strictly: one mil short is short.
        symbol: symbol of the result.
        clause: subject of the clause that asks for the area.

    Raises:
        OutsideTable: beyond the largest size.
    """
    table = book.table("conductor_area")
    sizes = [(str(row["size"]), row["area"]) for row in table.rows]
    if needed.missing:
        return chosen(symbol, "", "", "", None, needed)
    for size, mils in sizes:
        if isinstance(mils, float) and mils >= needed.quantity:
            cell = table.pick("A_c", "area", size=size)
            return chosen(symbol, size, "", "smallest size of at least the area", book.clause(clause), cell, needed)
    raise OutsideTable(f"{table.clause} ends before {needed.quantity:.0f} circular mils")


def not_smaller(book: Edition, size: str, least: str) -> bool:
    """True where a size is at least another. OutsideTable for a word that is no size."""
    sizes = order(book)
    for word in (size, least):
        if word not in sizes:
            raise OutsideTable(f"{word!r} is not a conductor size of {book.table('conductor_area').clause}")
    return sizes.index(size) >= sizes.index(least)
