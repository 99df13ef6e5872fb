"""The link to a database: SQLite or PostgreSQL, reading and writing in transactions, refusals told in plain words.

SQLite: write-ahead log, every commit on the disk before it is acknowledged, foreign keys, one writer at a time that
others wait for, deleted content written over. PostgreSQL: commits on its disk, whatever the server's default is.
"""

import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from hashlib import sha256
from pathlib import Path
from threading import Lock
from typing import Any, cast

from sqlalchemy import Connection, CursorResult, Engine, Executable, create_engine, event, make_url, text
from sqlalchemy.engine import URL
from sqlalchemy.exc import ArgumentError, DBAPIError, TimeoutError

from standfast.store.interface import StoreError
from standfast.store.place import own_file

AT_ONCE = 50
"""Connections at most: as many as the threads of a server that ask at one time, and half of what PostgreSQL gives."""
WAIT_S = 20
"""So long a writer waits for another one."""
_KINDS = "sqlite:///PATH or postgresql+psycopg://USER@HOST/NAME"
_MARK = "standfast_writes"


class Link:
    """An open database.

    Args:
        url: which one; made where it is a SQLite file that is not there.

    Raises:
        StoreError: where it is none that can be opened.
    """

    def __init__(self, url: str) -> None:
        self.url = _url(url)
        self.where = self.url.render_as_string(hide_password=True)
        self.file = Path(cast(str, self.url.database)) if self.url.get_backend_name() == "sqlite" else None
        if self.file is not None:
            own_file(self.file)
        self._engine = _lite(self.url) if self.file is not None else _post(self.url)
        self._turn = Lock()

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A transaction that reads, and sees one state of the database throughout."""
        level = {"isolation_level": "REPEATABLE READ"} if self.file is None else {}
        with self._told(), self._engine.connect().execution_options(**level) as db, db.begin():
            yield db

    @contextmanager
    def write(self, *alone: str) -> Iterator[Connection]:
        """A transaction that writes: all of it, or nothing.

        Args:
            alone: names of what nobody else may write meanwhile. On SQLite nobody writes anything meanwhile.
        """
        # Threads that write to a file take turns here: SQLite itself lets them ask again and again, and some ask long.
        turn = self._turn if self.file is not None else nullcontext()
        with turn, self._told(), self._engine.connect().execution_options(**{_MARK: True}) as db, db.begin():
            if self.file is None:
                for name in alone:
                    number = int.from_bytes(sha256(name.encode()).digest()[:8], "big", signed=True)
                    db.execute(text("SELECT pg_advisory_xact_lock(:number)"), {"number": number})
            yield db

    def scrub(self, table: str) -> None:
        """Take what was deleted out of the files of the database too, as far as it lets us.

        Raises:
            StoreError: where another program keeps older pages in use.
        """
        with self._told(), self._engine.connect().execution_options(isolation_level="AUTOCOMMIT") as db:
            if self.file is None:
                db.execute(text(f"VACUUM FULL {table}"))
            elif db.execute(text("PRAGMA wal_checkpoint(TRUNCATE)")).scalar_one():
                why = "another program still reads older pages of this database"
                raise StoreError("it was deleted, but stands in the log", why, "end that one, do it again", self.where)

    def close(self) -> None:
        """Let go of every connection."""
        self._engine.dispose()

    @contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except DBAPIError as error:
            raise self._refused(error) from error
        except TimeoutError:
            raise StoreError("too many ask the database at one time", todo="ask again", where=self.where) from None

    def _refused(self, error: DBAPIError) -> StoreError:
        why = " ".join(str(error.orig).split())
        for word, todo in _TODO.items():
            if word in why:
                return StoreError(
                    "the database did not do it", why, f"{todo}; nothing of this was kept half", self.where
                )
        todo = "check that the database is there and lets us in; nothing of this was kept half"
        return StoreError("the database did not do it", why, todo, self.where)


_TODO = {
    "is full": "make room on the disk and do it again",
    "No space left": "make room on the disk of the database and do it again",
    "disk I/O error": "look at the disk: it is full, or it fails",
    "locked": "another program writes to it: wait until it is done",
    "readonly": "let us write to the file and its folder",
    "malformed": "put the database and its key back from the backup",
    "not a database": "name the database, or put it back from the backup",
    "permission denied": "let its user make tables, or name another one",
}
"""What to do, by a word of what the database says."""


def rows(db: Connection, statement: Executable, data: Any = None) -> int:
    """Run a statement and tell how many rows it met."""
    return cast("CursorResult[Any]", db.execute(statement, data)).rowcount


def _url(url: str) -> URL:
    try:
        found = make_url(url)
    except (ArgumentError, ValueError):
        raise StoreError("this is no address of a database", todo=f"write it as {_KINDS}") from None
    if found.drivername == "postgresql":
        found = found.set(drivername="postgresql+psycopg")
    if found.drivername == "sqlite" and found.database and found.database != ":memory:" and not found.query:
        return found
    if found.drivername == "postgresql+psycopg":
        return found
    raise StoreError(f"{found.drivername[:40]} is no database that is served", todo=f"write it as {_KINDS}")


def _post(url: URL) -> Engine:
    try:
        return create_engine(
            url, hide_parameters=True, pool_pre_ping=True, max_overflow=AT_ONCE - 5,
            connect_args={"options": "-c synchronous_commit=on"},
        )  # fmt: skip
    except ImportError:
        todo = 'install them: pip install "standfast[pg]"'
        raise StoreError("PostgreSQL needs libraries that are not installed", todo=todo) from None


def _lite(url: URL) -> Engine:
    engine = create_engine(
        url, hide_parameters=True, max_overflow=AT_ONCE - 5,
        connect_args={"timeout": WAIT_S, "isolation_level": None},
    )  # fmt: skip
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return engine


def _set_up(connection: sqlite3.Connection, _record: object) -> None:
    """Set a new connection up. Two that make one file at a time may meet in the first statement: one waits."""
    until = time.monotonic() + WAIT_S
    while True:
        try:
            connection.execute("PRAGMA journal_mode=WAL")
            break
        except sqlite3.OperationalError as error:
            if "locked" not in str(error) or time.monotonic() > until:
                raise
            time.sleep(0.05)
    for setting in ("synchronous=FULL", "foreign_keys=ON", "secure_delete=ON"):
        connection.execute(f"PRAGMA {setting}")


def _begin(db: Connection) -> None:
    """Begin by a word, since the library would begin only at the first change; who writes takes the lock at once."""
    options = db.get_execution_options()
    if options.get("isolation_level") != "AUTOCOMMIT":
        db.exec_driver_sql("BEGIN IMMEDIATE" if options.get(_MARK) else "BEGIN")
