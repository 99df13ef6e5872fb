"""make bench: prints a table and writes out/bench.json. `ONLY=name` runs the rows whose name holds it.

Each row measures ours and another in turn, many times, and reports the medians: what disturbs the machine for a while
disturbs both. Processes run as a user's do, with compiled modules on disk: a first run that does not count sees to it.
"""

import json
import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from benchmarks import choice, electrical, order, placement, schedule
from benchmarks.record import growth

STANDFAST = str(Path(sys.executable).with_name("standfast"))
IMPORTS = [sys.executable, "-c", "from pydantic import BaseModel; import click, tomli"]
ONE_LINE = [sys.executable, "-c", "import typst; typst.compile(b'One line of text.')"]
ENVIRONMENT = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
STEPS = 20_000
EXTRAS = ("ezdxf", "openpyxl")


class Row(NamedTuple):
    """What is measured.

    Attributes:
        name: of the row.
        ours: seconds of one run of ours.
        other: what it is compared with.
        theirs: seconds of one run of that.
        aim: what is aimed at, in words.
        holds: whether two medians meet the aim.
        rounds: how often both are run.
    """

    name: str
    ours: Callable[[], float]
    other: str
    theirs: Callable[[], float]
    aim: str
    holds: Callable[[float, float], bool]
    rounds: int


def process_s(call: list[str], *answers: int, without: Path | None = None) -> float:
    """Wall time of a whole process; one that ends in another way than 0 or one of some answers is no measurement.

    Args:
        call: what is run.
        answers: exit codes beside 0 that are an answer.
        without: folder made by `hide`, where the call shall find no extra, as `make demo` installs none.
    """
    environment = ENVIRONMENT if without is None else {**ENVIRONMENT, "PYTHONPATH": str(without)}
    start = time.perf_counter()
    done = subprocess.run(call, capture_output=True, check=False, env=environment)
    took = time.perf_counter() - start
    if done.returncode not in (0, *answers):
        raise SystemExit(f"{call} failed: {done.stderr.decode()}")
    return took


def hide(folder: Path) -> Path:
    """A folder that hides the libraries of the extras from a process that finds it first on its path."""
    folder.mkdir()
    for name in EXTRAS:
        (folder / f"{name}.py").write_text(f"raise ImportError({name!r})\n", "utf-8")
    return folder


def step_s() -> float:
    """Mean time of one worked step of the sheet."""
    from standfast.sheet import Clause, given, work

    clause = Clause("Code", "2000", "1.2")
    k, load = given("k_cont", 1.25, "1", "x"), given("I_cont", 24.0, "A", "x")
    start = time.perf_counter()
    for _ in range(STEPS):
        work("I_req", "k_cont * I_cont", "A", clause, k, load)
    return (time.perf_counter() - start) / STEPS


def pint_s() -> float:
    """Mean time of the same product by pint, which carries units and no working."""
    import pint

    ampere = pint.UnitRegistry(cache_folder=None).ampere
    k, load = 1.25, 24.0 * ampere
    start = time.perf_counter()
    for _ in range(STEPS):
        (k * load).to(ampere)
    return (time.perf_counter() - start) / STEPS


