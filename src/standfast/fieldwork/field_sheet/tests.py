"""The due tests as items of the step that does them."""

from collections.abc import Iterator

from standfast.commissioning.due_test import DueTest
from standfast.fieldwork.field_sheet.texts import Data, Orders, each, limit_data
from standfast.fieldwork.instruments import NOTHING, READERS
from standfast.fieldwork.plan import Plan

UNCALIBRATED = (NOTHING, *READERS)
"""What a test is read with and nobody records: nothing at all, a watch, the maker's own screen."""


def by_step(plan: Plan, orders: Orders) -> dict[str, list[Data]]:
    """Items of the due tests, by the step that does them."""
    first, found = next(iter(orders.values())), dict[str, list[Data]]()
    for place, test in enumerate(first.tests):
        step = first.done_at[test.id]
        found.setdefault(step, []).extend(_items(plan, orders, place, step))
    return found


def _items(plan: Plan, orders: Orders, place: int, step: str) -> Iterator[Data]:
    tests = {language: order.tests[place] for language, order in orders.items()}
    test = next(iter(tests.values()))
    for number, blank in enumerate(test.readings):
        limited = test.bounds if blank.limited and blank.unit else ()
        yield {
            "id": f"{step}/{test.id}-{number + 1}",
            "kind": "reading" if blank.unit else "mark",
            "test": test.id,
            "what": {language: one.readings[number].what for language, one in tests.items()},
            "head": each(tests, lambda one: one.what),
            "how": each(tests, lambda one: one.how),
            "unit": blank.unit,
            "count": 1,
            "limit": limit_data(limited, each(tests, lambda one: one.limit), each(tests, lambda one: one.ground)),
            "tool_kind": _readers(plan, test),
        }


def _readers(plan: Plan, test: DueTest) -> list[str]:
    rows = plan.practice.table("instruments").rows
    return [str(row["instrument"]) for row in rows if row["test"] == test.key and row["instrument"] not in UNCALIBRATED]
