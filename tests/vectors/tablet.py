"""Writes logs for tests as a tablet would: chained, each event with what was seen of the others."""

import json
import re
from typing import Any
from uuid import UUID

from standfast.fieldwork.record.event import FIRST, Event, hash_of, read

JOB = str(UUID(int=0x10B))
Sheet = dict[str, Any]


def card(name: str) -> str:
    """Stands for the hash of somebody's card."""
    return (name.encode().hex() + "c" * 64)[:64]


def text_of(fields: dict[str, Any]) -> str:
    """The text of an event as a browser writes it."""
    found = json.dumps(fields, ensure_ascii=False, separators=(",", ":"))
    return re.sub("[\ud800-\udfff]", lambda half: f"\\u{ord(half.group()):04x}", found)


class Tablet:
    """A device with its log.

    Args:
        letter: a to f; names the device.
        user: who holds it.
    """

    def __init__(self, letter: str, user: str = "ana") -> None:
        self.dev = str(UUID(letter * 32))
        self.user = card(user) if user else ""
        self.log: list[Event] = []
        self.seen: dict[str, int] = {}
        self.years = 0
        self.boot = f"boot-{letter}"

    def tell(self, type: str, step: str = "", /, v: int = 1, **data: Any) -> str:
        """Write one event; gives its id."""
        return self.write(type, step, data, v=v)

    def write(self, type: str, step: str, data: Any, **changed: Any) -> str:
        seq = len(self.log) + 1
        fields = {
            "v": 1, "job": JOB, "dev": self.dev, "seq": seq, "prev": self.log[-1].hash if self.log else FIRST,
            "id": str(UUID(int=UUID(self.dev).int // 2**32 * 2**32 + seq)), "type": type, "step": step, "data": data,
            "seen": self.seen, "wall": f"{2026 + self.years}-11-25T08:{seq % 60:02}:00.000Z", "tz": "-05:00",
            "mono": 60000.5 * seq, "boot": self.boot, "app": "0.1.0", "user": self.user, **changed,
        }  # fmt: skip
        event = read(text_of(fields))
        self.log.append(event)
        return event.id

    def sees(self, *others: "Tablet") -> None:
        """Takes over the logs of other tablets, as after a sync."""
        self.seen = {**self.seen, **{each.dev: len(each.log) for each in others}}

    def reads(self, item: str, value: str, unit: str = "MΩ", step: str = "", tool: str = "", **more: Any) -> str:
        """Record one reading."""
        done = {"done": True} if more.pop("done", False) else {}
        data = {"values": [{"item": item, "value": value, "unit": unit, **more}], **({"tool": tool} if tool else {})}
        return self.write("reading", step, {**data, **done})

    @property
    def raws(self) -> list[str]:
        return [each.raw for each in self.log]


def rewritten(event: Event, **changed: Any) -> Event:
    """An event with other fields, hashed anew."""
    fields = {**json.loads(event.raw), **changed}
    raw = text_of(fields)
    assert hash_of(raw) != event.hash
    return read(raw)


def limit(relation: str, value: str, unit: str, over: str = "cannot tell", **more: str) -> Sheet:
    return {"relation": relation, "value": value, "unit": unit, "over_range": over, **more}


def item(id: str, kind: str, bound: Sheet | None = None, **more: Any) -> Sheet:
    return {"id": id, "kind": kind, "limit": bound, "uncertainty": None, "count": 1, **more}


def step(
    id: str, *items: Sheet, after: tuple[str, ...] = (), redo: tuple[str, ...] = (), holds: tuple[str, ...] = ()
) -> Sheet:
    return {
        "id": id, "after": list(after), "redo": list(redo), "items": list(items),
        "holds": [{"kind": kind} for kind in holds],
    }  # fmt: skip


BARE: Sheet = {
    "schema": 1,
    "tools": [],
    "steps": [
        step("a", item("r", "reading", limit("at least", "1", "MΩ", "pass"))),
        step("b", item("m", "mark"), after=("a",)),
    ],
}  # fmt: skip
WALL: Sheet = {
    "schema": 1,
    "tools": [
        {"id": "tester-1", "kind": "insulation tester", "calibrated_until": "2027-01-31"},
        {"id": "tester-2", "kind": "insulation tester", "calibrated_until": "2026-06-30"},
        {"id": "tester-3", "kind": "insulation tester", "calibrated_until": None},
        {"id": "multi-1", "kind": "installation tester", "functions": ["insulation tester"],
         "calibrated_until": "2027-01-31"},
        {"id": "driver-1", "kind": "torque screwdriver", "calibrated_until": "2027-05-31"},
    ],
    "steps": [
        step("dead", item("ir", "reading", limit("at least", "1", "MΩ", "pass"), tool_kind=["insulation tester"])),
        step("lugs", item("nm", "torque", limit("between", "4.5", "N·m", upper="5.5"), count=4,
                          tool_kind=["torque screwdriver"]), after=("dead",), redo=("dead", "live")),
        step("cover", item("photo", "photo", count=4, why="covered"), after=("dead", "lugs"),
             holds=("cover", "sign off")),
        step("live", item("v", "reading", limit("between", "228", "V", upper="253"),
                          uncertainty={"percent": "1", "digits": "0.5"}),
             item("green", "timer", seconds=60), after=("cover",)),
        step("numbers", item("inverter", "serial"), item("modules", "serial", count=3), item("who", "name")),
    ],
}  # fmt: skip
