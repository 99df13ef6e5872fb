"""A throw-away PostgreSQL server for tests: over a socket in a temporary folder, without a network, gone at the end."""

import contextlib
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest

USER = "app"
QUICK = "-c fsync=off -c full_page_writes=off -c max_connections=200 -c shared_buffers=64MB"
"""A server that is thrown away need not survive a power cut. That a commit is acknowledged late is left as it is."""


def program(name: str) -> Path:
    """A program of PostgreSQL, of the newest version that is installed; the test fails where there is none."""
    places = [Path(found).parent] if (found := shutil.which("initdb")) else []
    places += sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda each: float(each.parent.name), reverse=True)
    for each in places:
        if (each / name).is_file():
            return each / name
    pytest.fail(
        "PostgreSQL is not installed, and these tests need it: run .ci/needs, or install postgresql", pytrace=False
    )


ROOM_BYTES = 4_000_000_000
"""With so much memory to spare the server is in memory."""


class Server:
    """A server that runs. Root hands it to the user nobody, since it refuses to run as root."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._numbers = count(1)
        self._who = {"user": "nobody", "group": "nogroup", "extra_groups": []} if os.geteuid() == 0 else {}
        if self._who:
            shutil.chown(folder, "nobody", "nogroup")
        self._run("initdb", "-D", f"{folder}/data", "-U", USER, "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8", "-N")
        self.start()

    def start(self) -> None:
        """Start it, and wait until it answers."""
        options = f"-k {self.folder} -c listen_addresses='' {QUICK}"
        self._run("pg_ctl", "-D", f"{self.folder}/data", "-l", f"{self.folder}/log", "-w", "-o", options, "start")

    def stop(self) -> None:
        """Stop it at once, as a crash would."""
        self._run("pg_ctl", "-D", f"{self.folder}/data", "-m", "immediate", "stop")

    def url(self, name: str) -> str:
        """Address of one of its databases."""
        return f"postgresql+psycopg://{USER}@/{name}?host={self.folder}"

    def database(self, of: str = "template1") -> str:
        """Make a database that is like another one; its address."""
        name = f"made_{next(self._numbers)}"
        self._run("createdb", "-h", str(self.folder), "-U", USER, "-T", of, name)
        return self.url(name)

    def _run(self, name: str, *arguments: str) -> None:
        # What it prints goes into a file: a server that stays would hold a pipe open.
        with tempfile.TemporaryFile() as told:
            call = [program(name), *arguments]
            done = subprocess.run(call, stdout=told, stderr=told, cwd="/", check=False, timeout=120, **self._who)
            told.seek(0)
            assert done.returncode == 0, told.read().decode("utf-8", "replace")


@contextlib.contextmanager
def server() -> Iterator[Server]:
    """A server as long as it is needed. The path of a socket has to be short: it is not in the folder of the test."""
    memory = Path("/dev/shm")
    room = memory.is_dir() and os.access(memory, os.W_OK) and shutil.disk_usage(memory).free > ROOM_BYTES
    with tempfile.TemporaryDirectory(prefix="sfpg.", dir=memory if room else "/tmp") as name:
        running = Server(Path(name))
        try:
            yield running
        finally:
            running.stop()
