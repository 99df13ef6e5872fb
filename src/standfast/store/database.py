"""A database as a store: SQLite in a file, or PostgreSQL by its address. One set of tables, one set of questions."""

from base64 import b64decode, b64encode
from collections.abc import Mapping
from hmac import compare_digest

from sqlalchemy import select

from standfast.store.at_rest import master_key, seal, unseal
from standfast.store.interface import StoreError
from standfast.store.link import Link
from standfast.store.rows_of_events import EventRows
from standfast.store.rows_of_files import FileRows
from standfast.store.rows_of_office import OfficeRows
from standfast.store.schema import bring_up
from standfast.store.tables import ABOUT

_MASTER = "master key"
_SIGN = b"standfast"


class Database(EventRows, FileRows, OfficeRows):
    """A database that is open: a `Store` and an `Office`. Threads may share it."""

    def __init__(self, link: Link, master: bytes) -> None:
        self._link, self._master = link, master

    def seal(self, about: str, plain: bytes) -> bytes:
        """Encrypt a small secret of the office; see `Office.seal`."""
        return seal(self._master, about, plain)

    def unseal(self, about: str, sealed: bytes) -> bytes:
        """What `seal` encrypted; see `Office.unseal`."""
        return unseal(self._master, about, sealed)

    def close(self) -> None:
        """Let go of files and connections."""
        self._link.close()


def open_store(url: str, environ: Mapping[str, str]) -> Database:
    """Open a database, and make or upgrade its tables.

    Args:
        url: ``sqlite:///PATH`` or ``postgresql+psycopg://USER@HOST/NAME``.
        environ: variables of the environment, for the master key: `at_rest.KEY`, `at_rest.KEY_FILE`.

    Raises:
        StoreError: where it cannot be opened, a newer version has made it, or the master key is not there or another.
    """
    link = Link(url)
    try:
        bring_up(link)
        return Database(link, _master(link, environ))
    except StoreError:
        link.close()
        raise


def _master(link: Link, environ: Mapping[str, str]) -> bytes:
    """The master key, found to be the one of this database. The first who opens it makes it so."""
    beside = None if link.file is None else link.file.with_name(link.file.name + ".key")
    with link.read() as db:
        sign = db.execute(select(ABOUT.c.value).where(ABOUT.c.name == _MASTER)).scalar()
    if sign is None:
        with link.write(_MASTER) as db:
            sign = db.execute(select(ABOUT.c.value).where(ABOUT.c.name == _MASTER)).scalar()
            if sign is None:
                key = master_key(environ, beside, fresh=True)
                sign = b64encode(seal(key, _MASTER, _SIGN)).decode()
                db.execute(ABOUT.insert().values(name=_MASTER, value=sign))
                return key
    key = master_key(environ, beside, fresh=False)
    try:
        right = compare_digest(unseal(key, _MASTER, b64decode(sign)), _SIGN)
    except StoreError:
        right = False
    if not right:
        todo = "give the key that was in use, or put database and key back from one backup"
        raise StoreError("the master key is not the one of this database", todo=todo, where=link.where)
    return key
