"""One setting of the sheet, and the sheet."""

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Literal, NamedTuple

from standfast.faults import Refusal
from standfast.sheet import Check, Value, missing
from standfast.shelf import Edition, Overlay

Relation = Literal["is", "at least", "at most"]
"""How what is read back stands to what is asked: a trip is set to a value; a ride-through is no shorter than one."""
Origin = Literal["standard", "operator", "agreed"]
"""Who asks for it: the standard's own default, the grid operator, or the agreement for this house."""


class Point(NamedTuple):
    """Where the open SunSpec models show a setting.

    Attributes:
        model: number of the model.
        name: the point with its groups: ``Crv[0].MustTrip.Pt[1].V``; the first curve is the one in use.
        target: what stands there, in the unit of the point.
    """

    model: int
    name: str
    target: Value


class Setting(NamedTuple):
    """One row of the sheet.

    Attributes:
        function: what it belongs to: ``Over-voltage trip, stage 1``.
        parameter: which number of it.
        value: what is asked; missing where it is not known.
        relation: how what is read back stands to it.
        point: where open models show it.
        least, greatest: range in which the standard lets an operator choose.
        origin: who asks for it.
        default: the standard's own value, where the operator asks for another.
    """

    function: str
    parameter: str
    value: Value
    relation: Relation = "is"
    point: Point | None = None
    least: Value | None = None
    greatest: Value | None = None
    origin: Origin = "standard"
    default: Value | None = None

    @property
    def id(self) -> str:
        """Stable, in trade words: ``under-voltage-trip-stage-1/threshold``."""
        words = (re.sub(r"[^a-z0-9.]+", "-", each.lower()).strip("-") for each in (self.function, self.parameter))
        return "/".join(words)


class Profile(NamedTuple):
    """The rules that hold for the settings of a job.

    Attributes:
        standard: the book as it is published.
        book: the same as the operator has changed it.
        operator: the operator's settings; None where the job names none that hold.
        rules: category or region by which the book tells settings apart, by name; missing where the job does not say.
    """

    standard: Edition
    book: Edition
    operator: Overlay | None
    rules: Mapping[str, Value]


class SettingsSheet(NamedTuple):
    """The settings of a job and what was asked about them; no profile where the adoption names no book on the grid."""

    profile: Profile | None
    rows: tuple[Setting, ...]
    checks: tuple[Check, ...]

    @property
    def ready(self) -> bool:
        """True where there are settings, each is known and nothing about them is open: they can be read back."""
        known = not any(row.value.missing for row in self.rows)
        return bool(self.rows) and known and not any(check.open for check in self.checks)


def of_rule(
    rule: Value, fields: Mapping[str, str], ask: Callable[[], Iterable[Value | None]]
) -> dict[str, Value]:  # fmt: skip
    """Values that a book holds by category or region, by their names; those that it leaves open are left out.

    Where the category or region is not known, or the book does not hold it, all of them are missing with the reason.

    Args:
        rule: category or region.
        fields: names of the values in their order, each with its unit.
        ask: asks the book.
    """
    if rule.missing:
        return {name: missing(name, unit, rule.how, rule) for name, unit in fields.items()}
    try:
        found = list(ask())
    except Refusal as refusal:
        return {name: missing(name, unit, str(refusal)) for name, unit in fields.items()}
    return {name: value for name, value in zip(fields, found, strict=True) if value is not None}
