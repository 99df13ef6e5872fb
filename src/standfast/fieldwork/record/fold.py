"""From the events of a job and its field sheet to what was done, read, disputed, and whether it may be handed over.

A pure function of the set of events: in which order they came, how often and when changes nothing. Nothing that was
recorded is ever taken out; what no longer counts stays visible.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from standfast.fieldwork.record.calibration import used
from standfast.fieldwork.record.causal import Known, known, text
from standfast.fieldwork.record.event import Event
from standfast.fieldwork.record.logs import logs
from standfast.fieldwork.record.state import State, hash_of_work
from standfast.fieldwork.record.steps import StepState, overridden, steps
from standfast.fieldwork.record.values import ItemState, as_data, items


class _Folded(NamedTuple):
    items: Mapping[str, ItemState]
    steps: Mapping[str, StepState]
    overrides: Mapping[str, list[str]]


def fold(events: Iterable[Event], sheet: Mapping[str, Any]) -> State:
    """What follows from events under a field sheet.

    Args:
        events: of one job, in any order, each as often as it came. Two texts for one place of a log both count and
            stand as a fork that blocks the handover.
        sheet: the field sheet, as `sheet.read_sheet` gives it.
    """
    told = known(events)
    found_items = items(told, sheet)
    found_steps = steps(told, sheet, found_items)
    covered = {id: [each.event for each in one.counting] for id, one in found_items.items()}
    covered |= {id: list(one.valid) for id, one in found_steps.items()}
    overrides = {id: [each.id for each in overridden(told, id, of)] for id, of in covered.items()}
    folded = _Folded(found_items, found_steps, overrides)
    work = {
        "items": {id: _item(told, one, overrides[id]) for id, one in found_items.items()},
        "steps": {id: _step(told, one, found_items, overrides[id]) for id, one in found_steps.items()},
        "problems": _problems(told),
    }
    tools, kept = used(told, sheet, found_items), logs(told, sheet)
    hash = hash_of_work(work)
    against = [*_against(folded), *_of_tools(folded, tools), *_of_logs(kept)]
    against += [("problem open", id) for id, one in work["problems"].items() if one["state"] == "open"]
    because = tuple({"why": why, "what": what} for why, what in sorted(against))
    return State(work, tools, kept, tuple(_signs(told, hash)), tuple(_seals(told, hash)), not because, because)


def _item(told: Known, one: ItemState, overrides: list[str]) -> dict[str, Any]:
    return {
        "step": one.step, "state": one.state, "word": one.verdict.word, "reason": one.verdict.reason,
        "values": [as_data(each, one, told.void) for each in one.entries], "override": overrides,
    }  # fmt: skip


def _step(told: Known, one: StepState, items: Mapping[str, ItemState], overrides: list[str]) -> dict[str, Any]:
    entries = [each.event for item in one.step["items"] for each in items[item["id"]].counting]
    early = {each.hash for each in one.early}
    return {
        "state": one.state, "again": one.again, "override": overrides,
        "by": sorted({each.user for each in (*one.valid, *entries)} - {""}),
        "done": [
            {"event": each.id, "by": each.user, "early": each.hash in early, "void": each.id in told.void}
            for each in one.dones
        ],
        "holds": {hold.kind: {
            "state": hold.state,
            "looks": [
                {
                    "event": each.id, "by": text(each.data, "by"), "seen": each.data.get("seen") is True,
                    "text": text(each.data, "text"), "counts": each in hold.counting, "void": each.id in told.void,
                }
                for each in hold.looks
            ],
        } for hold in one.holds},
    }  # fmt: skip


def _problems(told: Known) -> dict[str, Any]:
    closed: dict[str, list[str]] = {}
    for each in told.counting("closed"):
        if text(each.data, "text"):
            closed.setdefault(text(each.data, "of"), []).append(each.id)
    return {
        each.id: {
            "step": each.step, "kind": text(each.data, "kind"), "text": text(each.data, "text"), "by": each.user,
            "photo": text(each.data, "sha"), "closed": closed.get(each.id, []),
            "state": "void" if each.id in told.void else "closed" if each.id in closed else "open",
        }
        for each in told.of("problem")
    }  # fmt: skip


def _against(folded: _Folded) -> Iterator[tuple[str, str]]:
    """What of steps, items and holds stands against the handover."""
    for id, step in folded.steps.items():
        if not folded.overrides[id]:
            if step.state != "done":
                yield f"step {step.state}", id
            elif step.again:
                yield "step again", id
        for hold in step.holds:
            if hold.state == "refused" or (hold.state != "seen" and not folded.overrides[id]):
                yield f"hold {hold.state}", f"{id}: {hold.kind}"
    for id, item in folded.items.items():
        if folded.overrides[id] or (not item.counting and folded.overrides[item.step]):
            continue
        if item.state != "recorded":
            yield f"item {item.state}", id
        if item.counting and item.verdict.word in ("fail", "cannot tell"):
            yield f"item {item.verdict.word}", id


def _of_tools(folded: _Folded, tools: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    for id, one in tools["items"].items():
        if one["word"] != "pass" and not folded.overrides[id]:
            yield f"tool {one['word']}", id


def _of_logs(kept: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    yield from {("log gap", gap["dev"]) for gap in kept["gaps"]}
    for fork in kept["forks"]:
        if not fork["settled"]:
            yield "log fork", f"{fork['dev']} {fork['seq']}"


def _signs(told: Known, hash: str) -> Iterator[dict[str, Any]]:
    for each in told.of("sign"):
        current = "current" if text(each.data, "state") == hash else "stale"
        yield {
            "event": each.id, "role": text(each.data, "role"), "by": text(each.data, "by"),
            "state": "void" if each.id in told.void else current,
        }  # fmt: skip


def _seals(told: Known, hash: str) -> Iterator[dict[str, Any]]:
    for each in told.of("seal"):
        yield {"event": each.id, "state": "current" if text(each.data, "state") == hash else "stale"}
