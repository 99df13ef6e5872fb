"""What has to be done again when one step of a work is done once more, as plain data."""

from collections.abc import Mapping
from typing import Any

from standfast.faults import NotInEdition

Data = dict[str, object]


def redoing(data: Mapping[str, Any], after: str) -> Data:
    """One step of an order, and the steps that count no longer when it is done once more.

    Args:
        data: the order as plain data.
        after: number or id of the step.

    Raises:
        NotInEdition: where the order has no such step.
    """
    steps = {step["number"]: step for step in data["steps"]}
    found = next((step for step in steps.values() if after in (str(step["number"]), step["id"])), None)
    if found is None:
        ids = ", ".join(f"{step['number']} {step['id']}" for step in steps.values())
        raise NotInEdition(f"--after {after}: the order of this work has no such step; its steps are {ids}")
    return {
        "schema": 1, "job": data["job"], "adoption": data["adoption"], "work": data["work"],
        "step": _told(found), "redo": [_told(steps[number]) for number in found["redo"]],
    }  # fmt: skip


def _told(step: Mapping[str, Any]) -> Data:
    return {"number": step["number"], "id": step["id"], "text": step["text"]}
