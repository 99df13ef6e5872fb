"""How long the photos and names of a job are kept before somebody asks whether they may go. Nothing goes by itself."""

from datetime import date
from functools import cache
from importlib.resources import files
from typing import NamedTuple

import tomli

_FAMILIES = {"us": "us", "uk": "uk", "au": "au", "quarrystead": "us"}
"""Beginning of the name of an adoption → under which its years stand."""


class Retention(NamedTuple):
    """Years, where the number comes from, and how well that is known: print, memory, none."""

    years: int
    source: str
    seen: str


def retention(adoption: str) -> Retention:
    """What counts under an adoption."""
    family = _FAMILIES.get(adoption.partition("-")[0], "other")
    return _all()[family]


def ends(adoption: str, finished: date) -> date:
    """The day from which somebody should ask whether photos and names may go."""
    years = retention(adoption).years
    try:
        return finished.replace(year=finished.year + years)
    except ValueError:  # 29 February
        return date(finished.year + years, 3, 1)


@cache
def _all() -> dict[str, Retention]:
    text = (files("standfast.foreman.office") / "retention.toml").read_text("utf-8")
    return {name: Retention(**row) for name, row in tomli.loads(text).items()}
