"""Clocks that were set or stood wrong are told, and order nothing."""

import json
from typing import Any

import pytest
from signed_record import said, worked

from standfast.fieldwork.record.chain import read_record
from standfast.fieldwork.record.clocks import jumped
from standfast.fieldwork.record.event import FIRST, hash_of

JOB, DEV = "11111111-1111-1111-1111-111111111111", "22222222-2222-2222-2222-222222222222"


def told(*clocks: tuple[str, float, str], data: dict[str, Any] | None = None) -> list[tuple[str, int, str]]:
    """What is told of a log whose events were written at wall, mono, in boot."""
    prev, lines = FIRST, []
    for seq, (wall, mono, boot) in enumerate(clocks, 1):
        event = {
            "v": 1, "job": JOB, "dev": DEV, "seq": seq, "prev": prev, "id": f"{seq:08d}-0000-0000-0000-000000000000",
            "type": "clock" if data else "done", "step": "", "data": data or {}, "seen": {}, "wall": wall, "tz": "Z",
            "mono": mono, "boot": boot, "app": "0.1.0", "user": "",
        }  # fmt: skip
        lines.append(json.dumps(event))
        prev = hash_of(lines[-1])
    record = read_record((("record.ndjson", "\n".join(lines).encode()),))
    return [(each.kind, each.seq, each.what) for each in jumped(record)]


def test_a_clock_that_goes_as_time_goes_is_not_told() -> None:
    assert told(("2026-11-25T21:00:00Z", 0, "a"), ("2026-11-25T22:00:00Z", 3_600_000, "a")) == []
    assert told(("2026-11-25T21:00:00Z", 0, "a"), ("2026-11-25T22:00:00Z", 5, "b")) == [], "another start of the page"


@pytest.mark.parametrize(
    ("wall", "by"), [("2030-11-25T21:01:00Z", "+126230400 s"), ("2026-11-25T20:00:00Z", "-3660 s")]
)
def test_a_clock_that_was_set_is_told_where_it_shows_first(wall: str, by: str) -> None:
    found = told(("2026-11-25T21:00:00Z", 0, "a"), (wall, 60_000, "a"), (wall, 60_000, "a"))
    assert found == [("clock set", 2, f"by {by} since the event before")]


def test_another_time_than_the_office_is_told() -> None:
    data = {"server": "2026-11-25T21:00:00Z", "wall": "2026-11-25T23:00:00Z", "mono": 1, "boot": "a"}
    assert told(("2026-11-25T23:00:00Z", 1, "a"), data=data) == [("clock wrong", 1, "+7200 s against the office's")]


@pytest.mark.parametrize(
    "wall", ["", "yesterday", "2026-11-25T21:00:00", "9999-12-31T23:59:59Z", "0001-01-01T00:00:00+14:00"]
)
def test_what_is_no_time_is_passed_over(wall: str) -> None:
    assert {kind for kind, _, _ in told((wall, 0, "a"), ("2026-11-25T21:00:00Z", 1, "a"))} <= {"clock set"}


def test_a_wrong_clock_in_a_sealed_record_is_told_and_takes_nothing_from_it() -> None:
    whole = worked()
    report = said(whole.lines, whole.keys)
    assert report.word == "pass"
    assert [each.kind for each in report.findings] == ["clock wrong"]
