"""The open SunSpec models: how many registers they have, their points, the words of their enumerations.

The data in ``models/`` was made from the open definitions (Apache-2.0, see SOURCES.md): every standard model, none of
a single firm. ``groups.csv`` gives the parts of a model, ``points.csv`` their points in the order of the registers,
``symbols.csv`` the words that stand for values (for bit fields, for bits).
"""

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import NamedTuple

HEADER = 2
"""Registers of identifier and length, which the length of a model does not count."""


class UnknownModel(ValueError):
    """A model, point or value that the definitions do not hold."""


class Group(NamedTuple):
    """A part of a model.

    Attributes:
        path: names from the top, joined by dots; empty for the model itself.
        registers: registers of the part itself, without the parts inside it.
        counted: what its repetitions are called (``curves``); empty for a part that stands once.
    """

    path: str
    registers: int
    counted: str

    @property
    def outer(self) -> str:
        """Path of the part that it lies in; empty for a part of the model itself."""
        return self.path.rpartition(".")[0]


class Point(NamedTuple):
    """A point: its part, name, type, registers, scale (a point's name, or a power), unit, whether it can be written."""

    group: str
    name: str
    kind: str
    registers: int
    scale: str
    unit: str
    writable: bool


class Layout(NamedTuple):
    """The registers of one part, how often it stands, and the parts inside it."""

    registers: int
    times: int = 1
    groups: "tuple[Layout, ...]" = ()

    def all(self) -> int:
        """Registers of the part with everything inside it, as often as it stands."""
        return self.times * (self.registers + sum(group.all() for group in self.groups))


def known(model: int) -> bool:
    """True for a model that the definitions hold."""
    return model in _groups()


def groups(model: int) -> list[Group]:
    """The parts of a model, the model itself first. UnknownModel where the definitions do not hold it."""
    try:
        return _groups()[model]
    except KeyError:
        raise UnknownModel(f"the definitions hold no model {model}") from None


def counted(model: int) -> list[str]:
    """What repeats in a model, each word once."""
    return list(dict.fromkeys(group.counted for group in groups(model) if group.counted))


def length(layout: Layout) -> int:
    """The length that a model states: all its registers without those of identifier and length.

    ValueError for a layout that leaves no room for them.
    """
    if layout.registers < HEADER:
        raise ValueError(f"a model has at least {HEADER} registers, not {layout.registers}")
    return layout.all() - HEADER


def layout(model: int, counts: Mapping[str, int]) -> Layout:
    """The layout of a model.

    Args:
        model: its identifier.
        counts: for each thing that repeats how often it stands, for instance ``{"curves": 3, "points": 4}``.

    Raises:
        UnknownModel: where the definitions do not hold the model, or the counts lack or do not know a word.
    """
    words = counted(model)
    lacking, strange = [word for word in words if word not in counts], sorted(set(counts) - set(words))
    if lacking or strange:
        raise UnknownModel(f"model {model} counts {words or 'nothing'}; lacking {lacking}, not known {strange}")
    return _part(groups(model), groups(model)[0], counts)


def points(model: int) -> list[Point]:
    """All points of a model, in the order of the registers of one repetition of each part."""
    groups(model)
    return _points()[model]


def word(model: int, point: str, value: int) -> str:
    """The symbol of a value of an enumeration.

    Args:
        model: identifier.
        point: name; with its part in front of a dot where two parts have a point of that name.
        value: number that was read; for a bit field the number of the bit.

    Raises:
        UnknownModel: where the definitions have no such model, point or value, or two points that differ.
    """
    groups(model)
    part, _, name = point.rpartition(".")
    found = {
        tuple(sorted(symbols.items()))
        for (group, each), symbols in _symbols().get(model, {}).items()
        if each == name and (not part or f".{group}".endswith(f".{part}"))
    }
    if len(found) != 1:
        what = "several points with words" if found else "no point with words"
        raise UnknownModel(f"model {model} has {what} of the name {point!r}")
    symbols = dict(found.pop())
    if value not in symbols:
        raise UnknownModel(f"{value} is no value of {point} of model {model}: {symbols}")
    return symbols[value]


def power_direction(model: int, w: float) -> str | None:
    """Whether an active power in W means that the device is ``generating`` or ``absorbing``; None for no power.

    Raises:
        UnknownModel: for a model whose definition gives the power no sign: there a test on site decides.
    """
    signs = _signs()
    if model not in signs:
        groups(model)
        raise UnknownModel(f"the definition of model {model} gives the power no sign: prove it with a known load")
    positive, negative = signs[model]
    return positive if w > 0 else negative if w < 0 else None


def _part(all_groups: list[Group], group: Group, counts: Mapping[str, int]) -> Layout:
    inside = [each for each in all_groups if each.path and each.outer == group.path and each is not group]
    times = counts[group.counted] if group.counted else 1
    return Layout(group.registers, times, tuple(_part(all_groups, each, counts) for each in inside))


@cache
def _groups() -> dict[int, list[Group]]:
    found: dict[int, list[Group]] = {}
    for row in _rows("groups"):
        found.setdefault(int(row["model"]), []).append(Group(row["group"], int(row["registers"]), row["counted"]))
    return found


@cache
def _points() -> dict[int, list[Point]]:
    found: dict[int, list[Point]] = {}
    for row in _rows("points"):
        size, writable = int(row["registers"]), row["writable"] == "yes"
        point = Point(row["group"], row["point"], row["type"], size, row["scale"], row["unit"], writable)
        found.setdefault(int(row["model"]), []).append(point)
    return found


@cache
def _symbols() -> dict[int, dict[tuple[str, str], dict[int, str]]]:
    found: dict[int, dict[tuple[str, str], dict[int, str]]] = {}
    for row in _rows("symbols"):
        points = found.setdefault(int(row["model"]), {})
        points.setdefault((row["group"], row["point"]), {})[int(row["value"])] = row["word"]
    return found


@cache
def _signs() -> dict[int, tuple[str, str]]:
    return {int(row["model"]): (row["positive"], row["negative"]) for row in _rows("signs")}


def _rows(name: str) -> list[dict[str, str]]:
    text = (files("standfast.devices") / "models" / f"{name}.csv").read_text("utf-8")
    return list(csv.DictReader(text.splitlines()))
