"""Where neutral and ground are joined: once, at the service; in an island with a neutral of its own, once there."""

from collections.abc import Sequence

from standfast.sheet import Check, Value, chosen, exactly, total
from standfast.shelf import Edition


def bonds(book: Edition, symbol: str, places: Sequence[Value], clause: str) -> Value:
    """How many joints of neutral and ground a system has.

    Args:
        book: the code.
        symbol: of the result.
        places: one yes or no for every place where they can be joined.
        clause: subject of the clause.
    """
    counted = [
        chosen(f"n_{each.symbol}", float(not each.missing and each.yes), "1", "joined there or not", None, each)
        for each in places
    ]
    return total(symbol, counted, "1", book.clause(clause))


def one_bond(book: Edition, id: str, title: str, places: Sequence[Value], *, separate: bool) -> Check:
    """Neutral and ground are joined exactly once.

    None at all, and breakers do not clear a fault; two, and neutral current flows where hands touch.

    Args:
        book: the code.
        id: of the check.
        title: of the check.
        places: one yes or no for every place where they can be joined.
        separate: whether it is a system with a neutral of its own: one whose neutral the island switch opens.
    """
    clause = "island_bond" if separate else "service_bond"
    met = "once, on the side of the battery" if separate else "once, at the service"
    one = chosen("n_one", 1.0, "1", met, book.clause(clause))
    return exactly(id, title, book.clause(clause), bonds(book, "n_bonds", places, clause), one)
