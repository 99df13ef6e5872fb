"""A full disk: what was there stays, nothing of the new is there half, and the refusal says what to do.

Root mounts a small disk in memory. For everybody the database is given a limit of its own, and the calls of a folder
are refused one by one.
"""

import contextlib
import errno
import os
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from kept import KEYED, Kept, send, sha
from made_logs import FIRST_REVISION, JOB, LATER, NOW, A, line, log
from sqlalchemy import Engine, event

from standfast.foreman.keeping import line_of
from standfast.store.database import open_store
from standfast.store.folder import Folder
from standfast.store.interface import Revision, StoreError

SMALL = 600_000
PHOTO = b"\xff\xd8\xff" + bytes(range(256)) * 1000
BIG = b"\xff\xd8\xff" + bytes(range(255, -1, -1)) * 4000
LINES = log(A, 3)


@contextlib.contextmanager
def small(folder: Path) -> Iterator[None]:
    """A disk that has `SMALL` bytes in all; the test is left out where it may not be mounted."""
    if os.name != "posix" or os.geteuid() != 0:
        pytest.skip("only root mounts a disk; the other tests here fill one otherwise")
    call = ["mount", "-t", "tmpfs", "-o", f"size={SMALL},mode=700", "tmpfs", folder]
    if subprocess.run(call, check=False, capture_output=True).returncode:
        pytest.skip("no disk may be mounted here; the other tests here fill one otherwise")
    try:
        yield
    finally:
        subprocess.run(["umount", "-l", folder], check=True)


def look(store: Any) -> None:
    """What was there before the disk was full, and nothing else."""
    assert [each.text for each in store.revisions(JOB)] == [FIRST_REVISION.text]
    assert list(store.events(JOB)) == LINES
    assert list(store.files(JOB)) == [sha(PHOTO)]
    assert store.file(JOB, sha(PHOTO)) == PHOTO


def fill(store: Any) -> None:
    store.save(JOB, "x", FIRST_REVISION)
    store.append(JOB, LINES, NOW)
    send(store, PHOTO, 65536)
    look(store)


def test_a_folder_on_a_full_disk(tmp_path: Path) -> None:
    with small(tmp_path):
        path = tmp_path / "job"
        folder = Folder(path, line_of, new=JOB)
        fill(folder)
        with pytest.raises(StoreError, match="the disk did not take it") as told:
            send(folder, BIG, 65536)
        assert "make room" in told.value.todo
        stood = folder.upload(JOB, sha(BIG))
        assert stood is not None and not stood.done and stood.offset % 65536 == 0, "whole pieces"
        ballast = path / "ballast"
        with contextlib.suppress(OSError), ballast.open("wb", buffering=0) as file:
            while True:
                file.write(bytes(1 << 12))
        many = [line(A, seq, note="x" * 60_000) for seq in range(4, 16)]
        record = (path / "record.ndjson").read_bytes()
        with pytest.raises(StoreError, match="the disk did not take it"):
            folder.append(JOB, [*many, line(A, 2, note="other")], LATER)
        assert (path / "record.ndjson").read_bytes() == record
        with pytest.raises(StoreError, match="the disk did not take it"):
            folder.save(JOB, "x", Revision(0, "B", "x" * SMALL, LATER, "office"))
        assert (path / "job.toml").read_bytes() == FIRST_REVISION.text.encode()
        look(folder)
        folder.close()
        folder = Folder(path, line_of)
        look(folder)
        assert list(folder.quarantine(JOB)) == []
        # With room again the same is done, from where it stood.
        ballast.unlink()
        for each in (path / "private").glob(".*"):
            each.unlink()
        assert folder.append(JOB, many[:3], LATER).acked == {A: 6}
        folder.close()


def test_a_file_of_a_database_on_a_full_disk(tmp_path: Path) -> None:
    with small(tmp_path):
        store = open_store(f"sqlite:///{tmp_path}/firm.db", KEYED)
        fill(store)
        with pytest.raises(StoreError, match="make room"):
            for _ in range(3):
                send(store, BIG, 65536)
        stood = store.upload(JOB, sha(BIG))
        assert stood is None or (not stood.done and stood.offset % 65536 == 0)
        with pytest.raises(StoreError, match="make room"):
            store.append(JOB, [line(A, seq, note="x" * 60_000) for seq in range(4, 16)], LATER)
        with pytest.raises(StoreError, match="make room"):
            store.save(JOB, "x", Revision(0, "B", "x" * SMALL, LATER, "office"))
        look(store)
        store.close()
        store = open_store(f"sqlite:///{tmp_path}/firm.db", KEYED)
        look(store)
        store.close()


def test_a_database_that_may_not_grow(tmp_path: Path) -> None:
    """The same by SQLite's own limit, without a disk."""
    store = open_store(f"sqlite:///{tmp_path}/firm.db", KEYED)
    fill(store)
    store.close()

    def limit(connection: Any, _record: object) -> None:
        connection.execute("PRAGMA max_page_count=200")

    event.listen(Engine, "connect", limit)
    try:
        with pytest.raises(StoreError, match=r"is full.*make room"):
            send(store, BIG, 65536)
        with pytest.raises(StoreError, match=r"is full.*make room"):
            store.save(JOB, "x", Revision(0, "B", "x" * 10 * SMALL, LATER, "office"))
        look(store)
    finally:
        event.remove(Engine, "connect", limit)
        store.close()
    send(store, BIG, 65536)
    assert store.file(JOB, sha(BIG)) == BIG
    store.close()


@pytest.mark.parametrize("call", ["write", "fsync", "replace", "ftruncate"])
def test_a_folder_whose_disk_refuses_a_call(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str) -> None:
    """Whichever call is refused: the same answer, and the store goes on as if nothing had been asked."""
    with Kept("folder", tmp_path) as kept:
        fill(kept.store)
        for ask in asks(kept):
            with monkeypatch.context() as patch:
                patch.setattr(os, call, refuse)
                try:
                    ask()
                except StoreError as error:
                    assert "make room" in error.todo
                else:
                    assert call == "replace", "only appending does without"
                    continue
            look(kept.again())
        assert kept.store.append(JOB, [line(A, 4)], LATER).new == (0 if call == "replace" else 1)


def asks(kept: Kept) -> list[Callable[[], object]]:
    return [
        lambda: kept.store.save(JOB, "x", FIRST_REVISION._replace(text="other")),
        lambda: kept.store.write(JOB, sha(BIG), 0, len(BIG), BIG[:100]),
        lambda: kept.store.append(JOB, [line(A, 4)], NOW),
    ]


def refuse(*_arguments: object, **_named: object) -> Any:
    raise OSError(errno.ENOSPC, "No space left on device")
