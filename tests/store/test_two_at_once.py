"""Two programs at one database at a time; and one at a folder."""

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from kept import Kept, send, sha
from made_logs import FIRST_REVISION, JOB, LATER, NOW, A, B, line, log

from standfast.foreman.keeping import line_of
from standfast.store.database import open_store
from standfast.store.folder import Folder
from standfast.store.interface import Revision, StoreError, WrongOffset

PHOTO = b"\xff\xd8\xff" + bytes(range(256)) * 20
BOTH = """
import sys
from made_logs import *
from kept import KEYED, send
from standfast.store.database import open_store
from standfast.store.interface import Revision, WrongOffset
me, url = sys.argv[1:]
store = open_store(url, KEYED)
print("ready", flush=True)
sys.stdin.readline()
new, forks, numbers, took = 0, 0, [], []
own = log(A if me == "0" else B, 40)
for seq in range(1, 41):
    # One place that both want, with another text each; and one of the own log.
    taken = store.append(JOB, [line(C, seq, note=me), own[seq - 1]], NOW)
    new, forks = new + taken.new, forks + len(taken.forks)
    if seq % 8 == 0:
        numbers.append(store.save(JOB, me, Revision(0, "x", f"{me} {seq}", NOW, me)).number)
    took.append(store.take("code", str(seq), NOW))
print(new, forks, numbers, [each for each in took if each])
"""


def together(base: Kept) -> list[str]:
    """Two programs that do the same at the same time; what each printed."""
    here = Path(__file__).parent
    call = [sys.executable, "-c", f"import sys\nsys.path[:0] = [{str(here)!r}, {str(here.parent)!r}]\n{BOTH}"]
    both = [
        subprocess.Popen([*call, str(me), base.url], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        for me in (0, 1)
    ]
    for each in both:
        assert each.stdout is not None and each.stdout.readline() == "ready\n"
    for each in both:
        assert each.stdin is not None
        each.stdin.write("\n")
        each.stdin.flush()
    told = [each.communicate(timeout=120)[0] for each in both]
    assert [each.returncode for each in both] == [0, 0]
    return told


def test_of_two_texts_for_one_place_one_is_kept_whoever_brings_them(base: Kept) -> None:
    store = base.with_job()
    for seq in range(1, 41):
        base.database.put("code", str(seq), f"code {seq}")
    told = [each.split(" ", 2) for each in together(base)]
    assert sum(int(each[0]) for each in told) == 40 + 40 + 40
    assert sum(int(each[1]) for each in told) == 40
    assert len(store.events(JOB)) == 120
    assert len(store.quarantine(JOB)) == 40
    kept = {each[:2]: each.hash for each in store.events(JOB)}
    assert all(kept[each.dev, each.seq] == each.kept != each.other for each in store.forks(JOB))
    assert set(store.acked(JOB).values()) == {40}
    assert [each.number for each in store.revisions(JOB)] == list(range(1, 12))
    assert sorted({each.text for each in store.revisions(JOB)} - {FIRST_REVISION.text}) == sorted(
        f"{me} {seq}" for me in (0, 1) for seq in range(8, 41, 8)
    )
    # Of each code one of the two got it.
    assert sum(each[2].count("code") for each in told) == 40
    assert list(base.database.keys("code", NOW)) == []


def test_of_many_threads_one_takes_a_code(base: Kept) -> None:
    store = base.database
    for number in range(20):
        store.put("code", str(number), f"code {number}")
    with ThreadPoolExecutor(8) as pool:
        took = list(pool.map(lambda at: store.take("code", str(at % 20), NOW), range(160)))
    assert sorted(each for each in took if each) == sorted(f"code {number}" for number in range(20))


def test_many_threads_send_photos_of_one_job(base: Kept) -> None:
    """The key of the job is made once; of two who send one photo each goes on or is told where."""
    store = base.with_job()
    photos = [PHOTO + bytes([number]) for number in range(12)]
    with ThreadPoolExecutor(6) as pool:
        list(pool.map(lambda content: send(store, content, piece=2000), photos))
    assert all(store.file(JOB, sha(each)) == each for each in photos)


def test_erasing_while_photos_come_leaves_none_that_cannot_be_read(base: Kept) -> None:
    store = base.with_job()
    photos = [PHOTO + bytes([number]) for number in range(12)]

    def bring(content: bytes) -> None:
        while True:
            try:
                send(store, content, piece=2000)
                return
            except WrongOffset:
                continue  # it was taken away half: once more from where it stands now

    with ThreadPoolExecutor(4) as pool:
        done = pool.map(bring, photos)
        erased: set[str] = set()
        for _ in range(3):
            try:
                erased = set(store.erase(JOB, LATER))
            except StoreError as error:
                assert "log" in str(error), "only that older pages were in use"
        list(done)
    for each in photos:
        assert store.file(JOB, sha(each)) == (None if sha(each) in erased else each)


def test_many_open_a_new_database_at_once(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path}/new.db"
    with ThreadPoolExecutor(6) as pool:
        stores = list(pool.map(lambda _: open_store(url, {}), range(6)))
    stores[0].save(JOB, "x", FIRST_REVISION)
    send(stores[1], PHOTO)
    assert all(each.file(JOB, sha(PHOTO)) == PHOTO for each in stores), "one master key"
    for each in stores:
        each.close()


def test_a_folder_is_open_once(tmp_path: Path) -> None:
    with Kept("folder", tmp_path) as kept:
        with pytest.raises(StoreError, match="another program has this folder open"):
            Folder(kept.path, line_of)
        kept.with_job().append(JOB, log(A, 1), NOW)
    again = Folder(kept.path, line_of)
    assert list(again.events(JOB)) == log(A, 1)
    again.close()


def test_what_is_read_is_one_state(base: Kept) -> None:
    """A reader that began before a writer does not see half of what it wrote."""
    store = base.with_job()
    revision = Revision(0, "B", "two", LATER, "x")
    with base.database._link.read() as db:
        before = base.database._read(db, JOB)
        other = base.open()
        other.save(JOB, "x", revision)
        other.append(JOB, [line(B, 1)], NOW)
        other.close()
        assert base.database._read(db, JOB) == before
    assert len(store.revisions(JOB)) == 2


def test_more_ask_than_there_are_connections(base: Kept) -> None:
    """None is turned away: who finds no connection waits for one."""
    store = base.with_job()
    with ThreadPoolExecutor(80) as pool:
        told = list(pool.map(lambda seq: store.append(JOB, [line(A, seq)], NOW).new, range(1, 161)))
    assert told == [1] * 160
    assert store.acked(JOB) == {A: 160}
