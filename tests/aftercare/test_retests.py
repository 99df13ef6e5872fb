"""Tests that are due again: the job's own numbers, texts and limits, and nothing that is gone or was not touched."""

import re
from collections.abc import Callable

import pytest
from demo_jobs import DEMOS, Removed

from standfast.aftercare.service import possible, service
from standfast.commissioning.due_test import DueTest
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import work_order

Plans = Callable[[str], Plan]


def by_id(tests: tuple[DueTest, ...]) -> dict[str, DueTest]:
    return {each.id: each for each in tests}


@pytest.mark.parametrize("name", DEMOS)
def test_numbers_texts_and_limits_are_those_of_the_job(plan_of: Plans, removed: Removed, name: str) -> None:
    plan = plan_of(name)
    job = by_id(work_order(plan).tests)
    works = [service(plan, what, unit).tests for what, unit in possible(plan)]
    for tests in (*works, removed(name, "sound").tests):
        assert tests and len(by_id(tests)) == len(tests)
        for each in tests:
            assert each.id in job
            own = job[each.id]
            assert (each.key, each.limit, each.ground) == (own.key, own.limit, own.ground)
            assert (each.value is None) == (own.value is None)
            assert each.value is None or own.value is None or each.value.quantity == own.value.quantity
            if (each.what, each.how) != (own.what, own.how):  # the switch at which the job read them has left
                assert each.key == "voltages" and each.what.startswith("Voltages at: ")
            else:
                assert set(each.readings) <= set(own.readings)


@pytest.mark.parametrize("name", DEMOS)
def test_steps_name_the_tests_that_they_do(plan_of: Plans, removed: Removed, name: str) -> None:
    """Each test that is due stands in the text of one step, or is what a step of the data sheet shows."""
    plan = plan_of(name)
    leaves = removed(name, "sound")
    works = [(made.steps, made.tests) for made in (service(plan, what, unit) for what, unit in possible(plan))]
    for steps, tests in [*works, (leaves.steps, leaves.tests)]:
        told = [id for each in steps for id in re.findall(r"\bT\d+\b", f"{each.text} {each.indication}")]
        assert sorted(told) == sorted(each.id for each in tests)


def test_what_left_is_not_tested(removed: Removed) -> None:
    stays = {each.key for each in removed("one_wall", "sound").tests}
    assert stays == {"insulation", "identity", "one_bond", "continuity", "voltages"}
    feeder = next(each for each in removed("one_wall", "sound").tests if each.key == "insulation")
    assert len(feeder.readings) == 1 and feeder.limit == "at least 1 MΩ"
    metric = removed("terrace", "sound").tests
    assert {"loop", "tripping", "electrode"} <= {each.key for each in metric}
    grid = [reading.what for each in metric if each.key == "tripping" for reading in each.readings]
    assert grid and set(grid) == {"on the grid"}
    assert not any("Battery" in reading.what for each in metric for reading in each.readings)


def test_a_service_tests_its_own_unit_and_the_house_with_it(plan_of: Plans) -> None:
    made = service(plan_of("detached_pair"), "unit", "battery-2")
    told = [f"{each.what} {reading.what}" for each in made.tests for reading in each.readings]
    assert any("Battery 2" in each for each in told) and not any("Battery 1" in each for each in told)
    keys = {each.key for each in made.tests}
    assert {"settings", "direction", "stops", "return", "shutdown", "continuity"} <= keys


def test_poles_are_looked_at_again_where_direct_current_is_joined(plan_of: Plans) -> None:
    plan = plan_of("stack_outdoors")
    assert "dc_battery" in {each.key for each in service(plan, "head").tests}
    whole = {each.key for each in service(plan, "inverter").tests}
    assert {"dc_battery", "pv_string", "dc_insulation"} <= whole
    assert not {"dc_battery", "pv_string"} & {each.key for each in service(plan, "firmware").tests}
