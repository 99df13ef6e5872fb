"""How full a raceway may be, by number and size of conductors."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.sheet import Value, chosen, total, work
from standfast.shelf import Edition


class Group(NamedTuple):
    """Equal conductors: number, size, insulation word (``thhn``, ``xhhw``, ``thw``). Equipment grounds count too."""

    number: Value
    size: Value
    insulation: Value


class Fill(NamedTuple):
    """Area of the conductors, limit, both in in2, and the fill in per cent of the full inside area."""

    area: Value
    limit: Value
    percent: Value


def one_area(book: Edition, size: Value, insulation: Value) -> Value:
    """Area in in2 of one insulated conductor."""
    return book.table("insulated_conductor").look("A_1", "area", insulation=insulation, size=size)


def inside(book: Edition, raceway: Value, trade_size: Value) -> Value:
    """Full inside area of a raceway in in2. The limits are worked from it, not from the rounded columns beside it."""
    return book.table("raceway").look("A_in", "area", raceway=raceway, trade_size=trade_size)


def fill(book: Edition, raceway: Value, trade_size: Value, groups: Sequence[Group]) -> Fill:
    """Fill of a raceway longer than a nipple.

    Args:
        book: the code.
        raceway: kind, for instance ``emt``.
        trade_size: for instance ``1-1/4``.
        groups: every conductor in it, equipment grounding conductors included.
    """
    full = inside(book, raceway, trade_size)
    clause = book.clause("raceway_fill")
    areas = [
        work(f"A_{i}", "n * A_1", "in2", clause, n=each.number, A_1=one_area(book, each.size, each.insulation))
        for i, each in enumerate(groups, 1)
    ]
    area = total("A_cond", areas, "in2", clause)
    count = total("n_cond", [each.number for each in groups], "1")
    share = book.table("raceway_fill").look("k_fill", "fill", conductors=count)
    limit = work("A_lim", "k_fill * A_in", "in2", clause, share, full)
    return Fill(area, limit, work("fill_pct", "100 * A_cond / A_in", "%", clause, area, full))


def nipple_limit(book: Edition, raceway: Value, trade_size: Value) -> Value:
    """Limit in in2 of a nipple of 24 in at most between enclosures, whatever the number of conductors."""
    share, clause = book.number("nipple_fill"), book.clause("nipple_fill")
    return work("A_lim", "k_fill * A_in", "in2", clause, share, inside(book, raceway, trade_size))


def trade_sizes(book: Edition, raceway: Value) -> list[str]:
    """Trade sizes of a kind of raceway in the table, smallest first."""
    return [str(row["trade_size"]) for row in book.table("raceway").rows if row["raceway"] == raceway.word]


def most_equal(book: Edition, raceway: Value, trade_size: Value, size: Value, insulation: Value) -> Value:
    """How many equal conductors a raceway takes: Note 7 counts a rest of 0.8 as one more.

    The share of the area depends on the number itself: three and more, two, one.
    """
    full, one = inside(book, raceway, trade_size), one_area(book, size, insulation)
    clause, rest = book.clause("raceway_fill_rounding"), book.number("fill_rounding")
    table, count = book.table("raceway_fill"), None
    for number in (3.0, 2.0, 1.0):
        share = table.pick("k_fill", "fill", conductors=number)
        count = work("n_max", "floor(k_fill * A_in / A_1 + 1 - k_round)", "1", clause, share, full, one, rest)
        if count.missing or count.quantity >= number:
            return count if number == 3 or count.missing else _at_most(count, number)
    return chosen("n_max", 0.0, "1", "not even one fits", clause, full, one)


def _at_most(count: Value, number: float) -> Value:
    met = f"three do not fit, {number:g} do" if number > 1 else "two do not fit, one does"
    return chosen("n_max", min(count.quantity, number), "1", met, count.clause, count)
