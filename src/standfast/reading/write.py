"""Writes a document back as TOML: whole, or one word of a text with everything else left as it stands."""

from datetime import date
from itertools import pairwise
from typing import TypeVar

import tomlkit
from tomlkit.items import AoT, Item
from tomlkit.items import Table as Written

from standfast.reading.document import NOT_KNOWN, Document
from standfast.reading.positions import Path
from standfast.reading.quantities import Table
from standfast.units import Quantity

M = TypeVar("M", bound=Table)


def write(document: Document[M]) -> str:
    """The whole file as TOML: reading it again gives the same content, "not known" included."""
    text = tomlkit.document()
    for word, item in _words(document.content, (), document.unknown):
        text.add(word, item)
    return tomlkit.dumps(text)


def put(text: str, path: Path, value: str | bool | int | float | list[int] | dict[str, object] | None) -> str:
    """The text with one word changed, added or taken out; comments, order and every other word stay.

    Args:
        text: a valid TOML text.
        path: keys and list numbers of the word; a list item must exist, a table is added where it is absent. A path
            that ends in a number is an item of a list of tables: with None it goes, one past the last is added, and
            0 begins a list that is not there.
        value: the new value; None takes the word out.

    Raises:
        KeyError: where a list on the way has no such item.
    """
    whole = tomlkit.parse(text)
    holder: object = whole
    for part, after in pairwise(path):
        if isinstance(part, int):
            if not isinstance(holder, list) or part >= len(holder):
                raise KeyError(f"there is no item {part + 1} on the way to {path[-1]}")
            holder = holder[part]
        elif isinstance(holder, dict):
            if part not in holder:
                holder[part] = tomlkit.aot() if isinstance(after, int) else tomlkit.table()
            holder = holder[part]
    if isinstance(holder, list) and isinstance(path[-1], int):
        _item(holder, path[-1], value)
        return tomlkit.dumps(whole)
    if not isinstance(holder, dict) or not isinstance(path[-1], str):
        raise KeyError(f"{path[-1]} is not a word of a table")
    if value is None:
        holder.pop(path[-1], None)
    else:
        holder[path[-1]] = value
    return tomlkit.dumps(whole)


def _item(holder: list[object], number: int, value: object) -> None:
    """Take an item out of a list of tables, or add one at its end."""
    if value is None and number < len(holder):
        del holder[number]
    elif isinstance(value, dict) and number == len(holder):
        holder.append(tomlkit.item(value))
    else:
        raise KeyError(f"item {number + 1} cannot be taken out or added")


def _words(table: Table, path: Path, unknown: frozenset[Path]) -> list[tuple[str, Item]]:
    """The words of a table, plain ones first, so that none lands in a table that stands before it."""
    plain: list[tuple[str, Item]] = []
    tables: list[tuple[str, Item]] = []
    for name, field in type(table).model_fields.items():
        word, value = field.alias or name, getattr(table, name)
        way = (*path, word)
        if way in unknown:
            plain.append((word, tomlkit.item(NOT_KNOWN)))
        elif isinstance(value, Table):
            inner = _table(value, way, unknown)
            if inner or field.default is None:
                tables.append((word, inner))
        elif isinstance(value, tuple) and value and isinstance(value[0], Table):
            tables.append((word, AoT([_table(each, (*way, n), unknown) for n, each in enumerate(value)])))
        elif value is not None and (value != () or name in table.model_fields_set):
            plain.append((word, tomlkit.item(_bare(value))))
    return plain + tables


def _table(table: Table, path: Path, unknown: frozenset[Path]) -> Written:
    made = tomlkit.table()
    for word, item in _words(table, path, unknown):
        made.add(word, item)
    return made


def _bare(value: object) -> str | bool | int | float | date | list[object]:
    if isinstance(value, Quantity):
        return value.text
    if isinstance(value, tuple):
        return [_bare(each) for each in value]
    if isinstance(value, str | bool | int | float | date):
        return value
    raise TypeError(f"{value!r} cannot stand in a file")
