"""Laws of the record: the state is a function of the set of events, nothing is un-recorded, no clock has a say."""

import json
from collections.abc import Callable
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from tablet import BARE, WALL, Tablet, card, rewritten

from standfast.fieldwork.record.causal import after
from standfast.fieldwork.record.compare import compare, worst
from standfast.fieldwork.record.event import TYPES, Event
from standfast.fieldwork.record.fold import fold
from standfast.fieldwork.record.state import State, canonical

ITEMS = ("ir", "nm", "v", "who", "nothing")
STEPS = ("dead", "lugs", "cover", "live", "nowhere", "")
VALUES = ("0.4", "2", "240", "OL", "", "x")
UNITS = ("MΩ", "V", "N·m")


@st.composite
def days(draw: st.DrawFn) -> list[Event]:
    """What three devices wrote on one day, with what each had of the others by then."""
    devices = [Tablet("a", "ana"), Tablet("b", "ben"), Tablet("f", "")]
    ids: list[str] = []

    def of() -> str:
        return draw(st.sampled_from(ids)) if ids else ""

    acts: list[Callable[[Tablet], str]] = [
        lambda one: one.reads(draw(st.sampled_from(ITEMS)), draw(st.sampled_from(VALUES)), draw(st.sampled_from(UNITS)),
                              done=draw(st.booleans()), step=draw(st.sampled_from(STEPS)), tool="tester-1"),
        lambda one: one.tell("done", draw(st.sampled_from(STEPS))),
        lambda one: one.tell("void", of=of(), reason=draw(st.sampled_from(("", "slipped")))),
        lambda one: one.tell("resolve", of=list({of(), of()}), keep=of(), reason="looked"),
        lambda one: one.tell("override", of=draw(st.sampled_from((*ITEMS, *STEPS))), reason="agreed", by=card("cem")),
        lambda one: one.tell("hold", "cover", kind="cover", by=card("cem"), seen=draw(st.booleans())),
        lambda one: one.tell("photo", "cover", item="photo", sha="1" * 64, equal=draw(st.integers(0, 5))),
        lambda one: one.tell("scan", "numbers", item="modules", text=draw(st.sampled_from(("M-1", "M-2", "")))),
        lambda one: one.tell("problem", "dead", kind="damage", text="scratch"),
        lambda one: one.tell("closed", of=of(), text="painted"),
        lambda one: one.tell("clock", server="2026-11-25T12:00:00Z"),
        lambda one: one.tell("sign", role="crew", by=card("ana"), state="0" * 64),
    ]  # fmt: skip
    for _ in range(draw(st.integers(1, 20))):
        one = draw(st.sampled_from(devices))
        if draw(st.booleans()):
            one.sees(*(other for other in devices if other is not one and draw(st.booleans())))
        ids.append(draw(st.sampled_from(acts))(one))
    return [event for one in devices for event in one.log]


def recorded(state: State) -> set[tuple[str, str, str]]:
    """Everything that stands in a state: item or step, event, value."""
    found = {(id, each["event"], each["value"]) for id, one in state.work["items"].items() for each in one["values"]}
    found |= {(id, each["event"], "done") for id, one in state.work["steps"].items() for each in one["done"]}
    return found | {("problem", id, one["text"]) for id, one in state.work["problems"].items()}


@given(days(), st.randoms(use_true_random=False))
def test_in_which_order_and_how_often_events_come_changes_nothing(events: list[Event], draw: Any) -> None:
    state = fold(events, WALL)
    arrived = [*events, *draw.choices(events, k=5)]
    draw.shuffle(arrived)
    assert fold(arrived, WALL) == state
    assert fold(iter(arrived), WALL).text == state.text


@given(days(), st.randoms(use_true_random=False))
def test_what_comes_late_only_adds(events: list[Event], draw: Any) -> None:
    """A part of every log first and the rest later: at no time is anything missing that was there."""
    cut = {each.dev: draw.randint(0, 9) for each in events}
    early = [each for each in events if each.seq <= cut[each.dev]]
    assert recorded(fold(early, WALL)) <= recorded(fold(events, WALL))


@given(days())
def test_each_event_adds_and_none_un_records_another(events: list[Event]) -> None:
    there = set[tuple[str, str, str]]()
    for place in range(len(events) + 1):
        now = recorded(fold(events[:place], WALL))
        assert there <= now
        there = now


@given(st.lists(st.sampled_from(VALUES), min_size=2, max_size=3, unique=True))
def test_concurrent_different_readings_are_always_disputed(values: list[str]) -> None:
    tablets = [Tablet(letter, letter) for letter in "abc"[: len(values)]]
    for one, value in zip(tablets, values, strict=True):
        one.reads("r", value)
    state = fold([each for one in tablets for each in one.log], BARE)
    item, limit = state.work["items"]["r"], BARE["steps"][0]["items"][0]["limit"]
    assert item["state"] == "disputed" and not state.ready
    assert item["word"] == worst(compare(value, "MΩ", limit).word for value in values)
    assert {"why": "item disputed", "what": "r"} in state.because


