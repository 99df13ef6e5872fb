"""The replayed isolation state in words: what is unsafe now, what was, what is untested, what has to be done again."""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from standfast.fieldwork.plan import Plan
from standfast.fieldwork.record.causal import Known
from standfast.fieldwork.record.replay import Danger, Line, Now, Unsafe, line, replay
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder

WORDS: dict[Danger, str] = {
    "live": "live", "live again after the proof": "again", "not proved dead": "unproved", "still charged": "charged",
    "cover on": "covered", "cover off": "bare", "sensor open": "sensor",
}  # fmt: skip
Orders = Mapping[str, tuple[Plan, WorkOrder]]
"""The plan and its work order in each language."""


class Said(NamedTuple):
    """One thing to be told: which list it is of, the key of its words, its steps, what it is about, what feeds it."""

    kind: str
    key: str
    step: str
    other: str = ""
    what: str = ""
    source: str = ""


def told_now(told: Known, orders: Orders) -> list[dict[str, Any]]:
    """What the replay of a record tells.

    Args:
        told: the record.
        orders: the work order of the job; those of all languages have the same steps.

    Returns:
        Rows with ``kind`` (now, was, untested, again, unsure), ``step`` and ``text`` in each language; the dangerous
        ones first.
    """
    _, order = next(iter(orders.values()))
    done = line(told)
    now = replay(order.decided, done.steps)
    steps = {step.id: step for step in order.steps}
    return [
        {
            "kind": each.kind, "step": each.step,
            "text": {language: _text(plan, one, each) for language, (plan, one) in orders.items()},
        }
        for each in _all(now, done, steps)
    ]  # fmt: skip


def _all(now: Now, done: Line, steps: Mapping[str, WorkStep]) -> Iterator[Said]:
    yield from (_danger("now", each) for each in now.unsafe)
    yield from (Said("untested", "untested", each.step, "", each.terminal, each.source) for each in now.untested)
    yield from (_danger("was", each) for each in now.was)
    yield from (Said("again", "redo", each) for each in now.again)
    for one, other in done.unsure:
        if one in steps and other in steps and _meet(steps[one], steps[other]):
            yield Said("unsure", "unsure", one, other)


def _danger(kind: str, each: Unsafe) -> Said:
    word = WORDS[each.why]
    return Said(kind, word if word == "sensor" else f"{kind}_{word}", each.step, "", each.what, each.source)


def _meet(one: WorkStep, other: WorkStep) -> bool:
    """Whether it matters which of two steps was first: one changes what the other relies on."""
    changes = [bool(each.turns or each.takes_off or each.puts_on) for each in (one, other)]
    relies = [bool(each.touches or each.proves or each.clears or each.behind or each.shut) for each in (one, other)]
    return (changes[0] and (relies[1] or changes[1])) or (changes[1] and relies[0])


def _text(plan: Plan, order: WorkOrder, each: Said) -> str:
    house, text = order.decided.house, {step.id: step.text for step in order.steps}
    return plan.say(
        f"replay.{each.key}", number=order.numbers.get(each.step, 0), text=text.get(each.step, ""),
        other=order.numbers.get(each.other, 0), what=house.called(each.what), source=house.called(each.source),
    )  # fmt: skip
