"""The commands that write files to start from: what they write can be read, and nothing of anybody is written over."""

import json
from pathlib import Path

import pytest
from calling import Call
from jsonschema import Draft202012Validator
from test_answers import checked

from standfast import equipment, survey
from standfast.foreman.starting import KINDS


def test_new_writes_a_job_that_reads_and_its_schema(call: Call, tmp_path: Path) -> None:
    found = call("new", tmp_path / "our-job", "--date", "2026-05-04")
    assert (found.code, found.err) == (0, "")
    text = (tmp_path / "our-job" / "job.toml").read_text("utf-8")
    content, faults = survey.read(text, "job.toml")
    assert faults == []
    assert content is not None
    assert content.job.job.date.isoformat() == "2026-05-04"
    schema = json.loads((tmp_path / "our-job" / "job.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    assert "job.schema.json" in text.splitlines()[0]


def test_a_new_job_is_told_what_it_lacks(call: Call, tmp_path: Path) -> None:
    call("new", tmp_path)
    found = call("check", tmp_path)
    assert (found.code, found.out) == (2, "")
    for lack in ("no battery is chosen", "the job has no wall for the battery", "the job has no room"):
        assert f"{tmp_path / 'job.toml'}:1:1: {lack}" in found.err


def test_a_survey_can_begin_with_a_new_job(call: Call, tmp_path: Path) -> None:
    told = call("new", tmp_path).out.splitlines()[-1]
    assert told.endswith(f"standfast survey {tmp_path}")
    found = call("survey", tmp_path)
    assert (found.code, found.err) == (1, "")
    data = checked("survey", call("survey", tmp_path, "--json").out)
    assert [(each["file"], each["word"]) for each in data["wanted"]] == [
        ("job.toml", "equipment.battery"), ("job.toml", "walls"), ("job.toml", "rooms")
    ]  # fmt: skip
    assert all(f"begin {each['need']}" in found.out for each in data["wanted"])


def test_each_thing_to_begin_with_that_is_written_is_asked_no_more(call: Call, tmp_path: Path) -> None:
    call("new", tmp_path)
    head = (tmp_path / "job.toml").read_text("utf-8")
    wall = '\n[[walls]]\nid = "w"\nroom = "outside"\nlength = "21 ft"\n'
    battery = '\n[equipment]\nbattery = "demo-wall-10"\n'
    for more, left in ((battery, ["walls", "rooms"]), (wall, ["equipment.battery"])):
        (tmp_path / "job.toml").write_text(head + more, "utf-8")
        wanted = checked("survey", call("survey", tmp_path, "--json").out)["wanted"]
        assert [each["word"] for each in wanted] == left
    (tmp_path / "job.toml").write_text(head + wall + battery, "utf-8")
    data = checked("survey", call("survey", tmp_path, "--json").out)
    assert data["cannot_tell"] > 20
    assert all(each["checks"] for each in data["wanted"])


def test_new_never_writes_over_a_job(call: Call, tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text("mine", "utf-8")
    found = call("new", tmp_path)
    assert (found.code, found.out) == (2, "")
    assert "is there already and was left as it is" in found.err
    assert (tmp_path / "job.toml").read_text("utf-8") == "mine"
    assert [each.name for each in tmp_path.iterdir()] == ["job.toml"]


@pytest.mark.parametrize("kind", KINDS)
def test_new_sheet_writes_a_sheet_of_each_kind_that_reads(call: Call, tmp_path: Path, kind: str) -> None:
    file = tmp_path / "sheets" / "our-thing.toml"
    found = call("new-sheet", file, "--kind", kind)
    assert (found.code, found.err) == (0, "")
    text = file.read_text("utf-8")
    told = [fault.what for fault in equipment.read(text, file.name).faults]
    assert len(told) == 3 and "has no invented" in told[0]
    assert told[1:] == [f'{word} is still the placeholder "…"' for word in ("maker", "name")]
    text = text.replace('maker = "…"', 'maker = "Us"', 1).replace('\nname = "…"', '\nname = "Ours"', 1)
    sheet, faults = equipment.read(text.replace("#invented = true", "invented = true", 1), file.name)
    assert faults == []
    assert sheet is not None
    assert (sheet.sheet.id, sheet.sheet.kind) == ("our-thing", kind)
    Draft202012Validator.check_schema(json.loads((tmp_path / "sheets" / "sheet.schema.json").read_text("utf-8")))


def test_what_is_still_the_placeholder_of_a_new_file_is_a_fault_with_its_place(call: Call, tmp_path: Path) -> None:
    call("new", tmp_path)
    text = (tmp_path / "job.toml").read_text("utf-8").replace('#scope = "…"', 'scope = "…"')
    (tmp_path / "job.toml").write_text(text, "utf-8")
    line = text.split("\n").index('scope = "…"') + 1
    for command in ("check", "survey"):
        found = call(command, tmp_path)
        assert found.code == 2
        assert f'{tmp_path / "job.toml"}:{line}:9: scope is still the placeholder "…"' in found.err


def test_new_sheet_never_writes_over_a_sheet(call: Call, tmp_path: Path) -> None:
    file = tmp_path / "our-thing.toml"
    file.write_text("mine", "utf-8")
    assert call("new-sheet", file).code == 2
    assert file.read_text("utf-8") == "mine"


def test_a_file_in_the_way_of_a_folder_is_told(call: Call, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine", "utf-8")
    for arguments in (["new-sheet", tmp_path / "file" / "x.toml"], ["new", tmp_path / "file" / "job"]):
        found = call(*arguments)
        assert (found.code, found.out) == (2, "")
        assert "cannot be written: " in found.err
    assert (tmp_path / "file").read_text("utf-8") == "mine"


def test_the_demo_writes_over_an_earlier_demo_and_over_no_other_job(call: Call, demo: Path, tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text("mine", "utf-8")
    found = call("demo", "--out", tmp_path)
    assert (found.code, found.out) == (2, "")
    assert [each.name for each in tmp_path.iterdir()] == ["job.toml"]
    (tmp_path / "job.toml").write_text((demo / "job.toml").read_text("utf-8").replace("9.4 kA", "8 kA"), "utf-8")
    assert call("demo", "faulty", "--out", tmp_path).code == 2
    assert "mend" in (tmp_path / "job.toml").read_text("utf-8")
