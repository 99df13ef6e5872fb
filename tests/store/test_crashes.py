"""A program that is killed at any statement of its writing loses nothing that it acknowledged; nothing is left torn."""

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from postgresql import Server


def crash(what: str, kind: str, place: str) -> int:
    """How many points a program was killed at, each with the right outcome.

    Too few of them would mean that it was looked at something else: each test says how many there are at least.
    """
    script = Path(__file__).with_name("crashing.py")
    paths = os.pathsep.join([str(script.parent), str(script.parent.parent)])
    call = [sys.executable, str(script), what, kind, place]
    environ = {**os.environ, "PYTHONPATH": paths, "PYTHONFAULTHANDLER": "1"}
    done = subprocess.run(call, capture_output=True, text=True, timeout=240, env=environ, check=False)
    assert done.returncode == 0, done.stderr
    return int(done.stdout)


@pytest.fixture
def quick() -> Iterator[Path]:
    """A folder in memory where there is one. What a killed program leaves is the same there."""
    memory = Path("/dev/shm")
    with tempfile.TemporaryDirectory(dir=memory if os.access(memory, os.W_OK) else None) as name:
        yield Path(name)


def test_killed_between_each_two_calls_of_a_folder(quick: Path) -> None:
    assert crash("work", "folder", str(quick)) > 100


def test_killed_between_each_two_statements_of_a_file(quick: Path) -> None:
    assert crash("work", "sqlite", f"sqlite:///{quick}/crashed.db") > 90


def test_killed_between_each_two_statements_to_a_server(postgresql: Server, made: str) -> None:
    assert crash("work", "postgresql", postgresql.database(made)) > 40


def test_killed_while_a_file_of_a_database_is_made(quick: Path) -> None:
    assert crash("make", "sqlite", f"sqlite:///{quick}/made.db") > 20


def test_killed_while_tables_are_made_on_a_server(postgresql: Server) -> None:
    assert crash("make", "postgresql", postgresql.database()) > 15
