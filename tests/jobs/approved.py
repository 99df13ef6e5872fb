"""Compares a text with the one that was approved; `make approve` writes what came out as approved."""

import difflib
import os
from pathlib import Path

import pytest

FOLDER = Path(__file__).parent / "approved"
APPROVE = os.environ.get("STANDFAST_APPROVE") == "1"


def as_approved(name: str, text: str) -> None:
    """Fails with the lines that changed, or approves them where it is told to."""
    file = FOLDER / name
    if APPROVE:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
        return
    if not file.exists():
        pytest.fail(f"{name} was never approved: read what came out, then run make approve\n{text[:2000]}")
    old = file.read_text("utf-8")
    changed = list(difflib.unified_diff(old.splitlines(), text.splitlines(), "approved", "now", n=0, lineterm=""))
    if changed:
        pytest.fail("\n".join([f"{name} changed: if the change is right, run make approve", *changed[:60]]))
    assert old == text
