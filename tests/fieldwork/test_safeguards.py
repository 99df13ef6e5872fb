"""Detector, barrier, electrode and labels: a step for each that the design asks for, and none else."""

from pathlib import Path

import pytest
from invented_job import demo_text, survey_of

from standfast.fieldwork import safeguards
from standfast.fieldwork.materials import materials
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan

DEMOS = ("one_wall", "detached_pair", "cabinet", "stack_outdoors", "terrace", "verandah")


def altered(folder: Path, demo: str, *changes: tuple[str, str]) -> Plan:
    """A demo with words of its job file changed."""
    folder.mkdir(exist_ok=True)
    job = write_demo(demo, folder)
    file = job / "job.toml"
    text = file.read_text("utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    file.write_text(text, "utf-8")
    return sitework(make_plan(job))


def of(order: WorkOrder, prefix: str) -> list[str]:
    return [each.id for each in order.steps if each.id.startswith(prefix)]


@pytest.mark.parametrize("demo", DEMOS)
def test_each_row_of_the_bill_has_its_step_and_nothing_else_has(tmp_path: Path, demo: str) -> None:
    plan = altered(tmp_path, demo)
    order, bill = work_order(plan), materials(plan)
    assert len(of(order, "job.detector-")) == len(bill.of("detection"))
    assert len(of(order, "job.barrier")) == len(bill.of("vehicle protection"))
    earths = [row for row in bill.of("switchgear") if row.what == plan.say("materials.electrode")]
    assert len(of(order, "job.electrode-")) == len(of(order, "job.join-electrode-")) == len(earths)
    assert order.unsafe == ()


def test_a_garage_without_a_detector_gets_one(tmp_path: Path) -> None:
    plan = altered(tmp_path, "one_wall", ('detection = "heat detector, interconnected"', 'detection = "none"'))
    order = work_order(plan)
    (step,) = (each for each in order.steps if each.id == "job.detector-garage")
    assert "Heat detector" in step.text and "garage" in step.text and step.readings
    assert order.unsafe == ()


def test_a_barrier_stands_at_the_surveyed_strip_after_the_units_and_only_where_one_is_struck(plan: Plan) -> None:
    order = work_order(plan._replace(struck=True))
    (step,) = (each for each in order.steps if each.id == safeguards.BARRIER)
    assert "from 0 ft to 20 ft of wall garage-east" in step.text
    assert order.numbers["battery-1.bolt"] < order.numbers[step.id] < order.numbers["job.check"]
    assert safeguards.BARRIER not in work_order(plan).numbers


def test_a_strip_that_nobody_surveyed_is_not_made_up(plan: Plan) -> None:
    text = demo_text()
    start = text.index("[walls.vehicle_path]")
    survey = survey_of(text[:start] + text[text.index("\n\n", start) :])
    order = work_order(plan._replace(struck=True, survey=survey))
    (step,) = (each for each in order.steps if each.id == safeguards.BARRIER)
    assert "no strip was surveyed" in step.text


def test_the_house_without_an_electrode_of_its_own_drives_none(tmp_path: Path) -> None:
    order = work_order(altered(tmp_path / "own", "terrace"))
    place = order.numbers
    assert place["job.electrode-own"] < place["job.dead-tests"] < place["job.join-electrode-own"]
    (step,) = (each for each in order.steps if each.id == "job.electrode-own")
    assert step.readings[0].unit == "Ω" and "across" in step.text
    none = altered(tmp_path / "none", "terrace", ("own_electrode = true", "own_electrode = false"))
    assert of(work_order(none), "job.electrode") == []


def test_a_building_without_an_electrode_gets_one_at_its_panel(tmp_path: Path) -> None:
    plan = altered(tmp_path, "detached_pair", ('electrodes = ["ground rods"]', "electrodes = []"))
    order = work_order(plan)
    (joined,) = (each for each in order.steps if each.id.startswith("job.join-electrode-"))
    assert "Garage panel" in joined.text and any(each.startswith("garage") for each in joined.touches)
    assert order.unsafe == ()


def test_labels_are_ticked_device_by_device_before_the_check(tmp_path: Path) -> None:
    plan = altered(tmp_path, "one_wall")
    order = work_order(plan)
    (step,) = (each for each in order.steps if each.id == "job.labels")
    for label in plan.labels:
        assert any(label.at in each.what and label.id in each.what for each in step.readings)
    assert order.numbers["job.labels"] < order.numbers["job.check"]


def test_switches_and_panels_go_where_the_survey_puts_them(tmp_path: Path) -> None:
    order = work_order(altered(tmp_path, "one_wall"))
    for id in ("job.mount-backup", "job.mount-battery-1-disconnect", "job.mount-backup-island-switch"):
        (step,) = (each for each in order.steps if each.id == id)
        assert "from the left end of wall garage-east" in step.text
