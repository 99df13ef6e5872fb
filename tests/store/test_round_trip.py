"""A job goes from a folder to SQLite to PostgreSQL and back into a folder: to the byte, and nothing else goes along."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from kept import KEYED, Kept, send, sha
from made_logs import JOB, LATER, NOW, A, B, line, log

from postgresql import Server
from standfast.foreman.keeping import bring_in, copy, hand_out, line_of, told
from standfast.store.database import Database, open_store
from standfast.store.folder import LOCK, Folder
from standfast.store.interface import Device, Person, Revision, StoreError

TEXT = b'\xef\xbb\xbf# \xc3\xa9\r\n[job]\nname = "Round trip (invented)"\nrevision = "A"\r\n'
PHOTO = b"\xff\xd8\xff" + bytes(range(256)) * 2000
CARD = b'{"salt":"1","name":"Invented Person"}'
SECRETS = ("argon-of-a-password", "token-of-a-tablet", "key-of-a-tablet", "text-of-a-session", "Account Holder")


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A folder as a person has it, with a byte order mark, two kinds of line ends, and files beside it."""
    path = tmp_path / "job"
    for name, content in {
        "job.toml": TEXT,
        "sheets/unit.toml": b'id = "unit"\r\n',
        "documents/Brief an Stra\u00dfe.pdf": bytes(range(256)) * 3,
        "documents/empty.txt": b"",
        "documents/.hidden": b"not ours",
        "out/permit-set.pdf": b"derived",
        "notes.txt": b"the owner's own",
    }.items():
        (path / name).parent.mkdir(parents=True, exist_ok=True)
        (path / name).write_bytes(content)
    return path


@pytest.fixture
def lite(tmp_path: Path) -> Iterator[Database]:
    store = open_store(f"sqlite:///{tmp_path}/firm.db", KEYED)
    yield store
    store.close()


def seen(path: Path) -> dict[str, bytes]:
    """All files of a job's folder that are part of the job."""
    ours = ("out", "notes.txt", LOCK)
    found = {each.relative_to(path).as_posix(): each.read_bytes() for each in sorted(path.rglob("*")) if each.is_file()}
    return {name: content for name, content in found.items() if name.partition("/")[0] not in ours and "/." not in name}


def worked_on(path: Path) -> None:
    """What a day on site adds to a job that was imported: events with a fork and a gap, a photo, a card, an erasure."""
    folder = Folder(path, line_of)
    id = folder.id
    folder.append(id, [*log(A, 4), line(B, 3), line(A, 2, note="other")], NOW)
    for content in (PHOTO, CARD):
        send(folder, content, 100_000, job=id)
    folder.close()


def test_to_the_byte_through_both_databases_and_back(
    job: Path, lite: Database, postgresql: Server, made: str, tmp_path: Path
) -> None:
    bring_in(job, lite, NOW)
    worked_on(job)
    (job / "sheets" / "unit.toml").write_bytes(b'id = "unit"\nchanged = 1\n')
    (job / "documents" / "empty.txt").unlink()
    moved = bring_in(job, lite, LATER)
    assert moved[2:] == (1, 5, 3, 1), "a revision, events, files, a fork"
    post = open_store(postgresql.database(made), KEYED)
    assert copy(lite, post, moved.job, LATER)[2:] == (2, 5, 6, 1)
    back = tmp_path / "back"
    assert hand_out(moved.job[:8].upper(), back, post, LATER)[2:] == (2, 5, 6, 1)
    assert seen(back) == seen(job)
    assert seen(job)["job.toml"] == TEXT
    parts = ("record.ndjson", "quarantine.ndjson", f"photos/{sha(PHOTO)}.jpg", f"private/{sha(CARD)}")
    assert set(parts) <= set(seen(back))
    assert moved.title == "Round trip (invented)"
    for store in (lite, post):
        assert list(store.events(moved.job)) == [*log(A, 4), line(B, 3)]
        assert store.job(moved.job, 1).files.keys() > store.job(moved.job, 2).files.keys()
    post.close()


def test_again_adds_nothing(job: Path, lite: Database, tmp_path: Path) -> None:
    bring_in(job, lite, NOW)
    worked_on(job)
    first = bring_in(job, lite, NOW)
    hand_out(first.job, tmp_path / "back", lite, NOW)
    before = seen(job), seen(tmp_path / "back")
    for _ in range(2):
        assert bring_in(job, lite, LATER)[2:5] == (0, 0, 0)
        assert bring_in(tmp_path / "back", lite, LATER)[2:5] == (0, 0, 0)
        assert hand_out(first.job, job, lite, LATER)[2:5] == (0, 0, 0)
        assert hand_out(first.job, tmp_path / "back", lite, LATER)[2:5] == (0, 0, 0)
    assert before == (seen(job), seen(tmp_path / "back"))
    assert "nothing new" in told(bring_in(job / "job.toml", lite, LATER))


