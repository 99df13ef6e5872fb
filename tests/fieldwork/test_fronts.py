"""The front of a panel is off while hands are behind it, on when power returns, and what stays live there is told."""

import pytest

from standfast.fieldwork.fronts import off_id, on_id
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.order.house import front_id
from standfast.fieldwork.order.sequence import proven
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder, work_order

MAIN, NEW = front_id("main"), front_id("backup")


@pytest.fixture(scope="module")
def order(plan: Plan) -> WorkOrder:
    return work_order(plan)


def whys(order: WorkOrder, after: dict[str, tuple[str, ...]]) -> set[str]:
    """What is unsafe where some steps wait for other steps than they do."""
    weak = [each._replace(after=after.get(each.id, each.after)) for each in order.steps]
    return {each.why for each in proven(order.decided.house.site, acts_of(weak))}


def test_the_front_of_a_panel_that_is_there_comes_off_and_that_of_a_new_one_only_goes_on(order: WorkOrder) -> None:
    covers = order.decided.house.site.covers
    assert MAIN in covers and NEW not in covers
    assert {off_id("main"), on_id("main"), on_id("backup")} <= order.numbers.keys()
    assert off_id("backup") not in order.numbers


def test_it_comes_off_after_the_switches_and_before_the_tester_and_goes_on_before_the_check(order: WorkOrder) -> None:
    place = order.numbers
    ways = ["job.open-main", off_id("main"), "job.dead-main", "job.pull", "job.connect-main", on_id("main"),
            "job.check", "job.restore"]  # fmt: skip
    assert sorted(ways, key=place.__getitem__) == ways


def test_whoever_takes_it_off_is_told_what_stays_live_under_it(order: WorkOrder) -> None:
    step = next(each for each in order.steps if each.id == off_id("main"))
    opened = next(each for each in order.steps if each.id == "job.open-main")
    live = [each for each in step.cautions if "stay live" in each]
    assert live and set(live) <= set(opened.cautions)


def test_a_tester_at_a_panel_whose_front_may_still_be_on_is_told(order: WorkOrder) -> None:
    after = {each.id: each.after for each in order.steps}
    tested = tuple(id for id in after["job.dead-main"] if id != off_id("main"))
    assert "cover on" in whys(order, {"job.dead-main": tested, "job.pull": (*after["job.pull"], off_id("main"))})


def test_a_front_that_may_go_on_over_a_loose_joint_is_told(order: WorkOrder) -> None:
    assert "joint not tight" in whys(order, {on_id("main"): ("job.pull",)})


def test_a_front_that_nobody_fits_again_is_told(order: WorkOrder) -> None:
    house, left = order.decided.house, on_id("main")
    steps = [
        each._replace(after=tuple(id for id in each.after if id != left)) for each in order.steps if each.id != left
    ]
    told = [each for each in proven(house.site, acts_of(steps)) if each.why == "cover off at the end"]
    assert [house.called(each.what) for each in told] == ["front of Main panel"]
