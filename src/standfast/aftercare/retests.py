"""Which tests of a job are due again after a service or a removal: the same numbers, texts and limits as before.

What a service makes worth nothing is what the order of the installation says of the steps that are done again.
"""

from collections.abc import Collection, Sequence

from standfast.aftercare.leaving import Leaving
from standfast.commissioning.due import due_tests
from standfast.commissioning.due_again import about, of_what_stays
from standfast.commissioning.due_test import DueTest
from standfast.fieldwork.crew.amounts import tests_of
from standfast.fieldwork.instruments import site_of
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.tests_at import READ_BACK
from standfast.fieldwork.work_order import WorkOrder

DEAD_WHEN = ("before power", "connected")
"""Parts of the work in which tests are done dead."""
CLOSE_WHEN = ("before the unit", "before DC closes")
"""Those in which they are done while power comes back."""


def due_after(plan: Plan, order: WorkOrder, units: Sequence[Device], again: Collection[str] = ()) -> list[DueTest]:
    """The tests that are due after a service.

    Args:
        plan: the job.
        order: its work order.
        units: the devices that it is done to.
        again: steps of the installation that are done once more; none where only firmware is updated.
    """
    lapsed = {id for each in again for id in (each, *order.redo.get(each, ()))}
    due = {test.id for step in order.steps if step.id in lapsed for test in tests_of(order, step)}
    due |= {test.id for test in order.tests if test.when == "unit running"}  # it was stopped, and starts again
    ids = {each.id for each in units}
    if again:  # conductors came out whatever was replaced: their poles are looked at before they are joined again
        if any(each.role == "inverter" for each in units):
            ids |= {part.id for part in plan.installation.of_kind("battery", "inverter", "array")}
        due |= {test.id for test in order.tests if test.of in ids}
    return about([test for test in order.tests if test.id in due], *_others(plan, ids))


def due_of_house(plan: Plan, leaves: Leaving) -> list[DueTest]:
    """The tests of the house that stays when its battery has left."""
    site = site_of(plan)
    joined = {part.id for part in leaves.bypassed}
    away = {part.id for part in leaves.parts} - joined
    runs = {id: bool(ends & away) for id, ends in _ends(plan).items()}
    gone, stays = ([site.runs.get(id, id) for id, leaves_too in runs.items() if leaves_too is word]
                   for word in (True, False))  # fmt: skip
    names = [*(part.name for part in leaves.parts), *gone]
    return of_what_stays(site, due_tests(site), names, stays, [part.name for part in leaves.panels])


def _ends(plan: Plan) -> dict[str, set[str]]:
    """The parts that each new run joins, by the id of its route."""
    found: dict[str, set[str]] = {}
    for route in plan.survey.job.routes:
        links = [each for each in plan.installation.links if each.id.partition(", ")[0] == route.id]
        if route.state != "existing":
            found[route.id] = {id for each in links for id in (each.a, each.b)}
    return found


def _others(plan: Plan, ids: set[str]) -> tuple[list[str], list[str]]:
    """Names of the parts and runs that the job put up and a service does not reach, and of the runs that it does."""
    graph, site = plan.installation, site_of(plan)
    own = {part.name for part in graph.parts.values() if part.id.partition("/")[0] in ids}
    others = [part.name for part in graph.parts.values() if not part.existing and part.name not in own]
    reached = {id: any(end.partition("/")[0] in ids for end in ends) for id, ends in _ends(plan).items()}
    runs, far = ([site.runs.get(id, id) for id, here in reached.items() if here is word] for word in (True, False))
    return [*others, *far], runs


def dead_ids(tests: Sequence[DueTest]) -> list[str]:
    """Numbers of the tests that are done dead."""
    return [each.id for each in tests if each.when in DEAD_WHEN]


def closing(tests: Sequence[DueTest]) -> list[DueTest]:
    """The tests that are done while power comes back, before the unit runs."""
    return [each for each in tests if each.when in CLOSE_WHEN]


def running(tests: Sequence[DueTest], shown: Collection[str] = ()) -> list[str]:
    """Numbers of all others that have no step of their own.

    Args:
        tests: the tests.
        shown: what steps of the data sheets show, and time themselves.
    """
    late = [each for each in tests if each.when not in (*DEAD_WHEN, *CLOSE_WHEN)]
    return [each.id for each in late if each.key != READ_BACK and not (each.shows and each.shows in shown)]


def settings_read(tests: Sequence[DueTest]) -> list[str]:
    """Numbers of the tests that read settings back."""
    return [each.id for each in tests if each.key == READ_BACK]
