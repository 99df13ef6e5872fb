"""Faulty calls and faulty files: exit code 2, every fault on standard error with its place, and nothing else."""

import re
from pathlib import Path

import pytest
from calling import Call, Called, change

from standfast.cli import COMMANDS

FAULT = re.compile(r"[^:]+:[1-9]\d*:[1-9]\d*: .+ \(.+\)")
"""``file:line:column: what: why (what to do)``"""


def refused(found: Called) -> str:
    """Standard error of a call that was refused as a faulty one is."""
    assert found.code == 2
    assert found.out == ""
    assert found.err
    assert "Traceback" not in found.err
    assert found.err.isascii() or found.err.replace("\n", "").isprintable()
    return found.err


@pytest.mark.parametrize("misspelt", [["chek"], ["nwe", "x"], ["new-sheeet", "x"], ["prof"]])
def test_a_misspelt_command_is_answered_with_its_neighbour(call: Call, misspelt: list[str]) -> None:
    told = refused(call(*misspelt))
    (near,) = re.findall(r"Did you mean '([a-z-]+)'", told)
    assert near in COMMANDS
    assert told.count("\n") == 1


def test_a_command_like_no_other_is_answered_with_where_they_are_listed(call: Call) -> None:
    assert "(see standfast --help)" in refused(call("frobnicate"))


@pytest.mark.parametrize(
    ("command", "wrong", "right"),
    [("check", "--jsn", "--json"), ("demo", "--lis", "--list"), ("new", "--adopt", "--adoption")],
)
def test_a_misspelt_option_is_answered_with_its_neighbour(call: Call, command: str, wrong: str, right: str) -> None:
    told = refused(call(command, wrong))
    assert right in told
    assert f"(see standfast {command} --help)" in told


@pytest.mark.parametrize(
    "arguments",
    [
        ["explain"], ["explain", "x"], ["new"], ["new-sheet"], ["check", "a", "b"], ["new", "x", "--date", "yesterday"],
        ["new-sheet", "x.toml", "--kind", "toaster"], ["demo", "--out"],
    ],
)  # fmt: skip
def test_a_faulty_call_is_told_in_one_line_with_where_to_read_on(call: Call, arguments: list[str]) -> None:
    told = refused(call(*arguments))
    assert told.count("\n") == 1
    assert told.startswith(f"standfast {arguments[0]}: ")
    assert told.endswith(f"(see standfast {arguments[0]} --help)\n")


def test_no_word_at_all_shows_the_help(call: Call) -> None:
    assert all(f"  {name} " in refused_help for refused_help in [call().err] for name in COMMANDS)
    assert call().code == 2


@pytest.mark.parametrize("command", ["check", "pack"])
def test_a_missing_job_is_told_with_how_to_start_one(call: Call, tmp_path: Path, command: str) -> None:
    (tmp_path / "empty").mkdir()
    for there in (tmp_path / "nowhere", tmp_path / "empty", tmp_path / "empty" / "job.toml"):
        told = refused(call(command, there))
        assert "there is no such file" in told
        assert "standfast new" in told


def test_all_faults_of_a_job_come_at_once_each_with_its_place(call: Call, job: Path) -> None:
    change(job / "job.toml", 'fault_current = "9.4 kA"', "fault_current = 9.4")
    change(job / "job.toml", 'busbar = "200 A"\nfault', 'busbarr = "200 A"\nfault')
    told = refused(call("check", job)).splitlines()
    assert len(told) >= 2
    for line in told:
        assert FAULT.fullmatch(line), line
        name, row, _ = line.split(":", 2)
        assert Path(name) == job / "job.toml"
        assert int(row) <= len((job / "job.toml").read_text("utf-8").splitlines())
    assert any("9.4 has no unit" in line for line in told)
    assert any("did you mean busbar?" in line for line in told)


@pytest.mark.parametrize("command", [["check"], ["pack"], ["explain", "wiring"]])
def test_json_of_a_faulty_job_is_silence_and_faults(call: Call, job: Path, command: list[str]) -> None:
    change(job / "job.toml", 'fault_current = "9.4 kA"', "fault_current = 9.4")
    assert "9.4 has no unit" in refused(call(command[0], job, *command[1:], "--json"))


