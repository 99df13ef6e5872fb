"""make bench: prints a table and writes out/bench.json. `ONLY=name` runs the rows whose name holds it."""

import json
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

STANDFAST = str(Path(sys.executable).with_name("standfast"))
FLOOR = [sys.executable, "-c", "from pydantic import BaseModel; import click, tomli"]


def process_s(call: list[str]) -> Callable[[], float]:
    """Wall time of a whole process."""

    def measure() -> float:
        start = time.perf_counter()
        done = subprocess.run(call, capture_output=True, check=False)
        if done.returncode > 1:
            raise SystemExit(f"{call} failed: {done.stderr.decode()}")
        return time.perf_counter() - start

    return measure


def step_s() -> float:
    """Mean time of one worked step of the sheet, over 20,000 steps."""
    from standfast.sheet import Clause, given, work

    clause = Clause("Code", "2000", "1.2")
    k, load = given("k_cont", 1.25, "1", "x"), given("I_cont", 24.0, "A", "x")
    start = time.perf_counter()
    for _ in range(20_000):
        work("I_req", "k_cont * I_cont", "A", clause, k, load)
    return (time.perf_counter() - start) / 20_000


def bare_s() -> float:
    """The same product without a sheet."""
    k, load = 1.25, 24.0
    start = time.perf_counter()
    for _ in range(20_000):
        k * load
    return (time.perf_counter() - start) / 20_000


def rows(
    folder: Path,
) -> list[tuple[str, Callable[[], float], str, Callable[[], float], str, Callable[[float, float], bool], int]]:
    """Name, ours, name of the other, the other, aim, whether it holds, rounds."""
    job = folder / "job"
    subprocess.run([STANDFAST, "demo", "--out", str(job)], check=True, capture_output=True)
    floor = process_s(FLOOR)
    check = process_s([STANDFAST, "check", str(job)])
    pack = process_s([STANDFAST, "pack", str(job)])
    return [
        ("check", check, "floor imports", floor, "<= 3x and <= 0.35 s", lambda a, b: a <= 3 * b and a <= 0.35, 15),
        ("pack", pack, "floor imports", floor, "<= 1.5 s", lambda a, b: a <= 1.5, 5),
        ("sheet step", step_s, "bare product", bare_s, "<= 20 us", lambda a, b: a <= 20e-6, 5),
    ]


def main() -> None:
    """Run the rows in alternating rounds and report medians."""
    only = sys.argv[1] if len(sys.argv) > 1 else ""
    found = []
    with tempfile.TemporaryDirectory() as folder:
        for name, ours, other, theirs, aim, holds, rounds in rows(Path(folder)):
            if only not in name:
                continue
            pairs = [(ours(), theirs()) for _ in range(rounds)]
            ours_s = statistics.median(pair[0] for pair in pairs)
            other_s = statistics.median(pair[1] for pair in pairs)
            found.append({"name": name, "ours_s": ours_s, "other": other, "other_s": other_s, "ratio": ours_s / other_s,
                          "aim": aim, "holds": holds(ours_s, other_s)})  # fmt: skip
            print(f"{name:12} {ours_s:12.6f} s  {other} {other_s:12.6f} s  ratio {ours_s / other_s:8.2f}  aim {aim}: "
                  f"{'holds' if found[-1]['holds'] else 'MISSED'}")  # fmt: skip
    machine = f"{platform.machine()}, Python {platform.python_version()}"
    out = Path("out")
    out.mkdir(exist_ok=True)
    (out / "bench.json").write_text(json.dumps({"machine": machine, "rows": found}, indent=1), "utf-8")
    print(f"{machine}; written: {out / 'bench.json'}")


if __name__ == "__main__":
    main()
