"""A fault of the program itself: exit code 3, one line with the path of a report, and no traceback."""

import tempfile
from pathlib import Path

import pytest
from calling import Call

from standfast.foreman import plan


def broken(*_: object, **__: object) -> None:
    raise ZeroDivisionError("a mistake of ours")


@pytest.mark.parametrize("command", ["check", "pack"])
def test_an_internal_fault_gives_three_and_a_report(
    call: Call, demo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    monkeypatch.setattr(plan, "make_plan", broken)
    found = call(command, demo, "--json")
    assert (found.code, found.out) == (3, "")
    assert found.err.count("\n") == 1
    assert "Traceback" not in found.err
    assert found.err.startswith("standfast: internal fault: a mistake of ours (report: ")
    (report,) = tmp_path.iterdir()
    assert str(report) in found.err
    text = report.read_text("utf-8")
    assert "ZeroDivisionError: a mistake of ours" in text
    assert "Traceback" in text
    assert str(demo) in text


def test_where_no_report_can_be_written_the_line_still_comes(
    call: Call, demo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "nowhere"))
    monkeypatch.setattr(plan, "make_plan", broken)
    found = call("check", demo)
    assert (found.code, found.out) == (3, "")
    assert "no report could be written" in found.err
    assert "Traceback" not in found.err


def test_a_call_that_was_stopped_is_faulty(call: Call, demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(plan, "make_plan", stopped)
    found = call("check", demo)
    assert (found.code, found.out, found.err.strip()) == (2, "", "stopped")
