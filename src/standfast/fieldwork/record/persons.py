"""Persons behind cards: who has none, and who may stand behind two of one name.

A card is made on a tablet by whoever holds it, so a person can have several. What is asked here is what would follow if
cards of one name were one person: a second look at one's own work, a word for one's own reading.
"""

import json
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from standfast.fieldwork.record.causal import known, text
from standfast.fieldwork.record.chain import Kept, Record
from standfast.fieldwork.record.event import HASH, Event
from standfast.fieldwork.record.findings import Finding, found
from standfast.fieldwork.record.fold import fold

SPEAK = ("hold", "override", "sign")
"""Types of events in which a person gives their word."""


def without_card(record: Record) -> Iterator[Finding]:
    """Words of somebody who is named by no card."""
    for log in record.logs.values():
        for texts in log.values():
            for kept in texts:
                if kept.event.type in SPEAK and not HASH.fullmatch(text(kept.event.data, "by")):
                    yield found("no card", f"whose word the {kept.event.type} is", kept.at)


def taken_back(record: Record) -> Iterator[tuple[Kept, Finding]]:
    """Refusals of a second person that somebody else declared void: each with the entry that did it."""
    refused = {
        each.id: text(each.data, "by")
        for each in record.events if each.type == "hold" and each.data.get("seen") is not True
    }  # fmt: skip
    for log in record.logs.values():
        for kept in (each for texts in log.values() for each in texts if each.event.type == "void"):
            of, reason = text(kept.event.data, "of"), text(kept.event.data, "reason")
            if of in refused and reason and (not refused[of] or kept.event.user != refused[of]):
                yield kept, found("refusal void", f"the refusal {of} of a second look: {reason}", kept.at)


def named_cards(events: Iterable[Event]) -> list[str]:
    """Hashes of the cards that a record names, of who held a tablet and of who gave a word."""
    told = known(events).events
    cards = {each.user for each in told} | {text(each.data, key) for each in told for key in ("by", "card")}
    return sorted(filter(HASH.fullmatch, cards))


def behind_two(events: Iterable[Event], sheet: Mapping[str, Any], cards: Mapping[str, str]) -> list[str]:
    """What would stand against the handover too if cards of one name were one person's.

    Args:
        events: of the record.
        sheet: its field sheet.
        cards: texts of the cards that are at hand, by their hash; of one that is not there nobody can tell.
    """
    same = _same(cards)
    if not same:
        return []
    told = list(events)
    as_they_are = fold(told, sheet).because
    merged = fold([_as_one(each, same) for each in told], sheet).because
    return [f"{each['why']}: {each['what']}" for each in merged if each not in as_they_are]


def _same(cards: Mapping[str, str]) -> dict[str, str]:
    """Of cards that bear a name which another bears too, the one that stands for all of them."""
    first: dict[str, str] = {}
    found: dict[str, str] = {}
    for sha in sorted(cards):
        name = _name(cards[sha])
        if name and first.setdefault(name, sha) != sha:
            found[sha] = first[name]
    return found


def _as_one(event: Event, same: Mapping[str, str]) -> Event:
    by = text(event.data, "by")
    data = {**event.data, "by": same[by]} if by in same else event.data
    return event._replace(user=same.get(event.user, event.user), data=data)


def _name(card: str) -> str:
    """The name on a card as people compare names: without capitals, accents and marks that do not show."""
    try:
        told = json.loads(card)
    except (ValueError, RecursionError):
        return ""
    parted = unicodedata.normalize("NFKD", text(told, "name")).casefold()
    shown = "".join(each for each in parted if unicodedata.category(each)[0] not in "CM" or each.isspace())
    return " ".join(shown.split())
