"""Every test is done at a step where what it asks for can be seen."""

import pytest
from invented_job import make_plan

from standfast.fieldwork.tests_at import done_at
from standfast.fieldwork.work_order import WorkOrder, work_order


@pytest.fixture(scope="module")
def order() -> WorkOrder:
    return work_order(make_plan())


def test_every_test_has_its_step_and_its_step_names_it(order: WorkOrder) -> None:
    texts = {step.id: f"{step.text} {step.indication}" for step in order.steps}
    assert list(order.done_at) == [test.id for test in order.tests]
    for id, step in order.done_at.items():
        assert id in texts[step].replace(",", " ").replace(".", " ").replace(":", " ").split()


def test_what_a_unit_shows_is_timed_where_it_is_switched_on(order: WorkOrder) -> None:
    shown = {test.shows: order.done_at[test.id] for test in order.tests if test.shows}
    assert shown == {"battery/self-test": "battery-1.battery-on", "battery/ready": "battery-1.ac-on"}


def test_where_no_step_switches_on_what_is_shown_the_unit_is_tried_later(order: WorkOrder) -> None:
    left = [step for step in order.steps if not step.shows]
    assert {done_at(order.tests, left)[test.id] for test in order.tests if test.shows} == {"job.live-tests"}
