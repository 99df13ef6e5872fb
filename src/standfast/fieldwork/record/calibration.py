"""Which instruments were used, and whether they were in calibration when.

When an event happened is told by the contacts with the office that came surely before it and surely after it, each
with the date of the server; the clock of the tablet has no say.
"""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from standfast.fieldwork.record.causal import Known, after, text
from standfast.fieldwork.record.compare import Word, worst
from standfast.fieldwork.record.event import Event
from standfast.fieldwork.record.values import ItemState

_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def used(told: Known, sheet: Mapping[str, Any], items: Mapping[str, ItemState]) -> dict[str, Any]:
    """For each item that asks for an instrument whether one in calibration was used, and what each was used for."""
    tools = {tool["id"]: tool for tool in sheet["tools"]}
    contacts = [each for each in told.of("clock") if _DATE.match(text(each.data, "server"))]
    of_items, of_tools = dict[str, Any](), dict[str, Any]()
    for id, one in items.items():
        found = [(each.tool, *_fit(each.tool, each.event, one.item, tools, contacts)) for each in one.counting]
        for tool, _, _ in found:
            if tool in tools:
                of_tools.setdefault(tool, []).append(id)
        if one.item.get("tool_kind") and found:
            word = worst(each for _, each, _ in found)
            reason = next(why for _, each, why in found if each == word)
            of_items[id] = {"word": word, "reason": reason}
    return {"items": of_items, "used": {id: sorted(set(of_tools[id])) for id in of_tools}}


def _fit(
    id: str, event: Event, item: Mapping[str, Any], tools: Mapping[str, Mapping[str, Any]], contacts: Sequence[Event]
) -> tuple[Word, str]:
    """Whether an instrument was the right one and in calibration at an event."""
    if not id:
        return "cannot tell", "no instrument named"
    if id not in tools:
        return "cannot tell", "not on the sheet"
    kinds = (tools[id].get("kind"), *(tools[id].get("functions") or ()))
    if not any(kind in (item.get("tool_kind") or ()) for kind in kinds):
        return "cannot tell", "of another kind"
    until = tools[id].get("calibrated_until")
    if not isinstance(until, str) or not _DATE.fullmatch(until):
        return "cannot tell", "no date of calibration"
    earliest = [text(each.data, "server")[:10] for each in contacts if after(event, each)]
    latest = [text(each.data, "server")[:10] for each in contacts if after(each, event)]
    if latest and min(latest) <= until:
        return "pass", ""
    if earliest and max(earliest) > until:
        return "fail", "calibration was over"
    return "cannot tell", "date not certain"
