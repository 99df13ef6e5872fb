"""Which event came after which: by what its writer had seen, never by a clock.

The rules here, in `values.py`, `steps.py` and `fold.py` run in the browser too (`fold.js`), on the same vectors: plain
lists and maps, texts compared by their code units, whole numbers only.
"""

from collections.abc import Iterable, Sequence
from math import isfinite
from typing import Any

from standfast.fieldwork.record.event import GREATEST, TYPES, VERSION, Event


def after(later: Event, earlier: Event) -> bool:
    """True where one event was written by someone who had the other; two that claim it of each other are concurrent."""
    return _sees(later, earlier) and not _sees(earlier, later)


def _sees(one: Event, other: Event) -> bool:
    return one.seq > other.seq if one.dev == other.dev else one.seen.get(other.dev, 0) >= other.seq


def last(events: Sequence[Event]) -> list[Event]:
    """The events that none of the others came after; all of them where they claim to follow each other in a ring."""
    ends: dict[str, int] = {}
    for each in events:
        ends[each.dev] = max(ends.get(each.dev, 0), each.seq)
    newest = [each for each in events if each.seq == ends[each.dev]]  # of one log only its end can be the last
    found = [each for each in newest if not any(after(other, each) for other in events)]
    return found or list(events)


def text(data: Any, key: str) -> str:
    """A text that an event tells; empty where it tells none."""
    found = data.get(key) if isinstance(data, dict) else None
    return found if isinstance(found, str) else ""


def count(data: Any, key: str) -> int:
    """A whole number that an event tells, from 0; 0 where it tells none."""
    found = data.get(key) if isinstance(data, dict) else None
    if not isinstance(found, int | float) or isinstance(found, bool) or not isfinite(found) or found != int(found):
        return 0
    return int(found) if 0 <= found <= GREATEST else 0


def listed(data: Any, key: str) -> list[Any]:
    """A list that an event tells; empty where it tells none."""
    found = data.get(key) if isinstance(data, dict) else None
    return found if isinstance(found, list) else []


class Known:
    """Everything that was told, each event once, ordered by device, place and hash.

    Attributes:
        events: those that this version understands.
        later: those that it does not; they change nothing.
        void: ids of events that were declared void, with a reason.
    """

    __slots__ = ("_of", "events", "later", "void")

    def __init__(self, events: Iterable[Event]) -> None:
        once = {each.hash: each for each in events}
        ordered = sorted(once.values(), key=lambda each: (each.dev, each.seq, each.hash))
        self.events = [each for each in ordered if each.type in TYPES and each.v <= VERSION]
        self.later = [each for each in ordered if each.type not in TYPES or each.v > VERSION]
        self._of: dict[str, list[Event]] = {}
        for each in self.events:
            self._of.setdefault(each.type, []).append(each)
        void = {text(each.data, "of") for each in self.of("void") if text(each.data, "reason")}
        self.void = frozenset(void - {each.id for each in self.of("void")})

    def of(self, *types: str) -> list[Event]:
        """Events of some types, void ones too."""
        if len(types) == 1:
            return self._of.get(types[0], [])
        return [each for each in self.events if each.type in types]

    def counting(self, *types: str) -> list[Event]:
        """Events of some types that were not declared void."""
        return [each for each in self.of(*types) if each.id not in self.void]


def known(events: Iterable[Event]) -> Known:
    """Sort what was told; the order in which it came, and how often, is forgotten here."""
    return Known(events)
