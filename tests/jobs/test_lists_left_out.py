"""A list that is absent says nothing: it never reads as *there is none*, and an empty one does."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from damaged_demos import WHOLE, Way, at, planned, put, sound, without

from standfast.foreman.plan import JobPlan
from standfast.reading.help import table_in
from standfast.reading.kinds import is_list
from standfast.reading.quantities import Table
from standfast.survey.model import Job

ONLY_SAID = {
    "adders", "defects", "documents", "acceptances", "units", "buildings", "rooms", "walls", "panels", "routes",
    "marks",
}  # fmt: skip
"""Lists that add something when they are written, or without which a job is asked for other things: what they hold is
named by other words. Marks of the plot are asked outdoors, where gas is looked for."""


def lists(model: type[Table], data: object, way: Way = ()) -> Iterator[Way]:
    """The way to every list of tables that a job writes."""
    for name, field in model.model_fields.items():
        word, inner = field.alias or name, table_in(field.annotation)
        if inner is None or not isinstance(data, dict) or word not in data:
            continue
        if not is_list(field.annotation):
            yield from lists(inner, data[word], (*way, word))
            continue
        yield (*way, word)
        for number, item in enumerate(data[word]):
            yield from lists(inner, item, (*way, word, number))


def gone(before: JobPlan, after: JobPlan) -> list[str]:
    """Checks that stood open or failed and stand so no more."""
    now = {check.id: check for check in after.ledger}
    return [check.id for check in before.ledger.open if check.id in now and not now[check.id].open]


@pytest.mark.parametrize("demo", WHOLE)
def test_a_list_that_is_left_out_is_asked_for(demo: str, tmp_path: Path) -> None:
    folder = sound(demo)
    before, asked = planned(folder, tmp_path), 0
    assert before is not None
    for way in lists(Job, folder.job):
        if way[-1] in ONLY_SAID:
            continue
        made = folder.copy()
        without(made.job, way)
        after = planned(made, tmp_path)
        if after is None:
            continue  # other words of the file refer to it, and say so
        asked += 1
        lost = {check.id for check in before.ledger} - {check.id for check in after.ledger}
        word = str(way[-1])
        named = [check for check in after.ledger.open if f".{word}" in check.reason or check.reason.startswith(word)]
        assert named or not lost, (way, lost)
        assert gone(before, after) == [], way
    assert asked


@pytest.mark.parametrize(
    ("demo", "way", "id", "need"),
    [
        ("one-wall", ("loads", "appliances"), "load.service", "loads.appliances"),
        ("one-wall", ("loads", "appliances"), "load.surveyed-appliances", "loads.appliances"),
        ("one-wall", ("walls", 0, "obstacles"), "siting.surveyed-obstacles/garage-east", "obstacles = []"),
        ("one-wall", ("walls", 0, "obstacles"), "siting.panel-place/main", "walls.garage-east.obstacles"),
        ("one-wall", ("walls", 1, "openings"), "siting.surveyed-openings/garage-north", "openings = []"),
        ("one-wall", ("panels", 0, "circuits"), "wiring.surveyed-circuits/main", "panels.main.circuits"),
        ("stack-outdoors", ("walls", 0, "openings"), "siting.surveyed-openings/house-east", "openings = []"),
        ("stack-outdoors", ("land", "marks"), "siting.surveyed-marks", "land.marks"),
        ("stack-outdoors", ("arrays",), "wiring.surveyed-arrays", "arrays = []"),
    ],
)
def test_an_absent_list_cannot_tell(demo: str, way: Way, id: str, need: str, tmp_path: Path) -> None:
    folder = sound(demo)
    without(folder.job, way)
    if way == ("panels", 0, "circuits"):
        del folder.job["panels"][1]["circuits"]
    if way == ("arrays",):
        folder.job["routes"] = [each for each in folder.job["routes"] if each["id"] != "pv-run"]
    plan = planned(folder, tmp_path)
    assert plan is not None
    assert plan.ledger[id].verdict == "cannot tell"
    assert need in plan.ledger[id].reason


def test_an_empty_list_says_that_there_are_none(tmp_path: Path) -> None:
    folder = sound("one-wall")
    put(folder.job, ("walls", 1, "openings"), [])
    put(folder.job, ("loads", "appliances"), [])
    plan = planned(folder, tmp_path)
    assert plan is not None
    assert plan.ledger["siting.surveyed-openings/garage-north"].verdict == "pass"
    assert plan.ledger["load.surveyed-appliances"].verdict == "pass"
    assert at(folder.job, ("loads", "appliances")) == []


@pytest.mark.parametrize(
    ("out", "need"),
    [
        (("panels", 0, "spaces"), "panels.main.spaces"),
        (("panels", 0, "free_spaces"), "panels.main.free_spaces"),
        (("panels", 0, "circuits", 3), "panels.main.circuits: they take 25 of the 26 spaces"),
    ],
)
def test_a_panel_that_is_half_listed_cannot_be_told(out: Way, need: str, tmp_path: Path) -> None:
    folder = sound("one-wall")
    without(folder.job, out)
    plan = planned(folder, tmp_path)
    assert plan is not None
    check = plan.ledger["wiring.surveyed-circuits/main"]
    assert check.verdict == "cannot tell"
    assert need in check.reason


def test_a_circuit_without_poles_is_named(tmp_path: Path) -> None:
    folder = sound("one-wall")
    for word in ("poles", "spaces"):
        del folder.job["panels"][0]["circuits"][3][word]
    plan = planned(folder, tmp_path)
    assert plan is not None
    assert "panels.main.circuits.water-heater.poles" in plan.ledger["wiring.surveyed-circuits/main"].reason


def test_a_panel_that_is_worked_on_is_asked_for_its_working_space_on_a_wall_without_units(tmp_path: Path) -> None:
    folder = sound("detached-pair")
    asked = {"siting.equipment-depth/main-panel", "siting.working-width/main-panel"}
    before = planned(folder, tmp_path)
    assert before is not None
    assert not asked & {check.id for check in before.ledger}
    folder.job["panels"][0]["circuits"][0]["state"] = "new"
    hall = next(each for each in folder.job["walls"] if each["id"] == "hall-east")
    hall["facing"] = "30 in"
    after = planned(folder, tmp_path)
    assert after is not None
    assert after.ledger["siting.equipment-depth/main-panel"].verdict == "fail"
    assert asked <= {check.id for check in after.ledger}
    assert after.ledger["siting.panel-place/main"].verdict == "pass"
