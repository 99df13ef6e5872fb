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


def test_calls_that_contradict_themselves_and_parts_that_are_not_there(call: Call, demo: Path) -> None:
    assert call("order", demo, "--condition", "damaged").code == 2
    assert call("order", demo, "--removal", "--service", "unit").code == 2
    refused = call("order", demo, "--service", "head")
    assert refused.code == 2 and "head as a part of its own" in refused.err and "Traceback" not in refused.err


def test_a_data_sheet_that_states_no_charge_is_told(call: Call, tmp_path: Path) -> None:
    told = call("order", write_demo("verandah", tmp_path / "v"), "--removal")
    assert "states no state of charge for taking down" in told.out and "not held here" in told.out
