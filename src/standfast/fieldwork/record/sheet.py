"""Reads the text of a field sheet, as far as the record asks for it."""

import json
from collections.abc import Mapping
from hashlib import sha256
from typing import Any

LONGEST_BYTES = 20_000_000


class NotASheet(ValueError):
    """A text that is no field sheet: what is wrong with it."""


def hash_of_sheet(text: str) -> str:
    """SHA-256 of the exact bytes, in hexadecimal."""
    return sha256(text.encode()).hexdigest()


def read_sheet(text: str) -> Mapping[str, Any]:
    """Read a field sheet.

    Raises:
        NotASheet: where the text is none that the record can be judged by, with what is wrong.
    """
    if len(text) > LONGEST_BYTES:
        raise NotASheet(f"longer than {LONGEST_BYTES} characters")
    try:
        data = json.loads(text)
    except RecursionError:
        raise NotASheet("nested too deep") from None
    except ValueError as error:
        raise NotASheet(f"not JSON: {error}") from None
    _check(data)
    found: Mapping[str, Any] = data
    return found


def _check(data: object) -> None:
    if not isinstance(data, dict) or data.get("schema") != 1 or isinstance(data.get("schema"), bool):
        raise NotASheet("it is no field sheet of schema 1")
    for tool in _rows(data, "tools", "the sheet"):
        if not isinstance(tool.get("functions", []), list):
            raise NotASheet(f"functions of tool {_id(tool, 'a tool')} are no list")
        _id(tool, "a tool")
    ids, items = list[str](), list[str]()
    for step in _rows(data, "steps", "the sheet"):
        ids.append(_id(step, "a step"))
        for key in ("after", "redo"):
            if not isinstance(step.get(key), list) or not all(isinstance(each, str) for each in step[key]):
                raise NotASheet(f"{key} of step {ids[-1]} is no list of texts")
        if any(not isinstance(hold.get("kind"), str) for hold in _rows(step, "holds", f"step {ids[-1]}")):
            raise NotASheet(f"a hold of step {ids[-1]} has no kind")
        for item in _rows(step, "items", f"step {ids[-1]}"):
            items.append(_id(item, f"an item of step {ids[-1]}"))
            _check_item(item)
    if len(set(ids)) != len(ids) or len(set(items)) != len(items):
        raise NotASheet("two steps, or two items, have one id")
    if set(ids) & set(items):
        raise NotASheet("a step and an item have one id")


def _check_item(item: Mapping[str, Any]) -> None:
    if not isinstance(item.get("kind"), str):
        raise NotASheet(f"item {item['id']} has no kind")
    for key in ("limit", "uncertainty"):
        if item.get(key) is not None and not isinstance(item[key], dict):
            raise NotASheet(f"{key} of item {item['id']} is no object")
    if not isinstance(item.get("tool_kind", []), list):
        raise NotASheet(f"tool_kind of item {item['id']} is no list")


def _rows(data: Mapping[str, Any], key: str, where: str) -> list[dict[str, Any]]:
    rows = data.get(key)
    if not isinstance(rows, list) or not all(isinstance(each, dict) for each in rows):
        raise NotASheet(f"{key} of {where} is no list of objects")
    return rows


def _id(row: Mapping[str, Any], what: str) -> str:
    id = row.get("id")
    if not isinstance(id, str) or not id:
        raise NotASheet(f"{what} has no id")
    return id
