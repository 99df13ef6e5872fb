"""What every store does, asked of each kind: a folder, SQLite, PostgreSQL."""

from random import Random

import pytest
from kept import Kept, send, sha
from made_logs import FIRST_REVISION, JOB, LATER, NOW, OTHER, A, B, line, log

from standfast.store.interface import Fork, Line, Revision, StoredJob, StoreError, Upload, WrongHash, WrongOffset

PHOTO = b"\xff\xd8\xff\xe0" + Random(1).randbytes(5000)
CARD = b'{"salt":"x","name":"Invented Person"}'
PAPER = b"a data sheet\r\n"
TITLE = "Straße – invented"


def test_there_is_nothing_at_first(kept: Kept) -> None:
    assert list(kept.store.jobs()) == []
    for ask in (kept.store.job, kept.store.revisions, kept.store.events, kept.store.acked, kept.store.forks):
        with pytest.raises(StoreError, match=f"there is no job {JOB}"):
            ask(JOB)  # type: ignore[operator]
    with pytest.raises(StoreError, match="there is no job"):
        kept.store.append(JOB, log(A, 1), NOW)


def test_revisions_are_kept_to_the_byte_and_counted(kept: Kept) -> None:
    first = kept.store.save(JOB, TITLE, FIRST_REVISION)
    assert first == FIRST_REVISION._replace(number=1)
    assert kept.store.save(JOB, TITLE, FIRST_REVISION._replace(saved=LATER)) == first, "the same text once more"
    second = kept.store.save(JOB, "Renamed", Revision(0, "B", "other text\n\n", LATER, "office"))
    assert second.number == 2
    store = kept.again()
    assert list(store.revisions(JOB)) == [first, second]
    assert (store.job(JOB), store.job(JOB, 1)) == (second, first)
    assert list(store.jobs()) == [StoredJob(JOB, "Renamed", 2, "B")]
    with pytest.raises(StoreError, match="no revision 3"):
        store.job(JOB, 3)


def test_the_text_before_may_come_back_as_a_revision_of_its_own(kept: Kept) -> None:
    store = kept.with_job()
    store.save(JOB, TITLE, FIRST_REVISION._replace(text="two"))
    assert store.save(JOB, TITLE, FIRST_REVISION).number == 3


def test_a_revision_comes_after_the_files_that_it_names(kept: Kept) -> None:
    revision = FIRST_REVISION._replace(files={"sheets/unit.toml": sha(PAPER)})
    with pytest.raises(StoreError, match=r"sheets/unit\.toml is not there"):
        kept.store.save(JOB, TITLE, revision)
    assert list(kept.store.jobs()) == []
    send(kept.store, PAPER, private=False)
    kept.store.save(JOB, TITLE, revision)
    store = kept.again()
    assert store.job(JOB).files == {"sheets/unit.toml": sha(PAPER)}
    # Other files with the same text are another revision.
    assert store.save(JOB, TITLE, FIRST_REVISION).number == 2


def test_no_revision_names_a_path_outside_or_in_the_way(kept: Kept) -> None:
    send(kept.store, PAPER, private=False)
    for path in (
        "", "/etc/passwd", "../up", "sheets/../../up", "a//b", "sheets/.hidden", "c:/x", "a\\b", "job.toml", "Photos/x",
        "record.ndjson", "revisions/0001.toml", "a\nb", "x" * 300, "out/x", ".", "a/", "\ud800",
    ):  # fmt: skip
        with pytest.raises(StoreError, match=r"path|in the way"):
            kept.store.save(JOB, TITLE, FIRST_REVISION._replace(files={path: sha(PAPER)}))


def test_no_id_and_no_name_is_a_path(kept: Kept) -> None:
    store = kept.with_job()
    for job in ("", "..", "../../x", JOB.upper(), JOB + "\n", "7c9e6679"):
        for ask in (store.revisions, store.events, store.files, lambda job: store.upload(job, sha(PHOTO))):
            with pytest.raises(StoreError, match="no id of a job"):
                ask(job)
    for name in ("", "../x", sha(PHOTO).upper(), sha(PHOTO)[:-1], sha(PHOTO) + "\n"):
        for tell in (store.upload, store.file, lambda job, sha: store.write(job, sha, 0, 1, b"x")):
            with pytest.raises(StoreError, match="names no file"):
                tell(JOB, name)


