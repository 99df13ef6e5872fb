"""What was recorded of each item of the sheet: values, verdicts, which of them count, what is disputed."""

import re
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from standfast.fieldwork.record.causal import Known, after, count, last, listed, text
from standfast.fieldwork.record.compare import Verdict, compare, worst
from standfast.fieldwork.record.event import Event

TOLD_BY = {
    "reading": ("reading",), "torque": ("reading",), "mark": ("reading",), "name": ("reading",),
    "serial": ("scan", "reading"), "photo": ("photo",), "timer": ("timer",),
}  # fmt: skip
"""Kind of an item → types of events that record it. Anything else that names it is kept and does not count."""
SHA = re.compile(r"[0-9a-f]{64}")


class Entry(NamedTuple):
    """One value of one item.

    Attributes:
        event: which told it.
        value, unit: as told; of a serial its text, of a photo its hash, of a timer what was seen.
        n: how many equal joints or parts it stands for.
        exceptions: which of them differ, each with its value and verdict.
        tool: id of the instrument; empty where none was named.
        verdict: the worst of the value and its exceptions.
    """

    event: Event
    value: str
    unit: str
    n: int
    exceptions: tuple[tuple[str, str, Verdict], ...]
    tool: str
    verdict: Verdict


class ItemState(NamedTuple):
    """What is known of one item: its step and entry of the sheet, every value, those that count, and its state.

    State: open, part (not all joints), disputed, recorded.
    """

    step: str
    item: Mapping[str, Any]
    entries: tuple[Entry, ...]
    counting: tuple[Entry, ...]
    state: str
    verdict: Verdict


def items(known: Known, sheet: Mapping[str, Any]) -> dict[str, ItemState]:
    """The state of every item of a sheet, by its id."""
    told: dict[str, list[tuple[Event, Any]]] = {}
    for event in known.of("reading", "scan", "photo", "timer"):
        for part in listed(event.data, "values") if event.type == "reading" else [event.data]:
            told.setdefault(text(part, "item"), []).append((event, part))
    return {
        item["id"]: _item(known, step["id"], item, told.get(item["id"], []))
        for step in sheet["steps"]
        for item in step["items"]
    }


def _item(known: Known, step: str, item: Mapping[str, Any], told: Sequence[tuple[Event, Any]]) -> ItemState:
    entries = [_entry(item, event, part) for event, part in told if event.type in TOLD_BY.get(item["kind"], ())]
    valid = [each for each in entries if each.event.id not in known.void]
    if not valid:
        return ItemState(step, item, tuple(entries), (), "open", Verdict("cannot tell", "no value"))
    wanted = max(1, count(item, "count"))
    if item["kind"] == "photo" or (item["kind"] == "serial" and wanted > 1):
        counting = valid
        state = "recorded" if sum({each.value: each.n for each in valid}.values()) >= wanted else "part"
    else:
        counting = _resolved(known, _latest(valid))
        state = "part" if min(each.n for each in counting) < wanted else "recorded"
        if len({(each.value, each.unit, each.exceptions) for each in counting}) > 1:
            state = "disputed"
    return ItemState(step, item, tuple(entries), tuple(counting), state, _worst([each.verdict for each in counting]))


def _entry(item: Mapping[str, Any], event: Event, part: Any) -> Entry:
    limit, uncertainty = item.get("limit"), item.get("uncertainty")
    unit, exceptions = "", list[tuple[str, str, Verdict]]()
    if event.type == "reading":
        value, unit, n = text(part, "value"), text(part, "unit"), count(part, "n") or 1
        verdict = compare(value, unit, limit, uncertainty)
        for each in listed(part, "exceptions"):
            other = text(each, "value")
            exceptions.append((text(each, "which"), other, compare(other, unit, limit, uncertainty)))
    elif event.type == "scan":
        value, n = text(part, "text"), 1
        failed = part.get("check") is False
        verdict = Verdict("cannot tell", "check failed") if failed else compare(value, unit, limit)
    elif event.type == "photo":
        value, n = text(part, "sha"), count(part, "equal") or 1
        verdict = Verdict("recorded") if SHA.fullmatch(value) else Verdict("cannot tell", "no photo")
    else:
        value, n = text(part, "judged"), 1
        verdict = _judged(value, count(part, "waited_ms"), count(item, "seconds"))
    worst_of_all = _worst([verdict, *(told for _, _, told in exceptions)])
    return Entry(event, value, unit, n, tuple(exceptions), text(event.data, "tool"), worst_of_all)


def _judged(judged: str, waited_ms: int, seconds: int) -> Verdict:
    if judged not in ("seen", "not seen"):
        return Verdict("cannot tell", "no value")
    if waited_ms < seconds * 1000:
        return Verdict("cannot tell", "too early")
    return Verdict("pass") if judged == "seen" else Verdict("fail", "not seen")


def _worst(verdicts: Sequence[Verdict]) -> Verdict:
    """The worst of several, the first of those that are equally bad."""
    word = worst(each.word for each in verdicts)
    return next((each for each in verdicts if each.word == word), Verdict(word, "no value"))


def _latest(entries: Sequence[Entry]) -> list[Entry]:
    """The values that no other came after; of concurrent ones all."""
    count_still = {each.hash for each in last(list({entry.event.hash: entry.event for entry in entries}.values()))}
    return [each for each in entries if each.event.hash in count_still]


def _resolved(known: Known, counting: list[Entry]) -> list[Entry]:
    """What is left of concurrent values where somebody said which one counts.

    A later word that keeps a value takes back an earlier one that dropped it. Two who say different things, neither
    having seen the other's word, settle nothing.
    """
    there = {each.event.id for each in counting}
    said = [each for each in resolves(known) if text(each.data, "keep") in there]
    keeps = [(text(each.data, "keep"), each) for each in said]
    drops = [(id, each) for each in said for id in named(each) if id != text(each.data, "keep")]
    drops = [(id, each) for id, each in drops if not any(id == kept and after(by, each) for kept, by in keeps)]
    if any(id == kept and not after(each, by) for id, each in drops for kept, by in keeps):
        return counting
    dropped = {id for id, _ in drops}
    return [each for each in counting if each.event.id not in dropped] or counting


def resolves(known: Known) -> list[Event]:
    """Every word on a dispute that has a reason and keeps one of those that it names."""
    found = known.counting("resolve")
    return [each for each in found if text(each.data, "reason") and text(each.data, "keep") in named(each)]


def named(resolve: Event) -> set[str]:
    """Ids of the events that a word on a dispute is about."""
    return {each for each in listed(resolve.data, "of") if isinstance(each, str)}


def settles(ids: Sequence[str], said: Sequence[Event]) -> bool:
    """Whether somebody said which of the texts for one place counts. Texts of one id cannot be told apart by a word."""
    return len(set(ids)) == len(ids) and any(set(ids) <= named(each) for each in said)


def as_data(entry: Entry, state: ItemState, void: frozenset[str]) -> dict[str, Any]:
    """An entry as it stands in the state."""
    event = entry.event
    return {
        "event": event.id, "dev": event.dev, "seq": event.seq, "by": event.user, "value": entry.value,
        "unit": entry.unit, "n": entry.n, "tool": entry.tool, "word": entry.verdict.word,
        "reason": entry.verdict.reason, "counts": entry in state.counting, "void": event.id in void,
        "exceptions": [
            {"which": which, "value": value, "word": verdict.word, "reason": verdict.reason}
            for which, value, verdict in entry.exceptions
        ],
    }  # fmt: skip
