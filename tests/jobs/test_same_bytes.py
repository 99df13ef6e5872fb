"""The same job gives the same papers, byte for byte, wherever and whenever it is packed."""

import hashlib
import json
import os
import subprocess
import sys
import time
from pathlib import Path

from damaged_demos import WHOLE

from standfast.foreman.demo import job_text, write_demo

STANDFAST = Path(sys.executable).with_name("standfast")
HERE = {"TZ": "UTC", "LANG": "C", "LC_ALL": "C", "PYTHONHASHSEED": "1", "HOME": "/", "USER": "one"}
THERE = {
    "TZ": "Pacific/Kiritimati", "LANG": "de_DE.UTF-8", "LC_ALL": "tr_TR.UTF-8", "PYTHONHASHSEED": "4242",
    "HOME": "/tmp", "USER": "another", "SOURCE_DATE_EPOCH": "86400",
}  # fmt: skip


def packed(folder: Path, current: Path, environment: dict[str, str]) -> dict[str, str]:
    """Hash of each paper, packed by a process of its own."""
    job = os.path.relpath(folder, current)
    done = subprocess.run(
        [STANDFAST, "pack", job], cwd=current, env={**os.environ, **environment}, capture_output=True, timeout=60,
        check=False,
    )  # fmt: skip
    assert done.returncode in (0, 1), done.stderr.decode()
    out = folder / "out"
    paths = sorted(path for path in out.rglob("*") if path.is_file())
    return {path.relative_to(out).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest() for path in paths}


def test_papers_are_the_same_in_another_folder_zone_language_and_second(tmp_path: Path) -> None:
    one = write_demo("one-wall", tmp_path / "house")
    other = write_demo("one-wall", tmp_path / "far away" / "Straße 7" / "job of another name")
    start = time.monotonic()
    first = packed(one, one, HERE)
    time.sleep(max(0.0, 1.1 - (time.monotonic() - start)))  # a clock of seconds that got in would show
    assert {"permit-set.pdf", "work-order.pdf", "materials.csv", "checks.json"} < set(first)
    assert packed(other, tmp_path, THERE) == first


def hashed(root: Path, current: Path, environment: dict[str, str]) -> dict[str, str]:
    """Hash of each paper of every whole demo before it is pressed, worked out by one process."""
    for name in WHOLE:
        (root / name).mkdir(parents=True)
        (root / name / "job.toml").write_text(job_text(name), "utf-8")
    folders = [os.path.relpath(root / name, current) for name in WHOLE]
    script = Path(__file__).with_name("hashed_papers.py")
    done = subprocess.run(
        [sys.executable, script, *folders], cwd=current, env={**os.environ, **environment}, capture_output=True,
        timeout=120, check=True,
    )  # fmt: skip
    found: dict[str, str] = json.loads(done.stdout)
    return found


def test_every_whole_demo_is_put_together_alike_everywhere(tmp_path: Path) -> None:
    """The press is asked once, above; what goes into it must not hang on hash seed, zone, language or folder."""
    first = hashed(tmp_path / "here", tmp_path, HERE)
    assert {name.partition("/")[0] for name in first} == set(WHOLE)
    assert len(first) > 40
    second = hashed(tmp_path / "far away" / "Straße 7", tmp_path / "far away", THERE)
    assert {name for name in first | second if first.get(name) != second.get(name)} == set()


def test_what_is_compared_sees_a_change(tmp_path: Path) -> None:
    job = tmp_path / "one"
    job.mkdir()
    script = Path(__file__).with_name("hashed_papers.py")
    seen = set()
    for crew in ("2", "3"):
        (job / "job.toml").write_text(job_text("one-wall").replace("crew = 2", f"crew = {crew}"), "utf-8")
        seen.add(subprocess.run([sys.executable, script, job], capture_output=True, timeout=60, check=True).stdout)
    assert len(seen) == 2
