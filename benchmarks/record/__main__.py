"""python -m benchmarks.record [soak] [many] [growth]: prints what came of each, on SQLite and on PostgreSQL."""

import sys
import tempfile
from pathlib import Path

from benchmarks.__main__ import machine
from benchmarks.record import growth, many, soak
from benchmarks.record.house import databases

PARTS = ("soak", "many", "growth")


def main() -> None:
    """Run the parts that are named, or all of them."""
    asked = sys.argv[1:] or list(PARTS)
    if set(asked) - set(PARTS):
        raise SystemExit(f"the parts are {', '.join(PARTS)}")
    print(machine())
    for part in asked:
        with tempfile.TemporaryDirectory() as folder, databases(Path(folder)) as found:
            for name, url in found.items():
                for line in RUN[part](url, Path(folder)):
                    print(f"{part}, {name}: {line}")


def _soak(url: str, folder: Path) -> list[str]:
    found = soak.soak(url, folder)
    return [
        f"{soak.EVENTS} events and {soak.PHOTOS} photos of {soak.PHOTO_BYTES / 1000:.0f} kB, {found.kills} kills: "
        f"lost {found.lost}, doubled {found.doubled}, {found.seconds:.1f} s, {found.calls} calls, "
        f"server at most {found.server_mb:.0f} MB"
    ]


def _many(url: str, folder: Path) -> list[str]:
    found = many.many(url, folder)
    return [
        f"{many.TABLETS} tablets at once, {many.ROUNDS} × {many.EVENTS} events each: p50 {found.p50:.2f} s, "
        f"p95 {found.p95:.2f} s, p99 {found.p99:.2f} s, all in {found.seconds:.1f} s, "
        f"{found.failed} without an answer, "
        f"server at most {found.server_mb:.0f} MB"
    ]


def _growth(url: str, folder: Path) -> list[str]:
    return [
        f"{found.events:6} events: batch of 200 in {found.batch * 1e3:.0f} ms, out {found.sent * 1e3:.0f} ms, "
        f"fold {found.fold * 1e3:.0f} ms"
        for found in growth.growth(url, folder)
    ]


RUN = {"soak": _soak, "many": _many, "growth": _growth}

if __name__ == "__main__":
    main()
