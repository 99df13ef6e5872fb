"""standfast verify: exit codes, plain lines, and JSON that follows its schema."""

from pathlib import Path

import pytest
from calling import Call
from signed_record import PHOTO, PHOTO_SHA, SHEET, SHEET_TEXT, Signed, Whole, worked
from tablet import card
from test_answers import checked


@pytest.fixture(scope="module")
def whole() -> Whole:
    return worked()


@pytest.fixture
def folder(whole: Whole, tmp_path: Path) -> Path:
    (tmp_path / "photos").mkdir()
    (tmp_path / "files").mkdir()
    (tmp_path / "photos" / f"{PHOTO_SHA}.jpg").write_bytes(PHOTO)
    (tmp_path / "files" / SHEET).write_text(SHEET_TEXT, "utf-8")
    (tmp_path / "record.ndjson").write_text("".join(f"{line}\n" for line in whole.lines), "utf-8")
    return tmp_path


def test_what_is_open_gives_one_and_is_told_with_why_and_what_to_do(call: Call, folder: Path, whole: Whole) -> None:
    found = call("verify", folder, "--key", whole.office.public)
    assert (found.code, found.err) == (1, "")
    assert "CANNOT TELL    file missing: card" in found.out and "what to do: bring it" in found.out
    assert "ready for handover: yes" in found.out
    assert f"log {whole.a.dev}: {len(whole.a.log)} events" in found.out
    data = checked("verify", call("verify", folder, "--key", whole.office.public, "--json").out)
    assert data["verdict"] == "cannot tell" and data["summary"] == {"pass": 1, "fail": 0, "cannot_tell": 2}
    assert data["state"]["ready"] and all(log["trusted"] for log in data["logs"])


def test_an_altered_record_is_told_with_its_line(call: Call, folder: Path) -> None:
    record = folder / "record.ndjson"
    record.write_text(record.read_text("utf-8").replace('"99"', '"98"'), "utf-8")
    found = call("verify", folder)
    assert found.code == 1 and "FAIL           altered" in found.out and "record.ndjson:3" in found.out
    data = checked("verify", call("verify", folder, "--json").out)
    assert data["verdict"] == "fail"
    assert [each["line"] for each in data["findings"] if each["kind"] == "altered"] == [3]


def test_nothing_against_it_and_nothing_open_gives_nought(call: Call, folder: Path, whole: Whole) -> None:
    """The cards are not there, which is open until an entry of the record says that they were erased."""
    office = Signed("f", "")
    office.seen = {whole.a.dev: len(whole.a.log), whole.b.dev: len(whole.b.log)}
    office.tell("erased", what=[card("ana"), card("ben")], reason="asked for")
    office.seals([*whole.a.log, *whole.b.log, *office.log], whole.a, whole.b, office)
    lines = [*whole.a.raws, *whole.b.raws, *office.raws]
    (folder / "record.ndjson").write_text("".join(f"{line}\n" for line in lines), "utf-8")
    found = call("verify", folder, "--key", office.public)
    assert (found.code, found.err) == (0, ""), found.out
    assert found.out.splitlines()[-1] == "pass: 0 changed or missing, 0 open"
    assert "erased" not in found.out and "erased" in call("verify", folder, "--key", office.public, "--all").out


def test_a_record_alone_and_none_at_all(call: Call, folder: Path, tmp_path: Path) -> None:
    alone = call("verify", folder / "record.ndjson")
    assert alone.code == 1 and "no field sheet of this record is at hand" in alone.out
    checked("verify", call("verify", folder / "record.ndjson", "--json").out)
    (tmp_path / "empty.ndjson").write_text("", "utf-8")
    assert "no record" in call("verify", tmp_path / "empty.ndjson").out
    missing = call("verify", tmp_path / "nothing")
    assert missing.code == 2 and "no such file" in missing.err
    assert call("verify", folder, "--key", "x").code == 2
