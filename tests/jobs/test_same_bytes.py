"""The same job gives the same papers, byte for byte, wherever and whenever it is packed."""

import hashlib
import os
import subprocess
import sys
import time
from pathlib import Path

from standfast.foreman.demo import write_demo

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
