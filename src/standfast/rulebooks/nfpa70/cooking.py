"""Demand of household cooking appliances on a service or feeder."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, given, measured, total, work, worst
from standfast.shelf import Edition

ROUNDING = "1e-9"
"""Keeps a mean that is a half but for the last bit of a float on the side of the half."""


class Appliances(NamedTuple):
    """Appliances of one nameplate rating in kW."""

    number: int
    rating: Value


def maximum_demand(book: Edition, appliances: Sequence[Appliances]) -> Value:
    """Demand in kW by the column of maximum demand, with the increase for ranges above its rating.

    Ratings below the column's count as the column's in the average, so one rule serves ranges of one rating (Note 1)
    and of several (Note 2).

    Raises:
        OutsideTable: for no appliance, or a rating that the notes do not reach.
    """
    count, base, clause = _count(appliances), book.number("cooking_base"), book.clause("cooking_notes")
    greatest = worst("P_top", [each.rating for each in appliances], "max")
    _within(greatest, book.number("cooking_least"), book.number("cooking_greatest"))
    table = book.table("cooking")
    first, each = (table.look(f"C_{name}", f"column_c_{name}", appliances=count) for name in ("first", "each"))
    column = work("P_C", "C_first + C_each * n", "kW", table.clause, first, each, n=count)
    counted = [
        _times(work("P_counted", "max(P_base, P)", "kW", clause, base, P=a.rating), a.number) for a in appliances
    ]
    mean = work("P_mean", "P_sum / n", "kW", clause, P_sum=total("P_sum", counted, "kW"), n=count)
    fraction = book.number("cooking_major_fraction")
    text = f"floor((P_mean - P_base) / kW + 1 - f_major + {ROUNDING})"
    steps = work("n_more", text, "1", clause, mean, base, fraction, kW=given("kW", 1.0, "kW", "one kilowatt"))
    return work("P_demand", "P_C * (1 + k_more * n_more)", "kW", clause, column, steps, book.number("cooking_increase"))


def percentage_demand(book: Edition, appliances: Sequence[Appliances]) -> Value:
    """Demand in kW by the percentage columns, each for the number of appliances that fall under it.

    Raises:
        OutsideTable: for no appliance, or one that is neither under column A nor under column B.
    """
    _count(appliances)
    for each in appliances:
        _within(each.rating, book.number("cooking_least"), book.number("cooking_column_b_highest"))
    split = book.number("cooking_column_a_below").quantity
    small = [each for each in appliances if each.rating.missing or each.rating.quantity < split]
    large = [each for each in appliances if not each.rating.missing and each.rating.quantity >= split]
    parts = [_column(book, name, group) for name, group in (("a", small), ("b", large)) if group]
    return total("P_demand", parts, "kW", book.clause("cooking_note_3"))


def neutral(book: Edition, demand: Value) -> Value:
    """Load of the neutral for cooking appliances or dryers, in the unit of their demand."""
    k = book.number("neutral_cooking_dryer")
    return work("P_neutral", "k_N * P_demand", demand.unit, book.clause("neutral_reduced"), k, P_demand=demand)


def standard_demand(book: Edition, ratings: Sequence[Value]) -> Value:
    """Demand in kW of the ranges of one dwelling in the standard method.

    The table is a permission, so the demand is never more than the nameplates together. The percentage columns, which
    would be lower still for small appliances, stay a choice of the designer.
    """
    nameplates = total("P_sum", ratings, "kW", book.clause("cooking"))
    column = maximum_demand(book, [Appliances(1, each) for each in ratings])
    return worst("P_cooking", [column, nameplates], "min", book.clause("cooking"))


def _column(book: Edition, name: str, group: Sequence[Appliances]) -> Value:
    count = _count(group)
    factor = book.table("cooking").look(f"k_{name.upper()}", f"column_{name}", appliances=count)
    load = total("P_sum", [_times(each.rating, each.number) for each in group], "kW")
    return work(f"P_{name.upper()}", "k * P_sum", "kW", book.clause("cooking_note_3"), load, k=factor)


def _times(rating: Value, count: int) -> Value:
    return work("P_group", "n * P", "kW", None, n=given("n", float(count), "1", "number of them"), P=rating)


def _count(appliances: Sequence[Appliances]) -> Value:
    count = sum(each.number for each in appliances)
    if count < 1:
        raise OutsideTable("a demand of no cooking appliance is not asked of the table")
    return measured("n", float(count), "1", "counted", *(each.rating for each in appliances))


def _within(rating: Value, above: Value, highest: Value) -> None:
    if not rating.missing and not above.quantity < rating.quantity <= highest.quantity:
        limits = f"more than {above.quantity:g} kW and not more than {highest.quantity:g} kW"
        raise OutsideTable(f"{highest.clause} is for appliances of {limits}, not for {rating.quantity:g} kW")
