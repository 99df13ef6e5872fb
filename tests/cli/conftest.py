"""A demo folder to work on, and a way to make a call and see all that came of it."""

import shutil
from pathlib import Path

import pytest
from calling import Call, Called

from standfast.cli import run
from standfast.foreman.demo import write_demo


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo job; only read it."""
    return write_demo("one-wall", tmp_path_factory.mktemp("demo") / "house")


@pytest.fixture
def job(demo: Path, tmp_path: Path) -> Path:
    """A copy of the demo job that a test may change."""
    return shutil.copytree(demo, tmp_path / "house")


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Call:
    """Make a call in this process."""

    def made(*arguments: object) -> Called:
        capsys.readouterr()
        code = run([str(each) for each in arguments])
        return Called(code, *capsys.readouterr())

    return made