def test_events_are_kept_to_the_byte_in_the_order_of_their_arrival(kept: Kept) -> None:
    store = kept.with_job()
    a, b = log(A, 3, "ß\u2028 \x7f"), log(B, 2)
    assert store.append(JOB, [a[0], b[0], a[1]], NOW).acked == {A: 2, B: 1}
    assert store.append(JOB, [b[1], a[2]], NOW)._replace(forks=()) == (2, {A: 3, B: 2}, ())
    store = kept.again()
    assert list(store.events(JOB)) == [a[0], b[0], a[1], b[1], a[2]]
    assert list(store.events(JOB, limit=2)) == [a[0], b[0]]
    assert list(store.events(JOB, {A: 1}, 2)) == [b[0], a[1]]
    assert list(store.events(JOB, {A: 3, B: 1})) == [b[1]]
    assert list(store.events(JOB, {A: 2**60, B: 0})) == b
    assert list(store.events(JOB, {OTHER: 7, A: 3})) == b
    assert list(store.events(JOB, {A: 3, B: 2})) == []
    assert store.acked(JOB) == {A: 3, B: 2}


def test_what_is_there_already_changes_nothing(kept: Kept) -> None:
    store = kept.with_job()
    lines = log(A, 5)
    assert store.append(JOB, lines[:3], NOW).new == 3
    taken = store.append(JOB, [*reversed(lines), *lines], LATER)
    assert (taken.new, taken.acked, taken.forks) == (2, {A: 5}, ())
    assert store.append(JOB, [], LATER) == (0, {A: 5}, ())
    assert sorted(store.events(JOB)) == sorted(lines)


def test_a_gap_is_kept_and_not_acknowledged(kept: Kept) -> None:
    store = kept.with_job()
    lines = log(A, 6)
    assert store.append(JOB, [lines[1], lines[3]], NOW).acked == {A: 0}
    assert store.append(JOB, [lines[0]], NOW).acked == {A: 2}
    assert kept.again().append(JOB, [lines[5], lines[2]], NOW).acked == {A: 4}
    assert kept.store.append(JOB, [lines[4]], NOW).acked == {A: 6}


def test_a_second_text_for_a_place_stands_in_quarantine(kept: Kept) -> None:
    store = kept.with_job()
    lines, other, third = log(A, 3), line(A, 2, note="other"), line(A, 2, note="third")
    store.append(JOB, lines, NOW)
    fork = Fork(A, 2, lines[1].hash, other.hash)
    assert store.append(JOB, [other], LATER) == (0, {A: 3}, (fork,))
    assert store.append(JOB, [other], LATER).forks == (fork,), "told each time"
    store.append(JOB, [third, line(B, 1), line(B, 1, note="other")], LATER)
    store = kept.again()
    assert [each[:2] for each in store.forks(JOB)] == [(A, 2), (A, 2), (B, 1)]
    assert list(store.quarantine(JOB)) == [other, third, line(B, 1, note="other")]
    assert list(store.events(JOB)) == [*lines, line(B, 1)]
    assert store.acked(JOB) == {A: 3, B: 1}


def test_what_cannot_be_kept_to_the_byte_is_refused_whole(kept: Kept) -> None:
    store = kept.with_job()
    for raw, seq in (
        ("a\nb", 1), ("a\rb", 1), ("a\0b", 1), ("\ud800", 1), ("x", 0), ("x", 2**53 + 1), ("x", 10**30),
    ):  # fmt: skip
        with pytest.raises(StoreError, match="event"):
            store.append(JOB, [*log(A, 1), Line(B, seq, "0" * 64, raw)], NOW)
    assert list(store.events(JOB)) == []


@pytest.mark.parametrize("content", [PHOTO, CARD, b"x"])
def test_a_file_comes_in_pieces_and_goes_on_where_it_stood(kept: Kept, content: bytes) -> None:
    store, name = kept.with_job(), sha(content)
    assert store.upload(JOB, name) is None
    half = len(content) // 2
    if half:
        assert store.write(JOB, name, 0, len(content), content[:half]) == Upload(half, len(content), False)
        store = kept.again()
        assert store.upload(JOB, name) == Upload(half, len(content), False)
        assert store.file(JOB, name) is None
        assert list(store.files(JOB)) == []
        for wrong in (0, half + 1):
            with pytest.raises(WrongOffset) as told:
                store.write(JOB, name, wrong, len(content), content[half : half + 1][: len(content) - wrong])
            assert told.value.offset == half
    whole = Upload(len(content), len(content), True)
    assert store.write(JOB, name, half, len(content), content[half:]) == whole
    assert store.write(JOB, name, 0, len(content), content) == whole, "what is whole already stays"
    assert kept.again().file(JOB, name) == content
    assert list(kept.store.files(JOB)) == [name]


