"""The field sheet of every demo: true to its schema, the same in each language, with limits that a tablet can read."""

import json
from decimal import Decimal
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from standfast.cli import run
from standfast.foreman.demo import write_demo
from standfast.foreman.field import field_sheet, sheet_hash
from standfast.foreman.plan import make_plan
from standfast.units import show

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "src" / "standfast" / "cli" / "schemas" / "field-sheet.json").read_text("utf-8"))
DEMOS = ("one-wall", "cabinet", "many-sources", "terrace", "verandah")


@pytest.fixture(scope="module", params=DEMOS)
def sheet(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    return compiled(request.param, tmp_path_factory.mktemp("job"))


def compiled(name: str, folder: Path) -> dict[str, Any]:
    write_demo(name, folder)
    found: dict[str, Any] = json.loads(field_sheet(make_plan(folder)))
    return found


def items(sheet: dict[str, Any]) -> list[dict[str, Any]]:
    return [item for step in sheet["steps"] for item in step["items"]]


def test_it_keeps_to_its_schema(sheet: dict[str, Any]) -> None:
    jsonschema.Draft202012Validator(SCHEMA).validate(sheet)


def test_every_step_waits_for_steps_of_the_sheet_only(sheet: dict[str, Any]) -> None:
    ids = [step["id"] for step in sheet["steps"]]
    assert len(ids) == len(set(ids))
    for step in sheet["steps"]:
        assert set(step["after"]) | set(step["redo"]) <= set(ids)
        before = ids[: ids.index(step["id"])]
        assert set(step["after"]) <= set(before), f"{step['id']} stands before what it waits for"


def test_every_item_has_a_name_of_its_own_and_every_drawing_is_there(sheet: dict[str, Any]) -> None:
    ids = [item["id"] for item in items(sheet)]
    assert len(ids) == len(set(ids))
    drawings = {each["id"] for each in sheet["drawings"]}
    assert drawings
    assert {name for step in sheet["steps"] for name in step["drawings"]} == drawings


def test_every_text_is_there_in_both_languages(sheet: dict[str, Any]) -> None:
    assert sheet["languages"][0] == "en"
    for step in sheet["steps"]:
        for text in (step["text"], *step["first"], *step["cautions"], *(item["what"] for item in step["items"])):
            assert list(text) == sheet["languages"]
            assert all(text.values())


def test_a_proof_of_dead_fails_at_any_voltage_and_has_the_tester_proved_before_and_after(sheet: dict[str, Any]) -> None:
    proofs = [step for step in sheet["steps"] if step["id"].startswith("job.dead-") and step["id"] != "job.dead-tests"]
    assert proofs
    for step in proofs:
        first, *pairs, last = [item for item in step["items"] if item["kind"] == "reading"]
        assert first["limit"] is None
        assert last["limit"] is None
        assert len(pairs) >= 1
        assert all((each["limit"]["relation"], each["limit"]["value"]) == ("at most", "0") for each in pairs)


def test_a_torque_is_a_setting_in_each_unit_that_tools_have(sheet: dict[str, Any]) -> None:
    stated = [item for item in items(sheet) if item["kind"] == "torque" and item["limit"]]
    assert stated
    for item in stated:
        ours, (other,) = item["limit"], item["limit"]["also"]
        assert ours["unit"] == "N·m"
        per_unit = {"lbf·in": Decimal("0.1129848"), "lbf·ft": Decimal("1.3558179")}[other["unit"]]
        assert abs(Decimal(other["value"]) * per_unit / Decimal(ours["value"]) - 1) < Decimal("0.006")
        printed = item["limit"]["text"]["en"]
        assert ours["value"] in printed
        assert (other["value"] in printed) == sheet["adoption"].startswith("us")


def test_the_limit_of_a_test_is_the_number_that_is_printed(sheet: dict[str, Any]) -> None:
    tested = [item for item in items(sheet) if item.get("test") and item["limit"]]
    assert tested
    for item in tested:
        printed = item["limit"]["text"]["en"]
        assert any(
            show(float(number), "") in printed for number in (item["limit"]["value"], item["limit"]["upper"]) if number
        )


def test_a_covered_joint_is_photographed_before_it_is_covered(sheet: dict[str, Any]) -> None:
    covers = [step for step in sheet["steps"] if any(hold["kind"] == "cover" for hold in step["holds"])]
    assert covers
    for step in covers:
        assert [item["why"] for item in step["items"] if item["kind"] == "photo"] == ["covered"]


def test_the_main_demo_asks_few_entries(tmp_path: Path) -> None:
    """Counted again in the browser: a form with everything that a step asks, each photo, and each hold point."""
    steps = compiled("one-wall", tmp_path)["steps"]
    apart = [item for step in steps for item in step["items"] if item["kind"] in ("photo", "timer")]
    assert len(steps) + len(apart) + sum(len(step["holds"]) for step in steps) <= 90


def test_the_same_job_gives_the_same_bytes_wherever_it_lies(tmp_path: Path) -> None:
    texts = []
    for name in ("here", "elsewhere"):
        write_demo("one-wall", tmp_path / name)
        texts.append(field_sheet(make_plan(tmp_path / name)))
    assert texts[0] == texts[1]


def test_the_command_writes_it_and_says_its_name(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write_demo("one-wall", tmp_path / "job")
    out = tmp_path / "sheet.json"
    assert run(["field", str(tmp_path / "job"), "--out", str(out)]) == 0
    assert capsys.readouterr().err.strip() == f"sheet {sheet_hash(out.read_text('utf-8'))}"
