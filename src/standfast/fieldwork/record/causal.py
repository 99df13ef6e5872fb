"""Which event came after which: by what its writer had seen, never by a clock.

The rules here, in `values.py`, `steps.py` and `fold.py` run in the browser too (`fold.js`), on the same vectors: plain
lists and maps, texts compared by their code units, whole numbers only.
"""

from collections.abc import Iterable, Sequence
from math import isfinite
from typing import Any, NamedTuple

from standfast.fieldwork.record.event import GREATEST, TYPES, VERSION, Event


def after(later: Event, earlier: Event) -> bool:
    """True where one event was written by someone who had the other; two that claim it of each other are concurrent."""
    return _sees(later, earlier) and not _sees(earlier, later)


def _sees(one: Event, other: Event) -> bool:
    return one.seq > other.seq if one.dev == other.dev else one.seen.get(other.dev, 0) >= other.seq


def last(events: Sequence[Event]) -> list[Event]:
    """The events that none of the others came after; all of them where they claim to follow each other in a ring."""
    found = [each for each in events if not any(after(other, each) for other in events)]
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


class Known(NamedTuple):
    """Everything that was told, each event once, ordered by device, place and hash.

    Attributes:
        events: those that this version understands.
        later: those that it does not; they change nothing.
        void: ids of events that were declared void, with a reason.
    """

    events: tuple[Event, ...]
    later: tuple[Event, ...]
    void: frozenset[str]

    def of(self, *types: str) -> list[Event]:
        """Events of some types, void ones too."""
        return [each for each in self.events if each.type in types]

    def counting(self, *types: str) -> list[Event]:
        """Events of some types that were not declared void."""
        return [each for each in self.of(*types) if each.id not in self.void]


def known(events: Iterable[Event]) -> Known:
    """Sort what was told; the order in which it came, and how often, is forgotten here."""
    once = {each.hash: each for each in events}
    ordered = sorted(once.values(), key=lambda each: (each.dev, each.seq, each.hash))
    mine, later = list[Event](), list[Event]()
    for each in ordered:
        (mine if each.type in TYPES and each.v <= VERSION else later).append(each)
    voids = [each for each in mine if each.type == "void"]
    void = {text(each.data, "of") for each in voids if text(each.data, "reason")}
    return Known(tuple(mine), tuple(later), frozenset(void - {each.id for each in voids}))
