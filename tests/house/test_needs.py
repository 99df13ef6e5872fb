"""What the tests need of the system `.ci/needs` installs, or tells in one sentence: none is left out in silence."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def looked(path: Path, **places: str) -> subprocess.CompletedProcess[str]:
    """What comes of looking, where only the programs of one folder are there."""
    bash = shutil.which("bash")
    assert bash is not None
    call = [bash, str(ROOT / ".ci" / "needs"), "--look"]
    environ = {"PATH": str(path), **places}
    return subprocess.run(call, capture_output=True, text=True, env=environ, check=False, timeout=30)


@pytest.fixture
def programs(tmp_path: Path) -> Path:
    """A folder with programs that do nothing, and with the one that lists files."""
    folder = tmp_path / "bin"
    (tmp_path / "15" / "bin").mkdir(parents=True)
    folder.mkdir()
    for path in (folder / "node", folder / "npm", folder / "chromium", tmp_path / "15" / "bin" / "initdb"):
        path.write_text("#!/bin/sh\n")
        path.chmod(0o755)
    ls = shutil.which("ls")
    assert ls is not None
    (folder / "ls").symlink_to(ls)
    return folder


def test_where_all_is_there_nothing_is_said(programs: Path) -> None:
    found = looked(programs, POSTGRESQL=str(programs.parent), CHROMIUM=str(programs / "chromium"))
    assert (found.returncode, found.stdout, found.stderr) == (0, "", "")


def test_what_is_missing_is_told_in_one_sentence(programs: Path, tmp_path: Path) -> None:
    (programs / "npm").unlink()
    found = looked(programs, POSTGRESQL=str(tmp_path / "nowhere"), CHROMIUM=str(tmp_path / "nowhere"))
    assert found.returncode == 1
    assert found.stderr.startswith("The tests need postgresql chromium npm, not installed here: ")
    assert found.stderr.count("\n") == 1
    assert found.stdout == ""


def test_make_looks_before_it_tests_and_continuous_integration_installs() -> None:
    makefile = (ROOT / "Makefile").read_text("utf-8")
    recipe = makefile.partition("\ntest: ")[2].partition("\n\n")[0]
    assert recipe.index(".ci/needs") < recipe.index("-m pytest")
    run = (ROOT / ".ci" / "run").read_text("utf-8")
    assert run.index("\n.ci/needs\n") < run.index("make check")
    assert all(os.access(ROOT / ".ci" / name, os.X_OK) for name in ("needs", "run"))
