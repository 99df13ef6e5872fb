"""What came of a call, and a way to change one place of a file."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple


class Called(NamedTuple):
    """What came of a call."""

    code: int
    out: str
    err: str


Call = Callable[..., Called]


def change(file: Path, old: str, new: str) -> None:
    """Change one place of a file that must be there once."""
    text = file.read_text("utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file.name}"
    file.write_text(text.replace(old, new), "utf-8")
