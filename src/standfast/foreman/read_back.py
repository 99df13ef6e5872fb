"""The settings of a job as data that a program compares with what it reads on the unit: ``schemas/settings.json``.

Numbers are decimal strings, so that what is compared is what is printed.
"""

from standfast.design.settings import Point, Profile, Setting
from standfast.foreman.plan import JobPlan
from standfast.sheet import Value
from standfast.shelf import Overlay

STEP = "one step"
"""Tolerance of a setting: one count of the register, or the last digit of the display that shows it."""
_DIGITS = 9


def settings_data(plan: JobPlan) -> dict[str, object]:
    """The settings sheet of a job as plain data, in the order of the schema."""
    found = plan.design.settings
    profile = found.profile
    return {
        "schema": 1,
        "job": plan.title,
        "adoption": plan.adoption.name,
        "ready": found.ready,
        "open": [check.id for check in found.checks if check.open],
        "profile": None if profile is None else _profile(profile),
        "settings": [_row(each) for each in found.rows],
    }


def decimal(value: Value | None) -> str | None:
    """A value as text that holds it exactly as it is meant: ``0.88``, ``-60``, ``yes``; None where it is not known."""
    if value is None or value.number is None:
        return None
    if isinstance(value.number, bool):
        return "yes" if value.number else "no"
    if isinstance(value.number, str):
        return value.number
    return f"{value.quantity:.{_DIGITS}f}".rstrip("0").rstrip(".")


def _profile(profile: Profile) -> dict[str, object]:
    return {
        "book": profile.standard.short,
        "edition": profile.standard.edition,
        "rules": {name: decimal(value) for name, value in profile.rules.items()},
        "operator": _operator(profile.operator),
    }


def _operator(operator: Overlay | None) -> dict[str, object] | None:
    if operator is None:
        return None
    return {
        "title": operator.title,
        "edition": operator.edition,
        "from": None if operator.begins is None else operator.begins.isoformat(),
        "until": None if operator.ends is None else operator.ends.isoformat(),
        "invented": operator.invented,
    }


def _row(each: Setting) -> dict[str, object]:
    value, clause = each.value, each.value.clause
    compared = each.relation == "is" and not isinstance(value.number, bool | str)
    return {
        "id": each.id,
        "function": each.function,
        "parameter": each.parameter,
        "relation": each.relation,
        "target": decimal(value),
        "unit": _unit(value),
        "tolerance": STEP if compared else None,
        "least": decimal(each.least),
        "greatest": decimal(each.greatest),
        "asked_by": each.origin,
        "standard_target": decimal(each.default),
        "clause": None if clause is None else str(clause),
        "seen": value.seen,
        "reason": value.how if value.missing else "",
        "point": None if each.point is None else _point(each.point),
    }


def _point(point: Point) -> dict[str, object]:
    """A point of the open models; a switch stands there as 1 or 0."""
    target = decimal(point.target)
    shown = {"yes": "1", "no": "0"}.get(target or "", target)
    return {
        "models": "SunSpec", "model": point.model, "name": point.name, "target": shown, "unit": _unit(point.target)
    }  # fmt: skip


def _unit(value: Value) -> str:
    return "" if value.unit == "1" else value.unit
