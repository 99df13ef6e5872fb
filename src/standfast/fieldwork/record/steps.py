"""What was recorded of each step of the sheet: done, early, done again, holds and overrides."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from standfast.fieldwork.record.causal import Known, after, last, text
from standfast.fieldwork.record.event import HASH, Event
from standfast.fieldwork.record.values import ItemState

READ_AGAIN = ("mark", "reading", "timer", "torque")
"""Kinds of items that are recorded anew where their step is done again; a number or a name stays what it was."""


class HoldState(NamedTuple):
    """A point where a second person looks. State: open, refused, same person, seen."""

    kind: str
    looks: tuple[Event, ...]
    counting: tuple[Event, ...]
    state: str


class StepState(NamedTuple):
    """What is known of one step.

    Attributes:
        step: its entry of the sheet.
        dones: every time that it was recorded done, void ones too.
        valid: those that were not declared void.
        early: of those, the ones whose writer could not know that everything before was done.
        state: open, done, early, void.
        again: it has to be done again, since something before it was.
        holds: where a second person looks.
    """

    step: Mapping[str, Any]
    dones: tuple[Event, ...]
    valid: tuple[Event, ...]
    early: tuple[Event, ...]
    state: str
    again: bool
    holds: tuple[HoldState, ...]


def steps(known: Known, sheet: Mapping[str, Any], items: Mapping[str, ItemState]) -> dict[str, StepState]:
    """The state of every step of a sheet, by its id."""
    told: dict[str, list[Event]] = {}
    looks: dict[str, list[Event]] = {}
    for event in known.events:
        if event.type == "done" or (event.type == "reading" and event.data.get("done") is True):
            told.setdefault(event.step, []).append(event)
        if event.type == "hold":
            looks.setdefault(event.step, []).append(event)
    valid = {id: [each for each in dones if each.id not in known.void] for id, dones in told.items()}
    again = _again(sheet, valid, items)
    found = {}
    for step in sheet["steps"]:
        id = step["id"]
        done = valid.get(id, [])
        early = [each for each in done if not _in_turn(each, step, sheet, valid)]
        state = "done" if len(early) < len(done) else "early" if done else "void" if id in told else "open"
        held = tuple(
            _hold(known, each["kind"], looks.get(id, []), _looked_at(each["kind"], step, sheet, valid, items))
            for each in step["holds"]
        )
        dones = tuple(told.get(id, ()))
        found[id] = StepState(step, dones, tuple(done), tuple(early), state, id in again, held)
    return found


def _in_turn(
    done: Event, step: Mapping[str, Any], sheet: Mapping[str, Any], valid: Mapping[str, Sequence[Event]]
) -> bool:
    """Whether who recorded a step done could know that all steps before it were."""
    return all(any(after(done, each) for each in valid.get(before, ())) for before in step["after"])


def _again(sheet: Mapping[str, Any], valid: Mapping[str, Sequence[Event]], items: Mapping[str, ItemState]) -> set[str]:
    """Steps that have to be done again, since something before them was done once more.

    What is read in such a step is read again: that it was done is not enough.
    """
    asked = {step["id"]: step["items"] for step in sheet["steps"]}
    found = set[str]()
    for step in sheet["steps"]:
        done = valid.get(step["id"], ())
        for each in (one for one in done if any(after(one, other) for other in done)):
            for id in step["redo"]:
                told = [items[item["id"]] for item in asked.get(id, ()) if item["kind"] in READ_AGAIN]
                recorded = (
                    [valid[id], *([entry.event for entry in one.counting] for one in told)] if valid.get(id) else []
                )
                if any(not any(after(event, each) for event in events) for events in recorded):
                    found.add(id)
    return found


def _looked_at(
    kind: str, step: Mapping[str, Any], sheet: Mapping[str, Any], valid: Mapping[str, Sequence[Event]],
    items: Mapping[str, ItemState],
) -> list[Event]:  # fmt: skip
    """The work that is looked at before a step begins: what was recorded in the steps right before it.

    Before a cover goes on these are the joints, where any were tightened. Of steps in which nothing is recorded it is
    that they were done.
    """
    before = [each for each in sheet["steps"] if each["id"] in step["after"]]
    states = [items[item["id"]] for each in before for item in each["items"]]
    joints = [each for each in states if each.item["kind"] == "torque" and each.counting]
    told = joints if kind == "cover" and joints else states
    recorded = [entry.event for each in told for entry in each.counting]
    return recorded or [each for one in before for each in valid.get(one["id"], ())]


def _hold(known: Known, kind: str, looks: Sequence[Event], work: Sequence[Event]) -> HoldState:
    """The state of a hold. Who looked before the work was done that is looked at has not seen it."""
    own = [each for each in looks if text(each.data, "kind") == kind]
    counting = [each for each in own if each.id not in known.void and not any(after(one, each) for one in work)]
    counting = last(counting) if counting else []
    people = {each.user for each in work}
    if not counting:
        state = "open"
    elif any(each.data.get("seen") is not True for each in counting):
        state = "refused"
    elif any(second(text(each.data, "by"), people) for each in counting):
        state = "seen"
    else:
        state = "same person"
    return HoldState(kind, tuple(own), tuple(counting), state)


def second(by: str, people: set[str]) -> bool:
    """Whether somebody is surely another than all who did the work; where nobody was named, nobody can tell.

    A person is named by the hash of a card: any other word is nobody.
    """
    return bool(HASH.fullmatch(by)) and bool(people) and by not in people and all(map(HASH.fullmatch, people))


def overridden(known: Known, target: str, of: Sequence[Event]) -> list[Event]:
    """Words of a second person that something may stay as it is, with a reason, said after all that it covers.

    Args:
        known: everything that was told.
        target: id of the item or step.
        of: what was recorded of it; where nothing was, the first person is who holds the tablet.
    """
    found = []
    for each in known.counting("override"):
        if text(each.data, "of") == target and text(each.data, "reason"):
            people = {event.user for event in of} or {each.user}
            if second(text(each.data, "by"), people) and all(after(each, event) for event in of):
                found.append(each)
    return found
