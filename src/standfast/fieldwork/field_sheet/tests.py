"""The due tests as items of the step that does them."""

from collections.abc import Iterator

from standfast.commissioning.due_test import DueTest
from standfast.fieldwork import direct
from standfast.fieldwork.field_sheet.texts import Data, Orders, each, limit_data
from standfast.fieldwork.instruments import NOTHING
from standfast.fieldwork.job_steps import CLOSED_TESTS, INSULATION, LIVE_TESTS, RESTORE
from standfast.fieldwork.plan import Plan

STEP = {"before power": INSULATION, "connected": CLOSED_TESTS, "before the unit": RESTORE, "unit running": LIVE_TESTS}
"""The step that does the tests of a part of the work."""


def by_step(plan: Plan, orders: Orders) -> dict[str, list[Data]]:
    """Items of the due tests, by the step that does them."""
    first = next(iter(orders.values()))
    known, found = set(first.numbers), dict[str, list[Data]]()
    for place, test in enumerate(first.tests):
        step = _step(test, known)
        found.setdefault(step, []).extend(_items(plan, orders, place, step))
    return found


def _step(test: DueTest, known: set[str]) -> str:
    """A test of one battery or array is done at the step that closes, reads or joins it."""
    if test.when in STEP:
        return STEP[test.when]
    names = (direct.close_id(test.of), direct.read_id(test.of), f"job.join-{test.of}")
    return next((name for name in names if name in known), LIVE_TESTS)


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
            "limit": limit_data(limited, each(tests, lambda one: one.limit), test.ground),
            "tool_kind": _readers(plan, test),
        }


def _readers(plan: Plan, test: DueTest) -> list[str]:
    rows = plan.practice.table("instruments").rows
    return [str(row["instrument"]) for row in rows if row["test"] == test.key and row["instrument"] != NOTHING]
