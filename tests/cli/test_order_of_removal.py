"""A removal and a service as data and as text."""

from pathlib import Path

import pytest
from calling import Call
from test_answers import checked

from standfast.foreman.demo import write_demo


@pytest.mark.parametrize("name", ["one_wall", "stack_outdoors", "terrace", "verandah"])
@pytest.mark.parametrize("condition", ["sound", "end-of-life", "damaged"])
def test_a_removal_follows_the_schema_and_reaches_its_goal(
    call: Call, tmp_path: Path, name: str, condition: str
) -> None:
    found = call("order", write_demo(name, tmp_path / name), "--removal", "--condition", condition, "--json")
    assert (found.code, found.err) == (0, "")
    data = checked("order", found.out)
    assert (data["work"], data["unsafe"]) == (f"removal, {condition}", [])
    goal = data["reached"]
    assert [goal[word] for word in ("left", "closed", "unfed", "locked")] == [[], [], [], []]
    assert ("supply" in data) == (condition == "damaged")
    assert all(rule["verdict"] != "broken" for rule in data["rules"]) and data["tests"]
    assert data["schedule"]["off"] and data["schedule"]["least_minutes"] <= data["schedule"]["work_minutes"]
    assert goal["bonds"] and all(row["verdict"] == "pass" for row in goal["bonds"])
    assert data["carriage"] and all(each["closed"] and not each["locked"] for each in data["switches"])
    assert all(before < step["number"] for step in data["steps"] for before in step["after"])


def test_without_a_condition_it_is_sound_and_text_names_the_rules(call: Call, demo: Path) -> None:
    told = call("order", demo, "--removal")
    assert told.code == 0 and "removal, sound" in told.out and "CARRIAGE  49 CFR 173.185(b)" in told.out


@pytest.mark.parametrize("what", ["unit", "firmware"])
def test_a_service_follows_the_schema(call: Call, demo: Path, what: str) -> None:
    found = call("order", demo, "--service", what, "--json")
    data = checked("order", found.out)
    assert (found.code, data["work"], data["unsafe"]) == (0, f"service, {what}", [])
    assert "carriage" not in data and "reached" not in data
    assert [each["id"] for each in data["units"]] == ["battery-1"] and data["tests"]
    assert data["schedule"]["minutes"] and data["schedule"]["days"] is None


def test_calls_that_contradict_themselves_and_parts_that_are_not_there(call: Call, demo: Path) -> None:
    assert call("order", demo, "--condition", "damaged").code == 2
    assert call("order", demo, "--removal", "--service", "unit").code == 2
    refused = call("order", demo, "--service", "head")
    assert refused.code == 2 and "head as a part of its own" in refused.err and "Traceback" not in refused.err


def test_a_data_sheet_that_states_no_charge_is_told(call: Call, tmp_path: Path) -> None:
    told = call("order", write_demo("verandah", tmp_path / "v"), "--removal")
    assert "states no state of charge for taking down" in told.out and "not held here" in told.out


def test_the_second_unit_is_served_by_its_name(call: Call, tmp_path: Path) -> None:
    job = write_demo("detached_pair", tmp_path / "pair")
    found = call("order", job, "--service", "unit", "--unit", "battery-2", "--json")
    assert [each["id"] for each in checked("order", found.out)["units"]] == ["battery-2"]
    assert "service, unit, Battery 2" in call("order", job, "--service", "unit", "--unit", "battery-2").out
    refused = call("order", job, "--service", "unit", "--unit", "battery-3")
    assert refused.code == 2 and "battery-1, battery-2" in refused.err and "Traceback" not in refused.err
    assert call("order", job, "--unit", "battery-2").code == 2


def test_the_days_are_those_of_the_firm(call: Call, tmp_path: Path) -> None:
    job = write_demo("one_wall", tmp_path / "house")
    firm = tmp_path / "firm"
    firm.mkdir()
    (firm / "firm.toml").write_text(
        'schema = 1\n[firm]\nname = "Invented Electric"\ninvented = true\n[day]\nlength = "9 h"\n', "utf-8"
    )
    data = checked("order", call("order", job, "--firm", firm, "--removal", "--json").out)
    days = data["schedule"]["days"]
    assert len(days) == 2 and sorted(step for day in days for step in day["steps"]) == [
        step["number"] for step in data["steps"]
    ]
    assert "Battery 1 breaker" in days[0]["night"]["locked"] and days[1]["night"] is None
    assert all(day["minutes"] <= 540 and day["next_day_known"] for day in days)
    second = set(days[1]["steps"])
    assert all((each["start"] >= 1440) == (each["step"] in second) for each in data["schedule"]["steps"])
    damaged = checked("order", call("order", job, "--firm", firm, "--removal", "--condition", "damaged", "--json").out)
    assert damaged["schedule"]["days"][0]["next_day_known"] is False
    assert damaged["schedule"]["owner"][0].startswith("While the damaged unit waits, the grid feeds without it")
    told = call("order", job, "--removal").out
    assert "How many days the work takes cannot be told: the firm file does not state" in told


@pytest.mark.parametrize("work", [[], ["--removal"], ["--service", "unit"]])
def test_what_must_be_done_again_after_a_step(call: Call, demo: Path, work: list[str]) -> None:
    data = checked("order", call("order", demo, *work, "--json").out)
    step = next(each for each in data["steps"] if each["redo"])
    for name in (str(step["number"]), step["id"]):
        found = call("order", demo, *work, "--after", name, "--json")
        again = checked("redo", found.out)
        assert found.code == 0 and again["step"]["id"] == step["id"]
        assert [each["number"] for each in again["redo"]] == step["redo"]
    told = call("order", demo, *work, "--after", step["id"]).out
    assert told.count("AGAIN ") == len(step["redo"]) and f"Step {step['number']} done once more" in told
    idle = next(each for each in data["steps"] if not each["redo"])
    assert "Nothing else has to be done again" in call("order", demo, *work, "--after", str(idle["number"])).out
    refused = call("order", demo, *work, "--after", "999")
    assert refused.code == 2 and "no such step" in refused.err and "Traceback" not in refused.err
