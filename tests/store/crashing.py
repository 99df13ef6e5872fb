"""Kills a program that writes to a store between each two of its statements, and looks at what is left. Run by itself:

    python crashing.py work|make folder|sqlite|postgresql PATH-OR-URL

A child does the work and says through a pipe what was acknowledged. At its n-th point it kills itself with SIGKILL; a
point is before each statement of SQL and on both sides of each commit; of a folder before each call that changes a
disk, and after half of what should be written. Then the store is opened again: what was acknowledged has to be there,
nothing may be torn, and doing the work again has to add exactly the rest. Prints how many points there were.
"""

import os
import signal
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any
from uuid import UUID, uuid5

import made_logs
from kept import KEYED, send, sha
from made_logs import FIRST_REVISION, LATER, NOW, A, B, line, log

from standfast.foreman.keeping import line_of
from standfast.store.interface import Revision, Store

PAPER, PHOTO = b"a data sheet", b"\xff\xd8\xff" + bytes(range(256)) * 8
REVISIONS = (
    FIRST_REVISION._replace(files={"sheets/unit.toml": sha(PAPER)}),
    Revision(0, "B", "second\r\n", LATER, "office", {"documents/unit.txt": sha(PAPER)}),
)
LINES, OTHER, LATE = log(A, 5), line(A, 2, note="other"), log(B, 3)
BATCHES = ([*LINES[:3], LATE[2]], [OTHER, *LINES[3:], *LATE[:2]])
EVENTS = [*LINES[:3], LATE[2], *LINES[3:], *LATE[:2]]
STEPS = ("paper", "first", "events", "more events", "photo", "second", "erase")


def work(store: Store, job: str, acknowledge: Callable[[str], None], steps: tuple[str, ...] = STEPS) -> int:
    """All that a job is given, step by step; how many events were new."""
    new = 0
    for step in steps:
        match step:
            case "paper":
                send(store, PAPER, private=False, job=job)
            case "first" | "second":
                store.save(job, step, REVISIONS[step == "second"])
            case "events" | "more events":
                new += store.append(job, BATCHES[step == "more events"], NOW).new
            case "photo":
                send(store, PHOTO, 1100, job=job)
            case "erase":
                assert list(store.erase(job, LATER)) == [sha(PHOTO)]
        acknowledge(step)
    return new


class Killer:
    """Counts statements, and kills this program at one of them."""

    def __init__(self, at: int) -> None:
        self.left = at

    def __call__(self, *_arguments: object, **_named: object) -> None:
        if self.left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        self.left -= 1


