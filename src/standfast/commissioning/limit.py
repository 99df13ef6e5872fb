"""What a reading is compared with, in a form that a tablet compares without arithmetic of its own: decimal strings."""

from decimal import Decimal
from typing import Literal, NamedTuple

from standfast.sheet import Value
from standfast.units import torque_settings

Relation = Literal["at least", "at most", "between", "equal"]
OverRange = Literal["pass", "fail"]
SIGN = {"ohm": "Ω", "Mohm": "MΩ", "mohm": "mΩ"}
"""Units by the sign that instruments show."""


class Limit(NamedTuple):
    """A limit in one unit.

    Attributes:
        relation: of the reading to the number.
        value: the number as a decimal string; of *between* the lower one.
        unit: by the sign that instruments show.
        upper: of *between* the upper number; else empty.
        over_range: what a display that reads beyond its range means: more than enough, or too much.
    """

    relation: Relation
    value: str
    unit: str
    upper: str = ""
    over_range: OverRange = "fail"


NO_VOLTAGE = Limit("at most", "0", "V")
"""Of a proof of dead: whatever else the tester shows has to be explained before hands reach in."""


def limit_of(relation: Relation, value: Value, upper: Value | None = None) -> tuple[Limit, ...]:
    """The limit that values of the sheet state; none where one of them is missing."""
    if value.missing or (upper is not None and upper.missing):
        return ()
    high = "" if upper is None else plain(upper.quantity)
    over: OverRange = "pass" if relation == "at least" else "fail"
    return (Limit(relation, plain(value.quantity), SIGN.get(value.unit, value.unit), high, over),)


def torque_limits(torque: Value) -> tuple[Limit, ...]:
    """What a torque tool is to be set to, in each unit that tools have; none where the torque is not stated."""
    if torque.missing:
        return ()
    return tuple(Limit("equal", plain(number), unit) for number, unit in torque_settings(torque.quantity))


def plain(number: float) -> str:
    """A number as the shortest decimal string that is it, without an exponent."""
    text = format(Decimal(repr(number)), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
