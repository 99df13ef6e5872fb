"""`check` under other codes than the job names, and what changes between two adoptions."""

import json
from pathlib import Path
from typing import Any

from calling import Call
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

SCHEMAS = Path(__file__).parents[2] / "src" / "standfast" / "cli" / "schemas"
FILES = {path.name: json.loads(path.read_text("utf-8")) for path in SCHEMAS.glob("*.json")}
REGISTRY: Registry[Any] = Registry().with_resources(
    (name, Resource.from_contents(schema)) for name, schema in FILES.items()
)


def answer(text: str) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(text)
    Draft202012Validator(FILES["check-against.json"], registry=REGISTRY).validate(data)
    return data


def test_another_adoption_than_the_job_names(call: Call, demo: Path) -> None:
    own, town = call("check", demo), call("check", demo, "--adoption", "quarrystead-2025", "--all")
    assert (own.code, town.code) == (0, 0)
    assert "adoption us-2021" in own.out
    assert "adoption quarrystead-2025" in town.out
    assert "10.2 kWh ≤ 40 kWh" in town.out
    assert "Quarrystead 2025 ordinance 12-5" in town.out
    thin = call("check", demo, "--adoption", "us-2020")
    assert thin.code == 1
    assert "no table is held for 'ampacity'" in thin.out or "no table is held for 'insulation_temperature'" in thin.out


def test_what_a_town_changes_is_listed_and_nothing_else(call: Call, demo: Path) -> None:
    data = answer(call("check", demo, "--adoption", "quarrystead-2025", "--against", "us-2021", "--json").out)
    changed = {each["id"]: each for each in data["changes"]}
    assert set(changed) == {"codes.in-force", "siting.energy-attached-garage"}
    energy = changed["siting.energy-attached-garage"]
    assert energy["what"] == ["limit", "clause"]
    assert (energy["under"]["limit"]["number"], energy["against"]["limit"]["number"]) == (40, 80)
    assert (energy["under"]["book"], energy["against"]["book"]) == ("Quarrystead", "IRC")
    assert changed["codes.in-force"]["against"] is None
    summary = data["summary"]
    assert (summary["verdict"], summary["limit"], summary["clause"], summary["asked"]) == (0, 1, 1, 1)
    assert summary["alike"] + len(changed) == summary["checks"]


def test_clauses_that_moved_between_editions_are_listed_and_those_that_did_not_are_not(call: Call, demo: Path) -> None:
    data = answer(call("check", demo, "--against", "us-2020", "--json").out)
    changed = {each["id"]: each for each in data["changes"]}
    moved = [each for each in changed.values() if each["what"] == ["clause"]]
    assert any(each["against"]["clause"].startswith("705.12(B)(3)") for each in moved)
    assert "load.service-least" not in changed
    verdicts = [each for each in changed.values() if "verdict" in each["what"]]
    assert verdicts
    new = "existing.feeder-surge-protection/backup"  # a section that 2020 is known not to have
    assert {each["id"] for each in verdicts if each["against"]["verdict"] != "cannot tell"} == {new}
    assert changed[new]["against"]["verdict"] == "not applicable"
    assert len(verdicts) == data["summary"]["verdict"]


def test_a_job_against_its_own_codes_is_alike(call: Call, demo: Path) -> None:
    found = call("check", demo, "--against", "us-2021")
    assert found.code == 0
    assert len(found.out.splitlines()) == 2
    assert "0 verdicts, 0 limits, 0 clauses change; 0 are asked under one only" in found.out


def test_lines_for_people_name_both_sides(call: Call, demo: Path) -> None:
    lines = call("check", demo, "--adoption", "quarrystead-2025", "--against", "us-2021").out.splitlines()
    assert any("quarrystead-2025  pass; ≤ 40 kWh; Quarrystead 2025 ordinance 12-5" in line for line in lines)
    assert any("us-2021           pass; ≤ 80 kWh; IRC 2021 R328.5(2)" in line for line in lines)


def test_an_adoption_that_is_not_there_is_a_faulty_call(call: Call, demo: Path) -> None:
    for option in ("--adoption", "--against"):
        found = call("check", demo, option, "us-1999")
        assert (found.code, found.out) == (2, "")
        assert "no adoption 'us-1999' is on the shelf: use one of" in found.err
        assert "us-2020" in found.err
