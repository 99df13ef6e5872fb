"""What follows from small logs is what was written by hand; `fold.json` is run in the browser too."""

import json
from typing import Any

import pytest
from fold_cases import CASES, SHEETS
from written import kept

from standfast.fieldwork.record.event import read
from standfast.fieldwork.record.fold import fold
from standfast.fieldwork.record.sheet import hash_of_sheet, read_sheet

SHEET_TEXTS = {name: json.dumps(sheet, ensure_ascii=False, sort_keys=True) for name, sheet in SHEETS.items()}


def made() -> dict[str, Any]:
    rows = []
    for name, (sheet, write) in CASES.items():
        events, expect = write()
        state = fold(events, SHEETS[sheet])
        row = {"name": name, "sheet": sheet, "events": [each.raw for each in events], "expect": expect}
        rows.append({**row, "state": state.text, "hash": state.hash})
    sheets = {name: {"sha": hash_of_sheet(text), "sheet": text} for name, text in SHEET_TEXTS.items()}
    return {"schema": 1, "sheets": sheets, "cases": rows}


FILE = kept("fold.json", made(), "cases")


def at(data: Any, path: str) -> Any:
    for part in path.split("|"):
        data = data[int(part)] if isinstance(data, list) else data[part]
    return data


@pytest.mark.parametrize("row", FILE["cases"], ids=[row["name"] for row in FILE["cases"]])
def test_what_follows_is_what_was_written_by_hand(row: dict[str, Any]) -> None:
    sheet = read_sheet(FILE["sheets"][row["sheet"]]["sheet"])
    state = fold([read(raw) for raw in row["events"]], sheet)
    data = json.loads(state.text)
    assert {path: at(data, path) for path in row["expect"]} == row["expect"]
    assert row["expect"]
    assert state.hash == row["hash"]


def test_there_are_enough_of_them() -> None:
    assert len(FILE["cases"]) >= 80
