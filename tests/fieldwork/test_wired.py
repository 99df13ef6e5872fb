"""What a step pulls and lands stands beside it, with the spaces of its breakers."""

import pytest

from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan

DEMOS = ("many_sources", "terrace")


@pytest.fixture(scope="module")
def plans(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Plan]:
    return {name: sitework(make_plan(write_demo(name, tmp_path_factory.mktemp(name)))) for name in DEMOS}


@pytest.fixture(scope="module")
def orders(plans: dict[str, Plan]) -> dict[str, WorkOrder]:
    return {name: work_order(plan) for name, plan in plans.items()}


def lands(order: WorkOrder, id: str) -> tuple[str, ...]:
    return next(step.lands for step in order.steps if step.id == id)


def test_every_run_is_pulled_and_lands_at_both_its_ends(plans: dict[str, Plan], orders: dict[str, WorkOrder]) -> None:
    plan, order = plans["many_sources"], orders["many_sources"]
    pulled = lands(order, "job.pull")
    assert len(pulled) == len(plan.runs) == 3
    assert pulled[2].startswith("House panel – Island switch – Backup panel: 2 × 6 AWG line, 1 × 6 AWG neutral")
    assert [pulled[1] in lands(order, id) for id in ("job.connect-backup", "job.connect-battery-1-disconnect")] == [
        True,
        True,
    ]
    assert pulled[1] not in lands(order, "job.connect-main")


def test_a_new_breaker_is_told_with_its_spaces_and_a_moved_circuit_with_both(orders: dict[str, WorkOrder]) -> None:
    order = orders["many_sources"]
    assert lands(order, "job.connect-main")[0] == "New here: Backup panel feeder breaker, in spaces 27, 29"
    move = next(step.text for step in order.steps if step.id == "job.move-backup")
    assert "Refrigerator (from space 21 to space 1); Gas furnace, blower (from space 22 to space 2);" in move


def test_cables_stand_at_both_ends_and_boards_have_ways(orders: dict[str, WorkOrder]) -> None:
    order = orders["terrace"]
    feeder = next(each for each in lands(order, "job.pull") if each.startswith("Consumer unit – Backup board"))
    assert feeder in lands(order, "job.connect-main") and feeder in lands(order, "job.connect-backup")
    assert "10 mm² + 4 mm²" in feeder
    assert lands(order, "job.connect-main")[0] == "New here: Backup board feeder breaker, in ways 10, 11"
    assert "Lights (from way 5 to way 1)" in next(step.text for step in order.steps if step.id == "job.move-backup")
