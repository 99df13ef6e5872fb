"""Current-carrying capacity of copper cables in buildings."""

from standfast.sheet import Value
from standfast.shelf import Edition


def areas(book: Edition, insulation: str) -> list[float]:
    """Areas in mm2 that the tables hold for an insulation, ``pvc70`` or ``xlpe90``, rising."""
    return sorted({float(row["area"]) for row in book.table("capacity").rows if row["insulation"] == insulation})


def capacity(book: Edition, insulation: str, cable: str, method: str, loaded: int, area: Value) -> Value:
    """Current in A that a cable carries in air at 30 °C before factors.

    Args:
        book: IEC 60364-5-52.
        insulation: ``pvc70`` or ``xlpe90``: the temperature that its conductors may have.
        cable: kind of cable, as the job words it.
        method: reference method, a letter.
        loaded: conductors that carry current, 2 or 3.
        area: of the live conductors in mm2.
    """
    form = book.table("cables").pick("form", "form", cable=cable)
    column = book.table("columns").pick("column", "column", form=form.word, method=method)
    row: dict[str, Value | str | float] = {
        "insulation": insulation, "loaded": loaded, "column": column.word, "area": area
    }  # fmt: skip
    return book.table("capacity").look("I_t", "current", **row)


def ambient_factor(book: Edition, insulation: str, ambient: Value) -> Value:
    """Factor for the temperature of the air in °C; between two rows that of the hotter."""
    return book.table("ambient").look("C_a", "factor", insulation=insulation, ambient=ambient)


def grouping_factor(book: Edition, circuits: Value) -> Value:
    """Factor for so many circuits that touch or share an enclosure; between two rows that of more."""
    return book.table("grouping").look("C_g", "factor", circuits=circuits)
