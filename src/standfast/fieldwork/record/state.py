"""What follows from a record, and its canonical text: the same in Python and in the browser."""

import json
import re
from collections.abc import Mapping
from hashlib import sha256
from typing import Any, NamedTuple

_LONE = re.compile("[\ud800-\udfff]")


class State(NamedTuple):
    """What follows from a record and a field sheet.

    Attributes:
        work: items, steps, problems: what was done and read. Its hash is what people sign.
        tools: instruments used, and whether they were in calibration when.
        logs: of each device how far its log is known; gaps, forks, files, what this version does not understand.
        signs: signatures, each current, stale or void.
        seals: seals, each current or stale.
        ready: whether the work may be handed over.
        because: what stands against it: why, and which step, item, event or log.
    """

    work: Mapping[str, Any]
    tools: Mapping[str, Any]
    logs: Mapping[str, Any]
    signs: tuple[Mapping[str, Any], ...]
    seals: tuple[Mapping[str, Any], ...]
    ready: bool
    because: tuple[Mapping[str, str], ...]

    def as_data(self) -> dict[str, Any]:
        """All of it as plain maps and lists."""
        lists = {"signs": list(self.signs), "seals": list(self.seals), "because": list(self.because)}
        return {**self._asdict(), **lists}

    @property
    def hash(self) -> str:
        """Hash of the work, in hexadecimal: what a signature names."""
        return hash_of_work(self.work)

    @property
    def text(self) -> str:
        """Canonical text of the whole state."""
        return canonical(self.as_data())


def hash_of_work(work: Mapping[str, Any]) -> str:
    """SHA-256 over ``sf1-state``, a line feed and the canonical text of the work; in hexadecimal."""
    return sha256(b"sf1-state\n" + canonical(work).encode()).hexdigest()


def canonical(data: object) -> str:
    """One text for equal data: JSON without spaces, keys sorted by UTF-16 code units, strings as browsers write them.

    Only maps, lists, texts, whole numbers, true and false.
    """
    found = json.dumps(_sorted(data), ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return _LONE.sub(lambda one: f"\\u{ord(one.group()):04x}", found)


def _sorted(data: object) -> object:
    if isinstance(data, Mapping):
        return {
            key: _sorted(data[key]) for key in sorted(data, key=lambda each: each.encode("utf-16-be", "surrogatepass"))
        }
    return [_sorted(each) for each in data] if isinstance(data, list | tuple) else data