def rows(folder: Path) -> Iterator[Row]:
    """The rows, on a demo job in a folder."""
    job = str(folder / "job")
    process_s([STANDFAST, "demo", "--out", job], 1)
    yield Row(
        "check", lambda: process_s([STANDFAST, "check", job]), "bare imports", lambda: process_s(IMPORTS),
        "≤ 3 × and ≤ 0.35 s", lambda ours, other: ours <= 3 * other and ours <= 0.35, 21,
    )  # fmt: skip
    bare = hide(folder / "bare")
    yield Row(
        "pack", lambda: process_s([STANDFAST, "pack", job], 1, without=bare), "one line as PDF",
        lambda: process_s(ONE_LINE), "≤ 1.5 s", lambda ours, _: ours <= 1.5, 7,
    )  # fmt: skip
    yield Row(
        "pack, extras", lambda: process_s([STANDFAST, "pack", job], 1), "import of ezdxf",
        lambda: process_s([sys.executable, "-c", "from ezdxf.filemanagement import new"]), "≤ 1.5 s + 2 ×",
        lambda ours, other: ours <= 1.5 + 2 * other, 7,
    )  # fmt: skip
    for n, ours, theirs in placement.pairs():
        aim = placement.AIMS[n]
        yield Row(
            f"placement, {n}", ours, "CP-SAT", theirs, f"≥ {aim} × faster",
            lambda ours, other, aim=aim: other >= aim * ours, placement.WALLS,
        )  # fmt: skip
    for name, other_name, most, ours, theirs in choice.pairs():
        yield Row(
            name, ours, other_name, theirs, f"≤ {most:g} ×",
            lambda ours, other, most=most: ours <= most * other, choice.JOBS,
        )  # fmt: skip
    for pair in electrical.pairs():
        yield Row(
            pair.name, pair.ours, "pandapower", pair.theirs, f"≤ {pair.aim_s:g} s",
            lambda ours, _, aim_s=pair.aim_s: ours <= aim_s, pair.rounds,
        )  # fmt: skip
    for each in order.pairs(folder):
        yield Row(
            each.name, each.ours, each.other, each.theirs, f"≤ {each.aim_s:g} s",
            lambda ours, _, aim_s=each.aim_s: ours <= aim_s, each.rounds,
        )  # fmt: skip
    for day in schedule.pairs():
        yield Row(
            day.name, day.ours, "CP-SAT", day.theirs, f"≤ 0.5 s, ≤ {schedule.LONGER:g} of its day",
            lambda ours, _, day=day: day.short() and ours <= 0.5, schedule.JOBS,
        )  # fmt: skip
    (folder / "firm").mkdir()
    yield Row(
        "record, 200 events", growth.batches(f"sqlite:///{folder}/firm/firm.db", folder / "firm"), "bare rows",
        lambda: growth.bare_s(folder), "≤ 0.05 s", lambda ours, _: ours <= 0.05, 21,
    )  # fmt: skip
    yield Row("sheet step", step_s, "product by pint", pint_s, "≤ 20 µs", lambda ours, _: ours <= 20e-6, 7)


def measured(row: Row) -> dict[str, object]:
    """One row as it goes into the report."""
    row.ours(), row.theirs()
    pairs = [(row.ours(), row.theirs()) for _ in range(row.rounds)]
    ours_s = statistics.median(pair[0] for pair in pairs)
    other_s = statistics.median(pair[1] for pair in pairs)
    return {
        "name": row.name, "ours_s": ours_s, "other": row.other, "other_s": other_s, "ratio": ours_s / other_s,
        "aim": row.aim, "holds": row.holds(ours_s, other_s),
    }  # fmt: skip


def machine() -> str:
    """The machine as it names itself, its cores, and the Python that ran."""
    name = platform.processor() or platform.machine()
    told = Path("/proc/cpuinfo")
    if told.is_file():
        lines = told.read_text("utf-8").splitlines()
        names = [line.partition(":")[2].strip() for line in lines if line.startswith("model name")]
        name = names[0] if names else name
    return f"{name}, {os.cpu_count()} cores, {platform.system()}, Python {platform.python_version()}"


def main() -> None:
    """Run the rows and report."""
    only = sys.argv[1] if len(sys.argv) > 1 else ""
    found = []
    with tempfile.TemporaryDirectory() as folder:
        for row in rows(Path(folder)):
            if only in row.name:
                made = measured(row)
                found.append(made)
                print(
                    f"{row.name:12} {_time(made['ours_s']):>10}   {row.other:16} {_time(made['other_s']):>10}   "
                    f"ratio {made['ratio']:6.2f}   aim {row.aim}: {'holds' if made['holds'] else 'MISSED'}"
                )
    if not found:
        raise SystemExit(f"no row has {only!r} in its name")
    out = Path("out") / "bench.json"
    out.parent.mkdir(exist_ok=True)
    out.write_text(json.dumps({"machine": machine(), "rows": found}, indent=1, ensure_ascii=False) + "\n", "utf-8")
    print(f"{machine()}; written: {out}")


def _time(seconds: object) -> str:
    if not isinstance(seconds, float):
        raise TypeError(seconds)
    return f"{seconds * 1e6:.1f} µs" if seconds < 1e-3 else f"{seconds:.3f} s"


if __name__ == "__main__":
    main()
