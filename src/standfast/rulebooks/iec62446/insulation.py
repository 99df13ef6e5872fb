"""Insulation resistance of an array, array poles against earth."""

from standfast.sheet import Value, chosen, work
from standfast.shelf import Edition


def system_voltage(book: Edition, voc_stc: Value) -> Value:
    """System voltage in V from the open-circuit voltage at standard conditions in V."""
    return work(
        "U_sys", "k_voc * U_oc", "V", book.clause("insulation_test"), book.number("system_voltage"), U_oc=voc_stc
    )


def band(book: Edition, voltage: Value) -> Value:
    """The row of the table for a system voltage in V."""
    clause = book.clause("insulation_test")
    low, middle, high = (book.number(f"band_{name}") for name in ("low", "middle", "high"))
    if voltage.missing or voltage.quantity < low.quantity:
        word = "below 120 V"
    elif voltage.quantity <= middle.quantity:
        word = "120 V to 500 V"
    elif voltage.quantity <= high.quantity:
        word = "above 500 V to 1000 V"
    else:
        word = "above 1000 V"
    return chosen("band", word, "", "system voltage", clause, voltage, low, middle, high)


def limits(book: Edition, row: Value) -> tuple[Value, Value]:
    """Test voltage in V d.c. and least resistance in megohm of a band."""
    test = book.table("insulation").look("U_test", "test", band=row)
    return test, book.table("least").look("R_min", "least", band=row)
