"""How the load of a household goes with the day of the year."""

from collections.abc import Sequence

from standfast.sheet import Value, work
from standfast.shelf import Edition

POWERS = (4, 3, 2, 1, 0)


def published(book: Edition) -> list[Value]:
    """Coefficients of the polynomial, from the fourth power down."""
    return [book.number(f"c_{power}") for power in POWERS]


def dynamisation(book: Edition, coefficients: Sequence[Value], day: Value) -> Value:
    """Factor on the profile of a day.

    Args:
        book: the profiles.
        coefficients: from the fourth power down, per day to that power.
        day: of the year, 1 to 366, in d.
    """
    named = {f"c_{power}": each for power, each in zip(POWERS, coefficients, strict=True)}
    text = "c_4 * d ** 4 + c_3 * d ** 3 + c_2 * d ** 2 + c_1 * d + c_0"
    return work("F", text, "1", book.clause("dynamisation"), **named, d=day)
