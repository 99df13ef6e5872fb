"""Insulation resistance of low-voltage and extra-low-voltage circuits."""

from standfast.sheet import Value, chosen
from standfast.shelf import Edition


def band(book: Edition, voltage: Value) -> Value:
    """The band of a nominal voltage in V."""
    low, middle = book.number("extra_low_voltage"), book.number("insulation_boundary")
    if voltage.missing or voltage.quantity <= low.quantity:
        word = "extra-low voltage"
    else:
        word = "up to 500 V" if voltage.quantity <= middle.quantity else "above 500 V"
    return chosen("band", word, "", "nominal voltage", book.clause("insulation_test"), voltage, low, middle)


def limits(book: Edition, row: Value) -> tuple[Value, Value]:
    """Test voltage in V d.c. and least resistance in megohm of a band."""
    table = book.table("insulation")
    return table.look("U_test", "test", band=row), table.look("R_min", "least", band=row)


def reduced_test(book: Edition) -> Value:
    """Test voltage in V d.c. where connected equipment could be damaged; the least resistance stays."""
    return book.number("insulation_reduced")
