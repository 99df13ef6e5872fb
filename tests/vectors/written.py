"""Keeps a file of vectors as its cases make it: STANDFAST_APPROVE=1 writes it anew."""

import json
import os
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent


def kept(name: str, data: dict[str, Any], rows: str) -> dict[str, Any]:
    """What stands in a file, which has to be what is made.

    Args:
        name: of the file.
        data: what it has to hold.
        rows: key of the list that stands with one row a line.
    """
    head = {key: value for key, value in data.items() if key != rows}
    lines = ",\n".join(json.dumps(row, ensure_ascii=False, sort_keys=True) for row in data[rows])
    text = json.dumps(head, ensure_ascii=False, sort_keys=True)[:-1] + f', "{rows}": [\n{lines}\n]}}\n'
    path = HERE / name
    if os.environ.get("STANDFAST_APPROVE"):
        path.write_text(text, "utf-8")
    assert path.read_text("utf-8") == text, f"{name} is behind its cases: run make approve"
    found: dict[str, Any] = json.loads(text)
    return found
