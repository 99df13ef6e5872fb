"""Temperature column that terminations allow: both ends of a conductor count, and the lowest wins."""

from collections.abc import Sequence

from standfast.sheet import Value, chosen, worst
from standfast.shelf import Edition

UNMARKED = "not marked"


def end(book: Edition, rating: Value, marked: Value, symbol: str = "T_end") -> Value:
    """Temperature in °C of the ampacity column that one end allows.

    Args:
        book: the code.
        rating: rating of the circuit or equipment in A.
        marked: temperature marked on the terminal or equipment in °C, or the word ``not marked``. Where it is not
            known whether there is a mark, 60 °C is taken up to 100 A: it is safe for every mark that there can be.
        symbol: symbol of the result.
    """
    if rating.missing:
        return chosen(symbol, 0.0, "°C", "", None, rating)
    split = book.number("termination_split")
    small = rating.quantity <= split.quantity
    clause = book.clause("termination_temperature_small" if small else "termination_temperature_large")
    if not marked.missing and marked.number != UNMARKED:
        return chosen(symbol, marked.quantity, "°C", "marked", clause, marked)
    if marked.missing:
        reason = f"mark of the terminal not known ({marked.how}): the lowest column"
        return book.bounding("termination_unmarked", reason, symbol)
    column = book.number("termination_unmarked" if small else "termination_large")
    met = "not marked, up to 100 A" if small else "not marked, over 100 A"
    return chosen(symbol, column.quantity, "°C", met, book.clause("termination_temperature"), column, rating, split)


def lowest(book: Edition, ends: Sequence[Value]) -> Value:
    """The column that both ends and every splice allow, in °C."""
    return worst("T_term", ends, "min", book.clause("termination_temperature"))
