"""Every kind of store for the tests: a folder, SQLite, and PostgreSQL on a server that is thrown away."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from kept import KEYED, Kept, kinds
from sqlalchemy import make_url

from postgresql import Server, server
from standfast.store.database import open_store


@pytest.fixture(scope="session")
def postgresql() -> Iterator[Server]:
    """A PostgreSQL server, one for each process of the tests that needs one."""
    with server() as running:
        yield running


@pytest.fixture(scope="session")
def made(postgresql: Server) -> str:
    """Name of a database whose tables are made, to copy from."""
    url = postgresql.database()
    open_store(url, KEYED).close()
    return str(make_url(url).database)


@pytest.fixture(params=kinds)
def kept(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Kept]:
    """A store of each kind, which can be closed and opened again."""
    yield from _of(request, tmp_path)


@pytest.fixture(params=kinds[1:])
def base(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Kept]:
    """A database of each kind."""
    yield from _of(request, tmp_path)


def _of(request: pytest.FixtureRequest, folder: Path) -> Iterator[Kept]:
    url = ""
    if request.param == "postgresql":
        running: Server = request.getfixturevalue("postgresql")
        url = running.database(request.getfixturevalue("made"))
    with Kept(request.param, folder, url) as found:
        yield found
