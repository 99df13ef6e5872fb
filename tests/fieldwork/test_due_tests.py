"""Tests due: limits only where a source states them, and space for every reading."""

import pytest
from invented_job import demo_text, make_plan

from standfast import shelf
from standfast.commissioning.due import due_tests
from standfast.commissioning.due_test import DueTest, Site
from standfast.design.settings import settings
from standfast.fieldwork.plan import Plan
from standfast.sheet import Clause, Value
from standfast.terms import Seen


def due(plan: Plan) -> list[DueTest]:
    site = Site(plan.survey, plan.sheets, plan.installation, plan.practice, settings=tuple(plan.settings))
    return due_tests(site)


def test_a_limit_never_stands_without_its_ground(plan: Plan) -> None:
    for test in due(plan):
        assert bool(test.limit) == bool(test.ground), test.what
        assert (test.value is None) == (not test.limit), test.what
        assert test.readings, test.what


def test_no_limit_rests_on_memory(plan: Plan) -> None:
    grounds = [test.value.seen for test in due(plan) if test.value is not None]
    assert "memory" not in grounds
    assert "secondary" in grounds


def test_what_no_adopted_code_asks_says_so(plan: Plan) -> None:
    insulation = next(test for test in due(plan) if "Insulation" in test.what)
    assert "ask for no such test" in insulation.ground
    assert len(insulation.readings) == 3


def test_continuity_is_tested_at_every_new_device_when_its_conductors_are_in(plan: Plan) -> None:
    """With both ends free there is nothing to measure from the metal of a device to the bar."""
    (continuity,) = [test for test in due(plan) if "continuous" in test.what]
    assert continuity.when == "connected"
    assert {blank.what.partition(" to ")[0] for blank in continuity.readings} == {
        "Backup panel", "Island switch", "Battery 1", "Battery 1 disconnect"}  # fmt: skip


def test_good_indications_are_timed_and_others_are_not_tests(plan: Plan) -> None:
    shown = [(test.what, test.limit) for test in due(plan) if "shows" in test.what]
    assert shown == [
        ("The unit shows: lamp blinks green", "within 60 s"),
        ("The unit shows: lamp steady green", "within 360 s"),
    ]


def test_ids_run_through_and_tests_come_in_the_order_of_the_work(plan: Plan) -> None:
    tests = due(plan)
    assert [test.id for test in tests] == [f"T{number}" for number in range(1, len(tests) + 1)]
    order = ["before power", "connected", "before the unit", "before DC closes", "unit running"]
    assert [test.when for test in tests] == sorted((test.when for test in tests), key=order.index)


@pytest.mark.parametrize(("mode", "word"), [("circuits", "carried"), ("none", "stops")])
def test_loss_of_the_grid_is_tested_by_what_the_unit_does_then(mode: str, word: str) -> None:
    plan = make_plan(demo_text().replace('mode = "circuits"', f'mode = "{mode}"'))
    (lost,) = [test for test in due(plan) if "Loss of the grid" in test.what]
    assert word in lost.what


def test_the_time_of_the_change_over_comes_from_the_switch(plan: Plan) -> None:
    lost = next(test for test in due(plan) if "Loss of the grid" in test.what)
    assert lost.limit == "within 2 s"
    assert [(blank.unit, blank.limited) for blank in lost.readings] == [("s", True), ("V", False), ("V", False)]
    alone = plan._replace(sheets={role: sheet for role, sheet in plan.sheets.items() if role != "island_switch"})
    assert not next(test for test in due(alone) if "Loss of the grid" in test.what).limit


def test_a_new_panel_is_tested_for_a_second_joint_of_neutral_and_ground(plan: Plan) -> None:
    assert [test.what.rpartition(": ")[2] for test in due(plan) if "Neutral and ground" in test.what] == [
        "Backup panel"
    ]


def with_settings(plan: Plan) -> Plan:
    return plan._replace(settings=settings(plan.survey, plan.sheets, shelf.adoption("us-2021")).rows)


def test_the_return_waits_as_long_as_the_settings_say(plan: Plan) -> None:
    plan = with_settings(plan)
    (usual,) = [test for test in due(plan) if "Return of the grid" in test.what]
    assert usual.limit == "not before 300 s"
    waits = [each for each in plan.settings if each.id == "enter-service/delay"]
    assert len(waits) == 1
    cases: list[tuple[float, Seen, str]] = [(60.0, "secondary", "not before 60 s"), (20.0, "memory", "")]
    for number, seen, limit in cases:
        value = Value("t", number, "s", "table", "", Clause("Book", "1", "4.7"), seen)
        changed = plan._replace(settings=[waits[0]._replace(value=value)])
        (told,) = [test for test in due(changed) if "Return of the grid" in test.what]
        assert told.limit == limit
    (practice,) = [test for test in due(plan._replace(settings=())) if "Return of the grid" in test.what]
    assert practice.limit == "not before 300 s"


def test_settings_are_read_back_before_the_unit_is_tried_on_the_grid(plan: Plan) -> None:
    told = [test.what for test in due(with_settings(plan))]
    assert told.index("Settings on the grid, read back") < told.index("Direction and size of the power")
    assert "Settings on the grid, read back" not in [test.what for test in due(plan._replace(settings=()))]
