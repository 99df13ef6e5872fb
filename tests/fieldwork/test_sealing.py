"""Each entry is sealed when its conductors are in and before the cover goes on: from run and data sheet."""

import pytest

from standfast.fieldwork import sealing
from standfast.fieldwork.fixings import sealing_rows
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan

DEMOS = ("one_wall", "detached_pair", "cabinet", "stack_outdoors", "terrace", "verandah")


@pytest.fixture(scope="module")
def plans(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Plan]:
    return {name: sitework(make_plan(write_demo(name, tmp_path_factory.mktemp(name)))) for name in DEMOS}


@pytest.fixture(scope="module")
def orders(plans: dict[str, Plan]) -> dict[str, WorkOrder]:
    return {name: work_order(plan) for name, plan in plans.items()}


def told(order: WorkOrder, id: str) -> list[str]:
    step = next(each for each in order.steps if each.id == id)
    return [reading.what for reading in step.readings]


@pytest.mark.parametrize("demo", DEMOS)
def test_both_ends_of_every_run_and_cable_are_sealed_once(
    plans: dict[str, Plan], orders: dict[str, WorkOrder], demo: str
) -> None:
    plan = plans[demo]
    said = [
        what for step in orders[demo].steps if step.id.startswith("job.seal-") for what in told(orders[demo], step.id)
    ]
    for run in plan.runs:
        arrays = sum(plan.installation.parts[id].kind == "array" for id in run.parts)
        assert sum(run.name in each for each in said if "locknut" in each or "wet places" in each) == (
            len(run.parts) - arrays
        )
    for cable in plan.cables:
        assert sum(cable.name in each and "gland" in each for each in said) == 2


@pytest.mark.parametrize("demo", DEMOS)
def test_a_unit_is_sealed_between_its_conductors_and_its_cover(orders: dict[str, WorkOrder], demo: str) -> None:
    place = orders[demo].numbers
    assert place["job.dead-tests"] < place["job.seal-battery-1"] < place["battery-1.close-cover"]
    assert place["job.seal-entries"] < place["job.front-on-main" if "job.front-on-main" in place else "job.check"]
    assert orders[demo].unsafe == ()


def test_wet_runs_get_duct_seal_and_armour_its_gland(orders: dict[str, WorkOrder]) -> None:
    assert any("duct seal" in each for each in told(orders["stack_outdoors"], "job.seal-battery-1"))
    assert not any("duct seal" in each for each in told(orders["one_wall"], "job.seal-battery-1"))
    assert any("armour earthed" in each for each in told(orders["terrace"], "job.seal-battery-1"))


def test_what_the_data_sheet_brings_for_its_entries_is_named(orders: dict[str, WorkOrder]) -> None:
    step = next(each for each in orders["one_wall"].steps if each.id == "job.seal-battery-1")
    assert "Conduit hub 3/4 in" in step.text


@pytest.mark.parametrize("demo", DEMOS)
def test_every_row_of_sealant_has_its_holes_and_no_sealant_no_step(
    plans: dict[str, Plan], orders: dict[str, WorkOrder], demo: str
) -> None:
    said = told(orders[demo], sealing.WALLS)
    assert all(any(row.what in each for each in said) for row in sealing_rows(plans[demo]))


def test_a_job_that_runs_nothing_seals_no_entry_and_a_known_dry_wall_nothing(plan: Plan) -> None:
    bare = plan._replace(runs=(), cables=(), sheets={**plan.sheets, "battery": plan.sheets["battery"]})
    assert {each.name for each in sealing.entries(bare)} == {"Battery 1"}  # the cable of the shutdown switch
    assert not sealing.has_entries(bare, "battery-2")