@given(days())
def test_the_worst_of_what_counts_is_the_verdict(events: list[Event]) -> None:
    for one in fold(events, WALL).work["items"].values():
        counting = [each["word"] for each in one["values"] if each["counts"]]
        assert one["word"] == worst(counting)
        assert (one["state"] == "open") == (not counting)
        assert not any(each["counts"] and each["void"] for each in one["values"])


@given(days())
def test_of_what_counts_nothing_was_known_to_come_after_it(events: list[Event]) -> None:
    by_id = {each.id: each for each in events}
    for id, one in fold(events, WALL).work["items"].items():
        if id not in ("photo", "modules"):
            valid = [by_id[each["event"]] for each in one["values"] if not each["void"]]
            for each in one["values"]:
                if each["counts"]:
                    assert not any(after(other, by_id[each["event"]]) for other in valid)


@given(days())
def test_a_dispute_that_somebody_resolves_ends(events: list[Event]) -> None:
    disputed = {id: one for id, one in fold(events, WALL).work["items"].items() if one["state"] == "disputed"}
    last = Tablet("c", "cem")
    last.seen = {each.dev: max(other.seq for other in events if other.dev == each.dev) for each in events}
    for one in disputed.values():
        ids = [each["event"] for each in one["values"] if each["counts"]]
        last.tell("resolve", of=ids, keep=ids[0], reason="looked again")
    after_all = fold([*events, *last.log], WALL).work["items"]
    assert all(after_all[id]["state"] != "disputed" for id in disputed)


@given(days())
def test_a_void_value_counts_no_longer_and_stays_visible(events: list[Event]) -> None:
    state = fold(events, WALL)
    last = Tablet("c", "cem")
    for one in state.work["items"].values():
        for each in one["values"]:
            last.tell("void", of=each["event"], reason="another wall")
    gone = fold([*events, *last.log], WALL)
    assert recorded(state) <= recorded(gone)
    assert all(one["state"] == "open" for one in gone.work["items"].values())


@given(days(), st.sampled_from((-40, -1, 1, 900)), st.sampled_from("abf"))
def test_a_clock_that_is_wrong_by_years_changes_no_state(events: list[Event], years: int, letter: str) -> None:
    clock = {"wall": f"{2026 + years}-01-01T00:00:00.000Z", "tz": "+14:00", "mono": -5.0}
    wrong = [rewritten(each, **clock) if each.dev[0] == letter else each for each in events]
    assert fold(wrong, WALL).text == fold(events, WALL).text


@given(days(), st.sampled_from(("weather", "Done", "done ", "")), st.sampled_from((1, 2, 99)))
def test_what_this_version_does_not_know_changes_nothing(events: list[Event], type: str, v: int) -> None:
    last = Tablet("c", "cem")
    last.write(
        type, "dead", {"values": [{"item": "ir", "value": "0", "unit": "MΩ"}], "of": events[0].id, "reason": "x"}, v=v
    )
    before, now = fold(events, WALL), fold([*events, *last.log], WALL)
    assert (now.work, now.tools, now.ready, now.because) == (before.work, before.tools, before.ready, before.because)
    assert now.logs["later"] == [last.log[0].id]


@given(days())
def test_what_is_after_what_is_never_both_ways(events: list[Event]) -> None:
    for one in events:
        assert not after(one, one)
        assert not any(after(one, other) and after(other, one) for other in events)


KEYS = (
    "values", "item", "value", "unit", "n", "exceptions", "of", "keep", "reason", "by", "seen", "sha", "what", "files",
    "heads", "kind", "text", "check", "judged", "waited_ms", "equal", "vector", "tool", "server", "sheet", "key",
    "done", "which",
)  # fmt: skip
ATOMS = (
    st.none() | st.booleans() | st.integers(-9, 2**60) | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=5) | st.sampled_from(("r", "m", "a", "b", "1", "MΩ", "seen"))
)  # fmt: skip
JSON = st.recursive(
    ATOMS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=6),
    max_leaves=12,
)


@given(st.sampled_from(TYPES), JSON)
def test_whatever_an_event_tells_is_folded(type: str, data: Any) -> None:
    one = Tablet("a")
    one.reads("r", "2")
    one.write(type, "a", data if isinstance(data, dict) else {"values": data, "of": data, "what": data})
    state = fold(one.log, BARE)
    assert state.text == canonical(json.loads(state.text))
