"""Settings as data that a program reads back: they follow their schema and say what the sheet says."""

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from standfast.foreman.demo import write_demo
from standfast.foreman.pack import papers
from standfast.foreman.plan import JobPlan, make_plan
from standfast.foreman.read_back import decimal, settings_data
from standfast.paper.document import data as plain
from standfast.sheet import chosen, given, missing

SCHEMA = Path(__file__).parents[2] / "src" / "standfast" / "cli" / "schemas" / "settings.json"


@pytest.fixture(scope="module", params=["one-wall", "verandah"])
def plan(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> JobPlan:
    return make_plan(write_demo(request.param, tmp_path_factory.mktemp("job")), runner_up=False)


def test_the_data_follow_their_schema_and_hold_every_row(plan: JobPlan) -> None:
    found: Any = settings_data(plan)
    Draft202012Validator(json.loads(SCHEMA.read_text("utf-8"))).validate(found)
    assert found["ready"]
    assert found["open"] == []
    assert [each["id"] for each in found["settings"]] == [row.id for row in plan.design.settings.rows]
    for each in found["settings"]:
        assert (each["tolerance"] is None) == (each["relation"] != "is" or each["target"] in ("yes", "no"))
        assert each["least"] is None or float(each["least"]) <= float(each["target"]) <= float(each["greatest"])


def test_the_sheet_of_the_set_has_a_box_for_every_row(plan: JobPlan) -> None:
    made = papers(plan)
    (sheet,) = [each for each in made.permit.document.sheets if each.code == "S1"]
    text = json.dumps(plain(made.permit.document), default=repr)
    for row in plan.design.settings.rows:
        assert row.parameter in text
    assert str(sheet).count("'style': 'box'") == len(plan.design.settings.rows)
    (rows,) = [each for each in made.schedules if each.name == "settings"]
    assert len(rows.rows) == len(plan.design.settings.rows)


def test_a_job_that_cannot_say_writes_no_number(tmp_path: Path) -> None:
    folder = write_demo("one-wall", tmp_path)
    job = folder / "job.toml"
    job.write_text(job.read_text("utf-8").replace('category = "III"\n', "", 1), "utf-8")
    found: Any = settings_data(make_plan(folder, runner_up=False))
    Draft202012Validator(json.loads(SCHEMA.read_text("utf-8"))).validate(found)
    assert not found["ready"]
    assert "settings.category" in found["open"]
    unknown = [each for each in found["settings"] if each["target"] is None]
    assert unknown
    assert all("grid.category" in each["reason"] for each in unknown)


@pytest.mark.parametrize(
    ("number", "text"),
    [(0.88, "0.88"), (-60.0, "-60"), (300.0, "300"), (100 * 0.917, "91.7"), (0.0, "0"), (1 / 3, "0.333333333")],
)
def test_numbers_are_written_as_decimals(number: float, text: str) -> None:
    assert decimal(given("x", number, "pu", "test")) == text


def test_what_is_not_known_or_no_number_is_written_as_such() -> None:
    assert decimal(missing("x", "pu", "find out")) is None
    assert decimal(None) is None
    assert decimal(chosen("on", True, "", "", None)) == "yes"