def test_an_empty_file_is_a_file(kept: Kept) -> None:
    store = kept.with_job()
    assert store.write(JOB, sha(b""), 0, 0, b"") == Upload(0, 0, True)
    assert kept.again().file(JOB, sha(b"")) == b""


def test_a_whole_with_another_hash_is_thrown_away(kept: Kept) -> None:
    store, name = kept.with_job(), sha(PHOTO)
    store.write(JOB, name, 0, len(PHOTO), PHOTO[:2000])
    with pytest.raises(WrongHash):
        store.write(JOB, name, 2000, len(PHOTO), bytes(len(PHOTO) - 2000))
    assert store.upload(JOB, name) is None
    send(store, PHOTO)
    assert kept.again().file(JOB, name) == PHOTO


def test_a_piece_beyond_the_end_and_another_length_are_refused(kept: Kept) -> None:
    store, name = kept.with_job(), sha(PHOTO)
    with pytest.raises(StoreError, match="beyond the end"):
        store.write(JOB, name, 0, 10, PHOTO)
    store.write(JOB, name, 0, len(PHOTO), PHOTO[:100])
    with pytest.raises(StoreError, match=r"length|bytes"):
        store.write(JOB, name, 100, len(PHOTO) + 1, PHOTO[100:200])
    assert store.upload(JOB, name) == Upload(100, len(PHOTO), False)


def test_private_files_and_those_of_the_job_are_kept_apart(kept: Kept) -> None:
    store = kept.with_job()
    send(store, PAPER, private=False)
    send(store, PHOTO)
    assert store.upload(JOB, sha(PAPER)) is None
    assert store.upload(JOB, sha(PHOTO), private=False) is None
    send(store, PAPER)
    assert list(store.files(JOB)) == sorted([sha(PAPER), sha(PHOTO)])
    assert list(store.files(JOB, private=True)) == sorted([sha(PAPER), sha(PHOTO)])
    assert list(store.files(JOB, private=False)) == [sha(PAPER)]
    with pytest.raises(StoreError, match="no job"):
        store.write(OTHER, sha(PHOTO), 0, len(PHOTO), PHOTO)


def test_how_much_room_private_files_take(kept: Kept) -> None:
    """What is begun takes the room of its whole: else many could be begun where there is room for one."""
    store = kept.with_job()
    assert store.held(JOB) == 0
    send(store, PAPER, private=False)
    send(store, PHOTO)
    send(store, PHOTO)
    store.write(JOB, sha(CARD), 0, len(CARD), CARD[:1])
    assert store.held(JOB) == kept.again().held(JOB) == len(PHOTO) + len(CARD)
    store = kept.again()
    store.write(JOB, sha(CARD), 1, len(CARD), CARD[1:])
    assert store.held(JOB) == len(PHOTO) + len(CARD)
    store.write(JOB, sha(b"half"), 0, 4, b"ha")
    store.erase(JOB, LATER)
    assert store.held(JOB) == kept.again().held(JOB) == 0


def test_erasing_takes_what_is_private_and_leaves_hashes(kept: Kept) -> None:
    store = kept.with_job()
    send(store, PAPER, private=False)
    for content in (PHOTO, CARD, PAPER):
        send(store, content)
    store.write(JOB, sha(b"half"), 0, 4, b"ha")
    lines = log(A, 2)
    store.append(JOB, lines, NOW)
    gone = sorted([sha(PHOTO), sha(CARD), sha(PAPER)])
    assert list(store.erase(JOB, LATER)) == gone
    assert list(store.erase(JOB, LATER)) == gone, "again, and the same answer"
    store = kept.again()
    assert [store.file(JOB, each) for each in (sha(PHOTO), sha(CARD))] == [None, None]
    assert store.file(JOB, sha(PAPER)) == PAPER, "that of the job itself stays"
    assert list(store.files(JOB, private=True)) == []
    assert store.upload(JOB, sha(PHOTO)) == Upload(len(PHOTO), len(PHOTO), True), "nobody sends it again"
    assert store.upload(JOB, sha(b"half")) is None
    with pytest.raises(StoreError, match="erased"):
        store.write(JOB, sha(PHOTO), 0, len(PHOTO), PHOTO)
    assert list(store.events(JOB)) == lines
    send(store, b"a later photo")
    assert store.file(JOB, sha(b"a later photo")) == b"a later photo"
    assert list(kept.again().erase(JOB, LATER)) == sorted([*gone, sha(b"a later photo")])
