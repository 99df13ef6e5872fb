"""A PostgreSQL server that crashes and comes back: what was acknowledged is there, and nobody has to open it again."""

import pytest
from kept import KEYED, send, sha
from made_logs import FIRST_REVISION, JOB, LATER, NOW, A, line, log
from sqlalchemy import text

from postgresql import server
from standfast.store.database import open_store
from standfast.store.interface import StoreError

PHOTO = b"\xff\xd8\xff" + bytes(range(256)) * 8


def test_a_server_that_crashes_and_comes_back() -> None:
    with server() as running:
        store = open_store(running.database(), KEYED)
        store.save(JOB, "x", FIRST_REVISION)
        store.append(JOB, log(A, 3), NOW)
        store.write(JOB, sha(PHOTO), 0, len(PHOTO), PHOTO[:1000])
        running.stop()
        for ask in (lambda: store.append(JOB, [line(A, 4)], NOW), store.jobs, lambda: store.take("code", "a", NOW)):
            with pytest.raises(StoreError, match="the database did not do it") as told:
                ask()
            assert "check that the database is there" in told.value.todo
        running.start()
        assert list(store.events(JOB)) == log(A, 3)
        assert store.append(JOB, [*log(A, 3), line(A, 4)], LATER).new == 1
        send(store, PHOTO)
        assert store.file(JOB, sha(PHOTO)) == PHOTO
        store.close()


def test_commits_wait_for_the_disk_whatever_the_server_says() -> None:
    with server() as running:
        url = running.database()
        store = open_store(url, KEYED)
        with store._link.write() as db:
            name = db.execute(text("SELECT current_database()")).scalar_one()
        with store._link._engine.connect().execution_options(isolation_level="AUTOCOMMIT") as db:
            db.execute(text(f"ALTER DATABASE {name} SET synchronous_commit = off"))
        store.close()
        store = open_store(url, KEYED)
        with store._link.read() as db:
            assert db.execute(text("SHOW synchronous_commit")).scalar_one() == "on"
        store.close()