def on_disk(kill: Killer) -> None:
    """Let every call that changes a disk be a point, and every write be one in its middle too."""
    for name in ("open", "fsync", "replace", "ftruncate", "truncate", "unlink", "mkdir"):
        setattr(os, name, before(getattr(os, name), kill))
    real = os.write

    def write(known: int, content: Any) -> int:
        kill()
        if kill.left == 0:
            real(known, bytes(content)[: len(content) // 2])
        kill()
        return real(known, content)

    os.write = write  # type: ignore[assignment]


def before(real: Callable[..., Any], kill: Killer) -> Callable[..., Any]:
    def call(*arguments: Any, **named: Any) -> Any:
        kill()
        return real(*arguments, **named)

    return call


def on_database(kill: Killer, kind: str) -> None:
    """Let every statement be a point, and both sides of every commit; of a server only statements that write, since
    to be killed before one that reads leaves the same there, and each point takes two connections."""
    from sqlalchemy import Engine, event
    from sqlalchemy.engine.default import DefaultDialect

    def before_statement(_db: Any, _cursor: Any, statement: str, *_more: Any) -> None:
        if kind == "sqlite" or not statement.lstrip().startswith("SELECT"):
            kill()

    event.listen(Engine, "before_cursor_execute", before_statement)
    real = DefaultDialect.do_commit

    def commit(self: DefaultDialect, connection: Any) -> None:
        kill()
        real(self, connection)
        kill()

    DefaultDialect.do_commit = commit  # type: ignore[method-assign]


@cache
def database(url: str) -> Store:
    """A database. Closed it has no connection, so that a child may have it; used again it makes new ones."""
    from standfast.store.database import open_store

    return open_store(url, KEYED)


def opened(kind: str, place: str, job: str) -> Store:
    if kind == "folder":
        from standfast.store.folder import Folder

        return Folder(Path(place) / job, line_of, new=job)
    return database(place)


def killed(kind: str, at: int, do: Callable[[Callable[[str], None]], None]) -> tuple[list[str], bool]:
    """Do something in a child that kills itself at a statement: what was acknowledged, and whether it was killed."""
    far, near = os.pipe()
    say = os.write
    child = os.fork()
    if not child:
        kill = Killer(at)
        on_disk(kill) if kind == "folder" else on_database(kill, kind)
        try:
            do(lambda step: say(near, f"{step}\n".encode()) and None)
        except BaseException:  # noqa: BLE001 - of a child: whatever it is, the parent has to hear of it
            sys.excepthook(*sys.exc_info())
            os._exit(1)
        os._exit(0)
    os.close(near)
    with os.fdopen(far) as pipe:
        told = pipe.read().splitlines()
    status = os.waitpid(child, 0)[1]
    if os.WIFSIGNALED(status):
        assert os.WTERMSIG(status) == signal.SIGKILL
        return told, True
    assert os.WEXITSTATUS(status) == 0, "the child failed by itself"
    return told, False


def crash_while_working(kind: str, place: str) -> int:
    at = 0
    if kind != "folder":
        database(place).close()
    while True:
        job = str(uuid5(UUID(made_logs.JOB), str(at)))

        def do(acknowledge: Callable[[str], None], job: str = job) -> None:
            work(opened(kind, place, job), job, acknowledge)

        told, died = killed(kind, at, do)
        store = opened(kind, place, job)
        look(store, job, told)
        there = len(store.events(job)) if list(store.jobs()) and known(store, job) else 0
        # Again: only what was not acknowledged, as one who was told nothing would.
        rest = tuple(step for step in STEPS if step not in told)
        assert work(store, job, lambda _step: None, rest) == len(EVENTS) - there, (at, told)
        look(store, job, list(STEPS))
        if kind == "folder":
            look_around(Path(place) / job)
        store.close()
        if not died:
            assert told == list(STEPS)
            return at
        at += 1


def look_around(folder: Path) -> None:
    """The newest revision stands at its place, and nothing is left over."""
    assert (folder / "job.toml").read_bytes() == REVISIONS[1].text.encode()
    assert (folder / "documents" / "unit.txt").read_bytes() == PAPER
    assert not (folder / "sheets" / "unit.toml").exists()
    assert not [each for each in folder.rglob("*.part") if each.parent.name not in ("revisions", folder.name)]
    assert (folder / "record.ndjson").read_bytes() == "".join(f"{each.raw}\n" for each in EVENTS).encode()


def known(store: Store, job: str) -> bool:
    return any(each.id == job for each in store.jobs())


def look(store: Store, job: str, told: list[str]) -> None:
    """What was acknowledged is there, and what is there is whole."""
    if not known(store, job):
        assert "first" not in told
        return
    revisions = store.revisions(job)
    assert [each._replace(number=0) for each in revisions] == list(REVISIONS[: len(revisions)])
    assert len(revisions) >= 1 + ("second" in told)
    for each in revisions:
        assert all(store.file(job, name) == PAPER for name in each.files.values())
    events = list(store.events(job))
    assert {*events} <= {*EVENTS} and len(events) == len({*events})
    assert events == EVENTS[: len(events)], "as they arrived"
    assert len(events) >= (4 if "events" in told else 0) + (4 if "more events" in told else 0)
    if "more events" in told:
        assert list(store.quarantine(job)) == [OTHER]
        assert store.acked(job) == {A: 5, B: 3}
    assert store.file(job, sha(PHOTO)) in (None, PHOTO)
    upload = store.upload(job, sha(PHOTO))
    if "photo" in told:
        assert upload is not None and upload.done
    if "erase" in told:
        assert store.file(job, sha(PHOTO)) is None
    elif "photo" in told and told[-1:] != ["second"]:
        assert store.file(job, sha(PHOTO)) == PHOTO


def crash_while_making(kind: str, place: str) -> int:
    """The tables are made by the first who opens a database: all of them, or none."""
    import alembic.command  # noqa: F401 - once, and not in each child

    at = 0
    while killed(kind, at, lambda _acknowledge: opened(kind, place, "").close())[1]:
        at += 1
    opened(kind, place, "").close()
    return at


if __name__ == "__main__":
    what, kind, place = sys.argv[1:]
    sys.stdout.write(f"{(crash_while_making if what == 'make' else crash_while_working)(kind, place)}\n")
