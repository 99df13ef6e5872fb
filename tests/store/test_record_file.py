"""record.ndjson, whatever a crash or a hand has left in it."""

import json
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kept import Kept, sha
from made_logs import FIRST_REVISION, JOB, NOW, A, B, line, log

from standfast.fieldwork.record.event import NotAnEvent
from standfast.foreman.keeping import line_of
from standfast.store.folder import Folder
from standfast.store.folder_files import FolderFiles
from standfast.store.folder_record import Record
from standfast.store.folder_revisions import FolderRevisions
from standfast.store.interface import Line, Revision, StoreError

LINES = log(A, 4)
RAW = [f"{each.raw}\n".encode() for each in LINES]


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A folder with a job and four events."""
    with Kept("folder", tmp_path) as kept:
        kept.with_job().append(JOB, LINES, NOW)
        assert (kept.path / "record.ndjson").read_bytes() == b"".join(RAW)
    return tmp_path / "job"


def events(path: Path) -> list[Line]:
    folder = Folder(path, line_of)
    try:
        return list(folder.events(JOB))
    finally:
        folder.close()


@pytest.mark.parametrize("left", [1, 10, len(RAW[3]) - 2])
def test_a_torn_last_line_is_put_aside_and_whole_ones_stay(job: Path, left: int) -> None:
    record = job / "record.ndjson"
    record.write_bytes(b"".join(RAW[:3]) + RAW[3][:left])
    assert events(job) == LINES[:3]
    assert record.read_bytes() == b"".join(RAW[:3])
    assert (job / "record.torn").read_bytes() == RAW[3][:left] + b"\n"
    folder = Folder(job, line_of)
    assert folder.append(JOB, LINES, NOW).new == 1, "bringing all of it again adds the rest"
    folder.close()
    assert record.read_bytes() == b"".join(RAW)


def test_a_whole_last_line_without_its_end_is_no_torn_one(job: Path) -> None:
    record = job / "record.ndjson"
    record.write_bytes(b"".join(RAW)[:-1])
    assert events(job) == LINES
    assert record.read_bytes() == b"".join(RAW)
    assert not (job / "record.torn").exists()


@pytest.mark.parametrize("spoiled", [b"{}\n", b"\n", b"\xff\xfe\n", b"null\n", RAW[1][:-9] + b"\n"])
def test_a_spoiled_line_before_the_last_is_told_and_nothing_is_changed(job: Path, spoiled: bytes) -> None:
    record = job / "record.ndjson"
    content = RAW[0] + spoiled + RAW[2]
    record.write_bytes(content)
    with pytest.raises(StoreError, match=r"record\.ndjson: line 2 is no event"):
        events(job)
    assert record.read_bytes() == content


def test_records_that_were_put_together_by_hand_are_read(job: Path) -> None:
    """Twice the same line is one event; another text for a place is a fork."""
    other = line(A, 2, note="other")
    (job / "record.ndjson").write_bytes(b"".join([*RAW, *RAW, f"{other.raw}\n".encode()]))
    folder = Folder(job, line_of)
    assert list(folder.events(JOB)) == LINES
    assert list(folder.quarantine(JOB)) == [other]
    folder.close()


def test_a_line_that_would_be_read_back_as_another_is_refused(job: Path) -> None:
    folder = Folder(job, line_of)
    for wrong in (LINES[0]._replace(dev=B), Line(B, 1, "0" * 64, "{}")):
        with pytest.raises(StoreError, match="is no event"):
            folder.append(JOB, [*log(B, 1, "good"), wrong._replace(seq=7)], NOW)
    assert list(folder.events(JOB)) == LINES
    folder.close()


CHUNK = st.one_of(st.sampled_from([*RAW, b"\n", b"{", b'"', b"\r\n", b"\0"]), st.binary(max_size=20))


@settings(max_examples=150)
@given(st.lists(CHUNK, max_size=8).map(b"".join))
def test_whatever_stands_in_the_file_it_is_read_or_refused_and_no_whole_line_is_lost(content: bytes) -> None:
    lines = content.split(b"\n")
    whole, tail = lines[:-1], lines[-1]
    disk: dict[str, bytes] = {"record.ndjson": content}
    found = read_with(disk)
    if found is None:
        assert any(not _sound(each) for each in whole)
        assert disk == {"record.ndjson": content}, "what cannot be read is left as it is"
        return
    assert all(_sound(each) for each in whole)
    kept = disk["record.ndjson"].split(b"\n")[:-1]
    assert kept == [*whole, *([tail] if _sound(tail) else [])]
    assert [each.raw.encode() for each in found] == list(dict.fromkeys(kept))


def _sound(raw: bytes) -> bool:
    try:
        line_of(raw.decode())
    except ValueError:
        return False
    return True


def read_with(disk: dict[str, bytes]) -> list[Line] | None:
    """Read a record whose files are in memory; None where it is refused."""
    with tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as name:
        for file, content in disk.items():
            (Path(name) / file).write_bytes(content)
        try:
            return list(Record(Path(name), line_of).events({}, None))
        except StoreError:
            return None
        finally:
            disk.update({each.name: each.read_bytes() for each in Path(name).iterdir()})


@pytest.mark.parametrize(
    ("name", "content"),
    [("revisions/0001.json", b"{"), ("revisions/0001.json", b"[]"), ("revisions/0001.json", b'{"text": 1, "title": 2}'),
     ("revisions/0001.toml", b"altered"), ("job.id", b"../up"), ("revisions/0001.json", b"\xff")],
)  # fmt: skip
def test_what_was_altered_by_hand_is_told(job: Path, name: str, content: bytes) -> None:
    (job / name).write_bytes(content)
    with pytest.raises(StoreError, match=r"altered|no id of a job"):
        events(job)


VALUES = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(), st.text(max_size=5), st.sampled_from([NOW, "0" * 64, "a/b"])),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=5), inner, max_size=3)),
    max_leaves=6,
)
WORDS = ("number", "revision", "text", "saved", "by", "files", "title", "more")


@settings(max_examples=150)
@given(st.dictionaries(st.sampled_from(WORDS), VALUES, max_size=3), st.sets(st.sampled_from(WORDS), max_size=2))
def test_whatever_is_told_of_a_revision_it_is_read_or_refused(put: dict[str, object], without: set[str]) -> None:
    told = {**GOOD, **put}
    for word in without:
        told.pop(word, None)
    found = read_revision(json.dumps(told).encode())
    if told == GOOD:
        assert found == FIRST_REVISION._replace(number=1)
    if found is not None:
        assert (found.text, found.number) == (FIRST_REVISION.text, 1)
        assert all(isinstance(each, str) for each in (found.revision, found.saved, found.by))


@pytest.mark.parametrize("content", [b"[" * 100_000, b"{", b"null", b'"x"', b"\xff", b"", b"1e999"])
def test_what_is_no_table_is_told(content: bytes) -> None:
    assert read_revision(content) is None


GOOD = {
    "number": 1, "revision": "A", "text": sha(FIRST_REVISION.text.encode()), "saved": NOW, "by": "office", "files": {},
    "title": "x",
}  # fmt: skip


def read_revision(content: bytes) -> Revision | None:
    """The revision that a file tells of; None where it is refused."""
    with tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as name:
        (Path(name) / "revisions").mkdir()
        (Path(name) / "revisions" / "0001.toml").write_bytes(FIRST_REVISION.text.encode())
        (Path(name) / "revisions" / "0001.json").write_bytes(content)
        try:
            return FolderRevisions(Path(name)).all()[0].revision
        except StoreError as error:
            assert error.what == "this revision was altered" or "path" in error.what or "names no file" in error.what
            return None


@settings(max_examples=100)
@given(st.lists(st.sampled_from(["0" * 64, "9" * 5000, "12", " ", "\n", NOW, "²", "x"]), max_size=12).map("".join))
def test_whatever_stands_in_the_list_of_what_was_erased(text: str) -> None:
    with tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as name:
        (Path(name) / "erased.txt").write_text(text, "utf-8")
        files = FolderFiles(Path(name))
        erased = files.erase(NOW)
        assert all(f"{each} " in text for each in erased)
        assert files.file("0" * 64) is None


def test_what_the_reader_refuses_is_no_event() -> None:
    """The tests above rest on it: an invented line is an event, a piece of it is none."""
    assert line_of(LINES[0].raw) == LINES[0]
    with pytest.raises(NotAnEvent):
        line_of(LINES[0].raw[:-1])
