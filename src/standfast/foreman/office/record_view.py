"""A record as the office reads it: one row a step, its readings and photos, disputes, problems, people, seals."""

import json
import re
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from standfast.fieldwork.record.causal import text
from standfast.fieldwork.record.seal import sealed_by, signed
from standfast.foreman.office.standing import Standing
from standfast.words import has, say


class ValueRow(NamedTuple):
    """One value: which event told it, who, what, its verdict, whether it counts, and what of equal ones differs."""

    event: str
    by: str
    value: str
    unit: str
    n: int
    word: str
    reason: str
    counts: bool
    void: bool
    others: tuple[str, ...]


class ItemRow(NamedTuple):
    """One item of a step: what was asked, its limit in words, its state, its values, photos by hash."""

    id: str
    what: str
    kind: str
    limit: str
    state: str
    word: str
    reason: str
    values: tuple[ValueRow, ...]


class StepRow(NamedTuple):
    """One step: its number, text, state; whether it was early or has to be done again; its items and holds."""

    id: str
    number: str
    part: str
    text: str
    state: str
    again: bool
    override: bool
    items: tuple[ItemRow, ...]
    holds: tuple[tuple[str, str], ...]


class Because(NamedTuple):
    """What stands against the handover: the word of it, and what it is about in words."""

    why: str
    what: str


_DATE = re.compile(r"[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])")
NOT_YET = ("step open", "item open", "hold open")
"""What stands against the handover only because nobody has done it yet."""


class RecordView(NamedTuple):
    """All of it, in one language. What stands against the handover is parted: `not_yet` only was not done so far."""

    name: str
    revision: str
    adoption: str
    sheet: str
    ready: bool
    because: tuple[Because, ...]
    not_yet: tuple[Because, ...]
    steps: tuple[StepRow, ...]
    disputes: tuple[ItemRow, ...]
    problems: tuple[Mapping[str, Any], ...]
    erased: bool
    seals: tuple[Mapping[str, Any], ...]
    forks: int
    last: str


def view(found: Standing, cards: Mapping[str, str], language: str, key: str) -> RecordView:
    """A record in a language.

    Args:
        found: the record as it stands.
        cards: texts of the cards of its people, by hash; those that were erased are not there.
        language: two letters.
        key: public key of this office; a seal that it did not sign is told as one of somebody else.
    """
    sheet, work = found.sheet, found.state.work
    names = {sha: name_on(text) for sha, text in cards.items()}
    steps = tuple(_step(step, work, names, language) for step in sheet["steps"])
    items = {item.id: item for step in steps for item in step.items}
    words = {step.id: f"{step.number} {step.text.partition('. ')[0]}" for step in steps}
    words |= {item.id: f"{step.number} {item.what}" for step in steps for item in step.items}
    words |= {
        f"{step.id}: {each['kind']}": f"{words[step.id]} ({_hold(each['kind'], language)})"
        for step, told in zip(steps, sheet["steps"], strict=True)
        for each in told["holds"]
    }
    words |= {id: one["text"] or one["kind"] for id, one in work["problems"].items()}
    places = {id: n for n, step in enumerate(steps) for id in (step.id, *(item.id for item in step.items))}
    against = sorted(
        found.state.because, key=lambda each: (each["why"], places.get(each["what"].partition(": ")[0], -1))
    )
    because = tuple(Because(each["why"], _about(each["what"], words)) for each in against)
    return RecordView(
        sheet["job"]["name"], sheet["job"]["revision"], sheet["adoption"], found.sheet_hash, found.state.ready,
        tuple(each for each in because if each.why not in NOT_YET),
        tuple(each for each in because if each.why in NOT_YET),
        steps, tuple(each for each in items.values() if each.state == "disputed"),
        tuple({"id": id, **one} for id, one in work["problems"].items()), bool(found.state.logs["erased"]),
        tuple(_seals(found, key)), len(found.state.logs["forks"]), _last(found),
    )  # fmt: skip


def _seals(found: Standing, key: str) -> Iterator[Mapping[str, Any]]:
    events = {each.id: each for each in found.events if each.type == "seal"}
    for each in found.state.seals:
        event = events[each["event"]]
        sealed = sealed_by(event)
        own = sealed is not None and signed(sealed.text, text(event.data, "sig"), key)
        yield each if own else {**each, "state": "other"}


def _last(found: Standing) -> str:
    """When the last word was written: by the clock of the server where a tablet told it, since its own may be wrong."""
    told = [each.data.get("server") for each in found.events if each.type == "clock"]
    servers = [each for each in told if isinstance(each, str) and _DATE.match(each)]
    walls = [each.wall for each in found.events if _DATE.match(each.wall)]
    return max(servers or walls, default="")[:10]


def name_on(text: str) -> str:
    """The name on a card; empty where it is none."""
    try:
        card = json.loads(text)
    except (ValueError, RecursionError):
        return ""
    name = card.get("name") if isinstance(card, dict) else None
    return name if isinstance(name, str) else ""


def _hold(kind: str, language: str) -> str:
    """A kind of hold point in words; one of a later version as it is."""
    key = f"office.holdpoint_{kind}"
    return say(key, language) if has(key, language) else kind


def _step(step: Mapping[str, Any], work: Mapping[str, Any], names: Mapping[str, str], language: str) -> StepRow:
    told = work["steps"][step["id"]]
    items = tuple(_item(item, work["items"][item["id"]], names, language) for item in step["items"])
    holds = tuple((kind, one["state"]) for kind, one in told["holds"].items())
    text = _in(step["text"], language)
    return StepRow(
        step["id"], str(step["number"]), str(step["part"]), text, told["state"], bool(told["again"]),
        bool(told["override"]), items, holds,
    )  # fmt: skip


def _shown(kind: str, value: str, names: Mapping[str, str]) -> str:
    """A value as it is read: a person by the name on the card, by the beginning of its hash where that was erased."""
    return names.get(value) or value[:12] if kind == "name" else value


def _item(item: Mapping[str, Any], told: Mapping[str, Any], names: Mapping[str, str], language: str) -> ItemRow:
    values = tuple(
        ValueRow(
            each["event"], names.get(each["by"], ""), _shown(item["kind"], each["value"], names), each["unit"],
            each["n"], each["word"], each["reason"], each["counts"], each["void"],
            tuple(f"{one['which']}: {one['value']} {each['unit']}" for one in each["exceptions"]),
        )
        for each in told["values"]
    )  # fmt: skip
    limit = item.get("limit")
    shown = _in(limit["text"], language) if limit and limit.get("text") else ""
    return ItemRow(
        item["id"],
        _in(item["what"], language),
        item["kind"],
        shown,
        told["state"],
        told["word"],
        told["reason"],
        values,
    )


def _in(texts: Any, language: str) -> str:
    """A text of the sheet in a language; in English where the sheet lacks it."""
    if isinstance(texts, Mapping):
        return str(texts.get(language) or texts.get("en") or "")
    return str(texts)


def _about(what: str, words: Mapping[str, str]) -> str:
    return next(_told(what, words), what)


def _told(what: str, words: Mapping[str, str]) -> Iterator[str]:
    if what in words:
        yield words[what]
    step, colon, kind = what.partition(": ")
    if colon and step in words:
        yield f"{words[step]} ({kind})"
