"""Whole jobs whose parts do not belong together: each is a fault with its place, or a verdict that names its clause."""

from collections.abc import Callable
from pathlib import Path

import pytest
from damaged_demos import WHOLE, Folder, sound

from standfast.faults import Fault, FaultsFound
from standfast.foreman.pack import papers
from standfast.foreman.plan import JobPlan, make_plan
from standfast.sheet import Check

OUT_OF_DATE = """schema = 1

[firm]
name = "Invented Electric"

[[tools]]
id = "screwdriver-1"
kind = "torque screwdriver"
torque_min = "5 lbf.in"
torque_max = "60 lbf.in"
calibrated_until = 2020-01-31
"""
"""An invented firm with one tool, years out of calibration."""


def failing(plan: JobPlan, id: str) -> Check:
    """A check of the job that fails, and stands against handing the papers over."""
    check = plan.ledger[id]
    assert check.verdict == "fail"
    assert any("fail" in line for line in papers(plan).permit.against)
    return check


def faults(folder: Folder, path: Path) -> list[Fault]:
    with pytest.raises(FaultsFound) as raised:
        make_plan(folder.written(path))
    return raised.value.faults


def test_battery_and_inverter_that_no_listing_names_together_fail(tmp_path: Path) -> None:
    """Everything else of the two fits: only the certificates speak of another inverter and another battery."""
    job = sound("stack-outdoors")
    other = job.sheets.pop("demo-hybrid-8")
    other["id"] = job.job["equipment"]["inverter"] = "another-hybrid"
    other["listing"] = [row for row in other["listing"] if "with" not in row]
    job.sheets["another-hybrid"] = other
    plan = make_plan(job.written(tmp_path))
    check = failing(plan, "wiring.listing-pair/battery-1")
    assert (check.clause.book, check.clause.clause) == ("NEC", "706.5")
    assert [each.id for each in plan.ledger if each.verdict == "fail"] == [check.id]


@pytest.mark.parametrize(
    ("demo", "inverter", "id"),
    [
        ("stack-outdoors", "demo-inverter-48", "wiring.dc-voltage-high/battery-1"),
        ("cabinet", "demo-hybrid-8", "wiring.dc-voltage-low/battery-1"),
    ],
)
def test_voltage_windows_apart_fail(demo: str, inverter: str, id: str, tmp_path: Path) -> None:
    job = sound(demo)
    job.job["equipment"]["inverter"] = inverter
    check = failing(make_plan(job.written(tmp_path)), id)
    assert check.clause.book == "NEC"
    assert check.clause.clause.startswith("110.")
    assert check.margin is not None
    assert check.margin < -100


@pytest.mark.parametrize("word", ["width", "height", "depth"])
def test_an_inverter_that_is_given_less_room_than_it_takes_fails(word: str, tmp_path: Path) -> None:
    """With a smaller box beside them everything else would pass too easily."""
    job = sound("stack-outdoors")
    (box,) = [each for wall in job.job["walls"] for each in wall["obstacles"] if each["kind"] == "inverter"]
    box[word] = "6 in"
    failing(make_plan(job.written(tmp_path)), "siting.drawn-size/inverter")
    box.pop("depth")
    plan = make_plan(job.written(tmp_path))
    assert any("depth" in check.reason for check in plan.ledger if check.verdict == "cannot tell")


def on_no_wall(job: Folder) -> None:
    job.job["wishes"]["wall"] = "no-such-wall"


def unit_on_no_wall(job: Folder) -> None:
    job.job["wishes"]["units"] = [{"id": "battery-1", "wall": "no-such-wall"}]


@pytest.mark.parametrize("change", [on_no_wall, unit_on_no_wall])
@pytest.mark.parametrize("demo", WHOLE)
def test_a_wall_that_is_not_there_is_a_fault_at_its_word(
    demo: str, change: Callable[[Folder], None], tmp_path: Path
) -> None:
    job = sound(demo)
    change(job)
    (fault,) = faults(job, tmp_path)
    row = (tmp_path / "job.toml").read_text("utf-8").split("\n")[fault.line - 1]
    assert row == 'wall = "no-such-wall"'
    assert row[fault.column - 1 :] == '"no-such-wall"'
    assert 'no wall "no-such-wall"' in fault.what
    assert all(wall["id"] in fault.todo for wall in job.job["walls"])


def test_a_unit_wished_past_the_end_of_its_wall_fails(tmp_path: Path) -> None:
    job = sound("detached-pair")
    job.job["wishes"]["units"] = [{"id": "battery-1", "wall": "garage-west", "left": "90 ft", "bottom": "1 ft"}]
    check = failing(make_plan(job.written(tmp_path)), "siting.overlap/battery-1/right")
    assert str(check.clause)


@pytest.mark.parametrize("demo", WHOLE)
def test_a_tool_of_the_firm_out_of_calibration_fails(demo: str, tmp_path: Path) -> None:
    firm = tmp_path / "firm"
    firm.mkdir()
    (firm / "firm.toml").write_text(OUT_OF_DATE, "utf-8")
    plan = make_plan(sound(demo).written(tmp_path / "job"), firm)
    check = failing(plan, "fieldwork.calibration/screwdriver-1")
    assert str(check.clause) == "NEC 2023 110.14(D)"