def test_a_fault_in_a_sheet_of_the_job_names_that_sheet(call: Call, job: Path) -> None:
    change(job / "job.toml", 'battery = "demo-wall-10"', 'battery = "ours"')
    (job / "sheets").mkdir()
    (job / "sheets" / "ours.toml").write_text('schema = 1\nid = "ours"\nkind = "toaster"\n', "utf-8")
    told = refused(call("check", job)).splitlines()
    assert any(line.startswith(f"{job / 'sheets' / 'ours.toml'}:3:8: ") for line in told)


def test_a_sheet_that_is_nowhere_is_told_where_the_job_asks_for_it(call: Call, job: Path) -> None:
    change(job / "job.toml", 'battery = "demo-wall-10"', 'battery = "demo-wall-11"')
    told = refused(call("check", job))
    assert re.match(rf"{re.escape(str(job / 'job.toml'))}:\d+:\d+: there is no data sheet", told)
    assert "demo-wall-10" in told


def test_an_adoption_that_is_not_on_the_shelf_is_told_with_those_that_are(call: Call, job: Path) -> None:
    change(job / "job.toml", 'adoption = "us-2021"', 'adoption = "us-1897"')
    assert FAULT.fullmatch(told := refused(call("check", job)).strip())
    assert "us-2021" in told
    assert "us-2021" in refused(call("new", job / "x", "--adoption", "us-1897"))


def test_text_that_is_not_utf_8_is_told_with_its_place(call: Call, job: Path) -> None:
    (job / "job.toml").write_bytes('schema = 1\nname = "é'.encode() + b'\xe9"\n')
    assert refused(call("check", job)).startswith(f"{job / 'job.toml'}:2:10: byte 0xe9 is no UTF-8 text")
    assert refused(call("proof", job / "job.toml")).startswith(f"{job / 'job.toml'}:2:10: ")


def test_a_folder_in_the_place_of_a_file_is_told(call: Call, tmp_path: Path) -> None:
    (tmp_path / "job.toml").mkdir()
    assert "this is a folder" in refused(call("check", tmp_path))
    assert "this is a folder" in refused(call("proof", tmp_path))


def test_a_file_that_may_not_be_read_is_told(call: Call, job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = Path.read_bytes

    def closed(path: Path) -> bytes:
        if path == job / "documents" / "battery-listing.pdf":
            raise PermissionError(13, "Permission denied")
        return whole(path)

    monkeypatch.setattr(Path, "read_bytes", closed)
    assert "battery-listing.pdf: cannot be read: Permission denied" in refused(call("check", job))


def test_a_folder_out_that_cannot_be_written_is_told(call: Call, job: Path) -> None:
    (job / "out").write_text("a file is in the way", "utf-8")
    told = refused(call("pack", job))
    assert told.startswith(f"{job / 'out' / 'permit-set.pdf'}: cannot be written: ")
    assert (job / "out").read_text("utf-8") == "a file is in the way"


def test_a_document_that_is_no_pdf_is_told(call: Call, job: Path) -> None:
    (job / "documents" / "battery-listing.pdf").write_text("no pdf", "utf-8")
    told = refused(call("pack", job))
    assert "battery-listing" in told


def test_a_folder_of_the_firm_that_is_not_there_is_told(call: Call, demo: Path, tmp_path: Path) -> None:
    assert "there is no such folder" in refused(call("check", demo, "--firm", tmp_path / "nowhere"))


@pytest.mark.parametrize("text", ["", "{", "3", "[3]", '[{"id": "a"}]', "[" * 100_000, '{"a": 1e999}'])
def test_a_file_that_holds_no_cases_is_told(call: Call, tmp_path: Path, text: str) -> None:
    (tmp_path / "cases.json").write_text(text, "utf-8")
    assert refused(call("proof", tmp_path / "cases.json")).startswith(str(tmp_path / "cases.json"))
