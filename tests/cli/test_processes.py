"""The installed command as a process of its own: what only shows between processes."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from calling import change

from standfast import __version__
from standfast.cli import COMMANDS

STANDFAST = Path(sys.executable).with_name("standfast")
COLOUR = re.compile(r"\x1b")


def process(*arguments: object, cwd: Path | None = None, **environment: str) -> subprocess.CompletedProcess[bytes]:
    """Run the installed command; words in capitals change its environment."""
    call = [str(STANDFAST), *(str(each) for each in arguments)]
    return subprocess.run(
        call, capture_output=True, check=False, cwd=cwd, env={**os.environ, **environment}, timeout=60
    )


def test_the_exit_code_of_each_kind_reaches_the_shell(demo: Path, job: Path, tmp_path: Path) -> None:
    change(job / "job.toml", 'fault_current = "9.4 kA"', 'fault_current = "30 kA"')
    assert process("check", demo).returncode == 0
    assert process("check", job).returncode == 1
    assert process("check", tmp_path / "nowhere").returncode == 2


def test_the_version_and_the_help_are_answers() -> None:
    assert __version__.encode() in process("--version").stdout
    found = process("--help")
    assert (found.returncode, found.stderr) == (0, b"")
    assert all(f"  {name} ".encode() in found.stdout for name in COMMANDS)


def test_nothing_is_coloured_even_where_it_is_asked_for(job: Path) -> None:
    change(job / "job.toml", 'fault_current = "9.4 kA"', 'fault_current = "30 kA"')
    for arguments in (["check", job], ["check", job, "--json"], ["check", job, "--jsn"], ["chek"], ["--help"]):
        found = process(*arguments, FORCE_COLOR="1", CLICOLOR_FORCE="1", TERM="xterm-256color")
        assert not COLOUR.search(found.stdout.decode() + found.stderr.decode())


def test_signs_of_the_trade_survive_a_shell_that_knows_no_unicode(job: Path) -> None:
    change(job / "job.toml", 'fault_current = "9.4 kA"', 'fault_current = "30 kA"')
    plain = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "PYTHONIOENCODING": "ascii"}
    found = process("check", job, **plain)
    assert (found.returncode, found.stderr) == (1, b"")
    assert "≤ 22 kA" in found.stdout.decode()
    assert json.loads(process("check", job, "--json", **plain).stdout)["summary"]["fail"] >= 1


def test_a_reader_that_goes_away_is_no_fault_of_the_program(demo: Path) -> None:
    with subprocess.Popen(
        [STANDFAST, "check", demo, "--all", "--json"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.close()
        told = running.stderr.read()
        running.wait(60)
    assert running.returncode != 3
    assert b"Traceback" not in told
    assert b"internal fault" not in told


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="no folder is closed to this user")
def test_a_folder_that_may_not_be_written_is_a_fault(job: Path) -> None:
    (job / "out").mkdir()
    (job / "out").chmod(0o500)
    found = process("pack", job)
    (job / "out").chmod(0o700)
    assert found.returncode == 2
    assert b"cannot be written: Permission denied" in found.stderr
