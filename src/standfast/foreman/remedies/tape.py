"""Lengths as the job file writes them: in feet and inches where it does, else in mm."""

import re
from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from standfast.foreman.plan import JobPlan
from standfast.reading.positions import Path
from standfast.units import FOOT_MM, INCH_MM, feet_inches

PART = 16
"""A tape in inches is read to the sixteenth."""
LOST_MM = 0.05
"""What a length may lose on the way to a sixteenth and still be the same: half of what positions are counted in."""
_LENGTH = re.compile(r"""\d\s*(ft|in|'|"|mm|cm|m)(?![a-z])""")


def texts(plan: JobPlan, path: Path, mm: float, away: int = 0) -> list[str]:
    """A length for a word of the job file, in the ways that are to be tried, the best first.

    Args:
        plan: the job.
        path: of the word.
        mm: the length.
        away: 1 where a little more is on the safe side, -1 where a little less is, 0 where neither.

    Returns:
        Feet and inches where the word, or the words round it, are written so, to the sixteenth on the safe side; then,
        where that is another length, the length itself in mm. Each is tried before it is told.
    """
    exact = f"{round(mm, 1):g} mm"
    if not in_feet(plan, path):
        return [exact]
    parts = Fraction(mm) / INCH_MM * PART
    near = round(parts)
    if -LOST_MM <= float((parts - near) * INCH_MM / PART) <= LOST_MM:
        return [_tape(near)]
    return [_tape({1: ceil(parts), -1: floor(parts), 0: near}[away]), exact]


def said(text: str, mm: float) -> str:
    """A distance in the unit of another length: ``2 ft 3-1/16 in``, ``686.4 mm``."""
    return f"{round(mm, 1):g} mm" if text.endswith("mm") else _tape(round(Fraction(mm) / INCH_MM * PART))


def _tape(parts: int) -> str:
    text = feet_inches(float(parts * INCH_MM / PART), PART)
    return text.removesuffix(" 0 in") if parts * INCH_MM / PART >= FOOT_MM else text


def in_feet(plan: JobPlan, path: Path) -> bool:
    """Whether a length of the word, else of its table, else of the first wall, is written in feet or inches."""
    found = (_LENGTH.search(each) for each in _round(plan, path))
    return next((each[1] in ("ft", "in", "'", '"') for each in found if each is not None), False)


def _round(plan: JobPlan, path: Path) -> Iterator[str]:
    holder: object = plan.survey.raw
    for part in path[:-1]:
        if isinstance(holder, dict):
            holder = holder.get(part)
        elif isinstance(holder, list) and isinstance(part, int) and part < len(holder):
            holder = holder[part]
        else:
            holder = None
    words = {} if not isinstance(holder, dict) else {path[-1]: holder.get(path[-1])} | holder
    yield from (each for each in words.values() if isinstance(each, str))
    yield from (wall.length.text for wall in plan.survey.job.walls)
