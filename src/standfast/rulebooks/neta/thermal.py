"""What a temperature difference of a joint means."""

from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, missing
from standfast.shelf import Edition


class Finding(NamedTuple):
    """The class, and the row: its least and greatest difference in K, or the one above which the open row lies."""

    meaning: Value
    least: Value | None
    greatest: Value | None
    above: Value | None


def judge(book: Edition, basis: str, difference: Value) -> Finding:
    """Judge a temperature difference.

    Args:
        book: the table of temperature differences.
        basis: ``similar`` (against a similar part under a similar load) or ``ambient`` (against the surrounding air).
        difference: in K. The printed rows are in whole kelvin: what lies between two rows falls in the worse one.

    Raises:
        OutsideTable: below the first row, where the table says nothing.
    """
    if difference.missing:
        return Finding(missing("class", "", difference.how, difference), None, None, None)
    above = book.table("beyond").pick("above", "above", basis=basis)
    if difference.quantity > above.quantity:
        return Finding(book.table("beyond").pick("class", "class", difference, basis=basis), None, None, above)
    table = book.table("temperature_difference")
    row: dict[str, Value | str] = {"basis": basis, "to": difference}
    least = table.look("least", "from", **row)
    if difference.quantity < _first(book, basis):
        raise OutsideTable(f"{difference.quantity:g} K is less than the table begins with: it calls that no deficiency")
    return Finding(table.look("class", "class", **row), least, table.look("greatest", "to", **row), None)


def _first(book: Edition, basis: str) -> float:
    rows = book.table("temperature_difference").rows
    return min(float(row["from"]) for row in rows if row["basis"] == basis)