@pytest.mark.parametrize("at", [1, 3, 5, 6, 7, 8, 9, 12])
def test_an_import_that_broke_off_is_done_again_from_where_it_stood(
    job: Path, lite: Database, at: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = open_store(f"sqlite:///{job.parent}/first.db", KEYED)
    bring_in(job, other, NOW)
    other.close()
    worked_on(job)
    left = at

    def breaks(real: Callable[..., object]) -> Callable[..., object]:
        def call(*arguments: object, **named: object) -> object:
            nonlocal left
            left -= 1
            if left == 0:
                raise ConnectionError
            return real(*arguments, **named)

        return call

    with monkeypatch.context() as patch:
        for name in ("save", "append", "write"):
            patch.setattr(lite, name, breaks(getattr(lite, name)))
        try:
            bring_in(job, lite, NOW)
        except ConnectionError:
            pass
        else:
            assert at > 8, "there are so many writes at least"
    moved = bring_in(job, lite, NOW)
    hand_out(moved.job, job.parent / "back", lite, NOW)
    assert seen(job.parent / "back") == seen(job)


def test_a_job_that_was_changed_on_both_sides_is_told_and_left(job: Path, lite: Database, tmp_path: Path) -> None:
    first = bring_in(job, lite, NOW)
    hand_out(first.job, tmp_path / "other", lite, NOW)
    for path, text in ((job, b"here"), (tmp_path / "other", b"there")):
        (path / "job.toml").write_bytes(TEXT + b"# " + text)
    bring_in(job, lite, NOW)
    before = [each.text for each in lite.revisions(first.job)]
    with pytest.raises(StoreError, match="the job has gone two ways: revision 2 there is another one"):
        bring_in(tmp_path / "other", lite, LATER)
    with pytest.raises(StoreError, match="the job has gone two ways"):
        hand_out(first.job, tmp_path / "other", lite, LATER)
    assert [each.text for each in lite.revisions(first.job)] == before


def test_what_was_changed_by_hand_is_not_written_over(job: Path, lite: Database) -> None:
    first = bring_in(job, lite, NOW)
    lite.save(first.job, first.title, Revision(0, "B", TEXT.decode() + "# office\n", LATER, "office"))
    (job / "sheets" / "unit.toml").write_bytes(b"by hand")
    with pytest.raises(StoreError, match=r"sheets/unit\.toml was changed by hand"):
        hand_out(first.job, job, lite, LATER)
    assert (job / "job.toml").read_bytes() == TEXT
    assert (job / "sheets" / "unit.toml").read_bytes() == b"by hand"


def test_an_export_is_mixed_with_nothing_else(job: Path, lite: Database, tmp_path: Path) -> None:
    first = bring_in(job, lite, NOW)
    other = tmp_path / "other"
    other.mkdir()
    (other / "mine.txt").write_text("mine")
    with pytest.raises(StoreError, match="something else is in this folder"):
        hand_out(first.job, other, lite, NOW)
    assert [each.name for each in other.iterdir()] == ["mine.txt"]
    with Kept("folder", tmp_path / "third") as kept:
        kept.with_job()
    with pytest.raises(StoreError, match=f"this folder holds job {JOB}"):
        hand_out(first.job, tmp_path / "third" / "job", lite, NOW)
    for words in ("", "nope", "0" * 8):
        with pytest.raises(StoreError, match="0 jobs have the id"):
            hand_out(words, tmp_path / "new", lite, NOW)
    assert not (tmp_path / "new").exists()


def test_accounts_keys_and_sessions_never_leave(job: Path, lite: Database, tmp_path: Path) -> None:
    first = bring_in(job, lite, NOW)
    worked_on(job)
    bring_in(job, lite, NOW)
    password, token, key, session, name = SECRETS
    lite.keep_person(Person("p-1", name, "office", password))
    lite.keep_device(Device(A, "Van", key, token, NOW))
    lite.put("session", "hash-of-a-session", session)
    hand_out(first.job, tmp_path / "back", lite, NOW)
    database = b"".join(each.read_bytes() for each in tmp_path.glob("firm.db*"))
    files = [each for each in (tmp_path / "back").rglob("*") if each.is_file()]
    exported = b"".join(each.read_bytes() + str(each).encode() for each in files)
    assert len(files) > 10
    for secret in (*SECRETS, "hash-of-a-session", "p-1"):
        assert secret.encode() in database, "the search finds what is there"
        assert secret.encode() not in exported
    assert KEYED["STANDFAST_KEY"].encode() not in exported


def test_a_folder_that_is_no_job_and_a_text_that_is_none(tmp_path: Path, lite: Database) -> None:
    from standfast.faults import FaultsFound

    with pytest.raises(FaultsFound, match="there is no such file"):
        bring_in(tmp_path / "none", lite, NOW)
    (tmp_path / "bad").mkdir()
    (tmp_path / "bad" / "job.toml").write_bytes(b"\xff")
    with pytest.raises(FaultsFound, match="no UTF-8 text"):
        bring_in(tmp_path / "bad", lite, NOW)
    assert [each.name for each in (tmp_path / "bad").iterdir()] == ["job.toml"]
    # One with faults is a job all the same, and has its folder's name.
    (tmp_path / "bad" / "job.toml").write_bytes(b"[job\nname = ")
    assert bring_in(tmp_path / "bad", lite, NOW).title == "bad"


def test_what_was_erased_stays_erased(job: Path, lite: Database, tmp_path: Path) -> None:
    """A folder that still has the photos brings none of them back."""
    first = bring_in(job, lite, NOW)
    worked_on(job)
    bring_in(job, lite, NOW)
    lite.erase(first.job, LATER)
    assert bring_in(job, lite, LATER).files == 0
    assert lite.file(first.job, sha(PHOTO)) is None
    hand_out(first.job, tmp_path / "back", lite, LATER)
    assert not [each for each in (tmp_path / "back").rglob("*") if sha(PHOTO) in each.name]
