"""The endings of names in cases: each stands for a unit."""

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from standfast.sheet import Value
from standfast.units import convert

UNIT_OF: dict[str, str] = {
    "v": "V", "ma": "mA", "a": "A", "pu": "pu", "hz": "Hz", "ohm": "ohm", "uc": "uC", "s": "s", "ms": "ms", "k": "K",
    "c": "°C", "mm": "mm", "in": "in", "ft": "ft", "ft3": "ft3", "kg": "kg", "kwh": "kWh", "pct": "%", "years": "year",
}  # fmt: skip
ENDING_OF: dict[str, str] = {unit: f"_{ending}" for ending, unit in UNIT_OF.items()} | {
    "Hz/s": "_hz_per_s",
    "": "",
    "1": "",
}


def plain(value: Value, name: str) -> float | str | bool:
    """The number of a value in the unit that the ending of a name stands for; words and yes or no as they are."""
    if isinstance(value.number, str | bool):
        return value.number
    unit = UNIT_OF.get(name.rpartition("_")[2], "1")
    return value.quantity if value.unit == unit else convert(value.quantity, value.unit, unit)


def answers(found: NamedTuple, names: Mapping[str, str] | None = None) -> dict[str, Any]:
    """The fields of a result as answers: each under its name with the ending of its unit, those that are None left out.

    Args:
        found: fields are values, tuples of values, or None.
        names: other names for some fields.
    """
    told: dict[str, Any] = {}
    for field, value in found._asdict().items():
        name = (names or {}).get(field, field)
        if isinstance(value, Value):
            told[name + ENDING_OF[value.unit]] = value.number
        elif isinstance(value, tuple):
            told[name + ENDING_OF[value[0].unit]] = _numbers(value)
    return told


def _numbers(values: Iterable[Value]) -> list[float]:
    return [value.quantity for value in values]
