"""A record is read from a folder, a file or a zip; a zip that was made to do harm is refused."""

import json
import struct
import zlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from zipfile import ZIP_BZIP2, ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from signed_record import PHOTO, PHOTO_SHA, SHEET, SHEET_TEXT, Whole, kinds, worked

from standfast.cli.verify import command
from standfast.faults import FaultsFound
from standfast.foreman import verifying
from standfast.foreman.verifying import verify_record

WHOLE = worked()
RECORD = "".join(f"{line}\n" for line in WHOLE.lines)
FILES = {"record.ndjson": RECORD.encode(), f"files/{SHEET}": SHEET_TEXT.encode(), f"photos/{PHOTO_SHA}.jpg": PHOTO}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, content in FILES.items():
        place = tmp_path / "job" / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(content)
    return tmp_path / "job"


def zipped(path: Path, files: dict[str, bytes] = FILES, packed: int = ZIP_DEFLATED) -> Path:
    with ZipFile(path, "w", packed) as made:
        for name, content in files.items():
            made.writestr(ZipInfo(name), content, packed)
    return path


def test_a_folder_a_zip_and_the_file_say_the_same_of_the_chains(folder: Path, tmp_path: Path) -> None:
    keys = sorted(WHOLE.keys)
    one = verify_record(folder, keys)
    assert one.word == "cannot tell" and kinds(one) == ["file missing", "file missing"]  # the cards
    assert one.state is not None and one.state.ready
    for packed in (ZIP_STORED, ZIP_DEFLATED):
        assert verify_record(zipped(tmp_path / "export.zip", packed=packed), keys) == one
    inside = {f"job-7/{name}": content for name, content in FILES.items()}
    assert kinds(verify_record(zipped(tmp_path / "inside.zip", inside), keys)) == kinds(one)
    alone = verify_record(folder / "record.ndjson", keys)
    assert alone.logs == one.logs and alone.state is None
    assert set(kinds(alone)) == {"sheet missing", "signature open", "files not given"}


def test_a_field_sheet_is_known_by_what_is_in_it(folder: Path) -> None:
    (folder / f"files/{SHEET}").rename(folder / "the sheet of monday.json")
    assert verify_record(folder).state is not None


def test_a_photo_that_was_exchanged_is_found_in_the_folder(folder: Path) -> None:
    (folder / f"photos/{PHOTO_SHA}.jpg").write_bytes(PHOTO + b"!")
    assert {"wrong file", "file missing"} <= set(kinds(verify_record(folder)))


def test_what_stands_in_quarantine_is_a_fork(folder: Path) -> None:
    from tablet import rewritten

    other = rewritten(WHOLE.a.log[3], id="00000000-0000-0000-0000-0000000000ff")
    (folder / "quarantine.ndjson").write_text(other.raw + "\n", "utf-8")
    found = [each for each in verify_record(folder).findings if each.kind == "forked"]
    assert len(found) == 1 and "record.ndjson" in found[0].what + found[0].file


def test_a_link_out_of_the_folder_is_not_followed(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "away").write_bytes(b"secret")
    (folder / "photos" / f"{'9' * 64}.jpg").symlink_to(tmp_path / "away")
    assert "wrong file" not in kinds(verify_record(folder))


def test_a_document_that_is_called_like_a_record_is_none(folder: Path, tmp_path: Path) -> None:
    """A document of the job stood in the export as a forged record, while the folder passed."""
    inside = {**FILES, "documents/meter.ndjson": b'{"kwh": 1}\n'}
    (folder / "documents").mkdir()
    (folder / "documents/meter.ndjson").write_bytes(inside["documents/meter.ndjson"])
    keys = sorted(WHOLE.keys)
    assert kinds(verify_record(zipped(tmp_path / "export.zip", inside), keys)) == ["file missing", "file missing"]
    assert kinds(verify_record(folder, keys)) == ["file missing", "file missing"]
    deep = {f"job-7/{name}": content for name, content in inside.items()}
    assert kinds(verify_record(zipped(tmp_path / "deep.zip", deep), keys)) == ["file missing", "file missing"]


def test_marks_of_a_terminal_in_a_record_are_not_shown(tmp_path: Path) -> None:
    """They could wipe a fail off the screen and write a pass in its place."""
    whole = worked(sealed=False)
    whole.b.tell("witness", dev="\x1b[2J\x1b[1;1HPASS\u202e \ud800", seq=5, hash="0" * 64)
    record = tmp_path / "record.ndjson"
    record.write_text("".join(f"{line}\n" for line in whole.lines), "utf-8")
    told = CliRunner().invoke(command, [str(record)], color=True)
    assert "event 5 of ?[2J?[1;1HPASS? ?, which this device saw, is not here" in told.output
    assert "\x1b" not in told.output
    data = CliRunner().invoke(command, [str(record), "--json"], color=True)
    assert data.exception is None or isinstance(data.exception, SystemExit)
    assert json.loads(data.output)["verdict"] == "fail" and "\x1b" not in data.output


def refused(path: Path, why: str) -> None:
    with pytest.raises(FaultsFound, match=why) as told:
        verify_record(path)
    assert all(fault.todo for fault in told.value.faults)


@pytest.mark.parametrize("name", ["../record.ndjson", "/etc/x", "a\\..\\b", "c:/x", "a/../../b"])
def test_a_name_that_leads_out_of_the_zip_is_refused(tmp_path: Path, name: str) -> None:
    path = tmp_path / "export.zip"
    with ZipFile(path, "w") as made:
        made.writestr("record.ndjson", RECORD)
        made.writestr(ZipInfo(name), b"x")
    refused(path, "leads out")
    assert sorted(each.name for each in tmp_path.iterdir()) == ["export.zip"]  # nothing is ever unpacked


def test_a_bomb_is_refused_while_it_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(verifying, "LONGEST_FILE_BYTES", 10_000)
    refused(zipped(tmp_path / "export.zip", {**FILES, "photos/big": b"\0" * 10_001}), "longer than 10000 bytes")
    monkeypatch.setattr(verifying, "LONGEST_RECORD_BYTES", 100)
    refused(zipped(tmp_path / "export.zip"), "longer than 100 bytes")
    monkeypatch.undo()
    monkeypatch.setattr(verifying, "LONGEST_ZIP_BYTES", len(RECORD.encode()) + 10)
    refused(zipped(tmp_path / "export.zip"), "longer than 10 bytes")
    monkeypatch.undo()
    monkeypatch.setattr(verifying, "MOST_FILES", 2)
    refused(zipped(tmp_path / "export.zip"), "more than 2 files")


def test_a_zip_that_lies_about_a_length_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both lengths of the big file are written as 5; what counts is what comes out."""
    monkeypatch.setattr(verifying, "LONGEST_FILE_BYTES", 10_000)
    path = zipped(tmp_path / "export.zip", {"record.ndjson": b"{}", "big": b"\0" * 50_000})
    content = path.read_bytes().replace(struct.pack("<I", 50_000), struct.pack("<I", 5))
    path.write_bytes(content)
    refused(path, "cannot be read|longer than")


def test_two_files_of_one_name_and_packing_of_another_kind_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "export.zip"
    with pytest.warns(UserWarning, match="Duplicate name"), ZipFile(path, "w") as made:
        made.writestr("record.ndjson", RECORD)
        made.writestr("record.ndjson", b"")
    refused(path, "one name")
    refused(zipped(path, packed=ZIP_BZIP2), "packed in a way")
    encrypted = bytearray(zipped(path).read_bytes())
    encrypted[encrypted.index(b"PK\x01\x02") + 8] |= 1
    path.write_bytes(encrypted)
    refused(path, "encrypted")


def test_what_holds_no_record_is_refused(tmp_path: Path) -> None:
    refused(zipped(tmp_path / "empty.zip", {}), "no record in this zip")
    (tmp_path / "folder").mkdir()
    refused(tmp_path / "folder", "no record in this folder")
    refused(tmp_path / "nowhere", "no such file")


def test_keys_and_certificates_that_are_none_are_refused(folder: Path) -> None:
    with pytest.raises(FaultsFound, match="no public key"):
        verify_record(folder, ["AAAA"])
    with pytest.raises(FaultsFound, match="no certificate"):
        verify_record(folder, [], [folder / "record.ndjson"])


def mutated(change: Callable[[bytearray], None]) -> bytes:
    made = BytesIO()
    with ZipFile(made, "w", ZIP_DEFLATED) as opened:
        for name, content in FILES.items():
            opened.writestr(ZipInfo(name), content, ZIP_DEFLATED)
    whole = bytearray(made.getvalue())
    change(whole)
    return bytes(whole)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.integers(0, 10**6), st.integers(1, 255), st.integers(0, 40))
def test_no_byte_of_a_zip_that_flips_makes_the_reader_stumble(tmp_path: Path, place: int, flip: int, tail: int) -> None:
    def change(whole: bytearray) -> None:
        near_the_end = len(whole) - 1 - place % 400  # the directory stands there
        whole[near_the_end if tail % 2 else place % len(whole)] ^= flip
        if tail > 30:
            del whole[len(whole) - tail :]

    path = tmp_path / "export.zip"
    path.write_bytes(mutated(change))
    try:
        report = verify_record(path, sorted(WHOLE.keys))
    except FaultsFound as told:
        assert told.faults
    else:  # names, times and flags may flip; what was recorded may not
        assert report.word != "pass"


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=300))
def test_no_bytes_behind_the_mark_of_a_zip_make_it_stumble(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "export.zip"
    path.write_bytes(b"PK\x03\x04" + content)
    with pytest.raises(FaultsFound):
        verify_record(path)


def test_the_sum_of_a_file_in_a_zip_is_held(tmp_path: Path) -> None:
    path = zipped(tmp_path / "export.zip", packed=ZIP_STORED)
    assert zlib.crc32(PHOTO)
    path.write_bytes(path.read_bytes().replace(PHOTO, PHOTO[:-1] + b"!"))
    refused(path, "cannot be read")


def test_it_is_the_record_of_the_whole_day() -> None:
    assert isinstance(WHOLE, Whole) and len(WHOLE.lines) > 20
