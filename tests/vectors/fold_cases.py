"""Small logs, each with what must follow from it, written by hand; kept in `fold.json` for Python and the browser."""

from collections.abc import Callable
from typing import Any

from tablet import BARE, WALL, Sheet, Tablet, card, rewritten

from standfast.fieldwork.record.event import Event

Found = tuple[list[Event], dict[str, Any]]
CASES: dict[str, tuple[str, Callable[[], Found]]] = {}
R, M = "work|items|r", "work|items|m"
A, B = "work|steps|a", "work|steps|b"


def case(sheet: str = "bare") -> Callable[[Callable[[], Found]], Callable[[], Found]]:
    def kept(write: Callable[[], Found]) -> Callable[[], Found]:
        CASES[write.__name__.replace("_", " ")] = (sheet, write)
        return write

    return kept


def two() -> tuple[Tablet, Tablet]:
    return Tablet("a", "ana"), Tablet("b", "ben")


@case()
def nothing_told() -> Found:
    return [], {
        f"{R}|state": "open", f"{R}|word": "cannot tell", f"{A}|state": "open", "ready": False, "logs|gaps": [],
        "because": [
            {"why": "item open", "what": "m"}, {"why": "item open", "what": "r"}, {"why": "step open", "what": "a"},
            {"why": "step open", "what": "b"},
        ],
    }  # fmt: skip


@case()
def all_done_and_read() -> Found:
    a = Tablet("a")
    a.reads("r", "5.2", step="a", done=True)
    a.reads("m", "made", "", step="b", done=True)
    return a.log, {f"{R}|word": "pass", f"{M}|word": "recorded", f"{B}|state": "done", "ready": True, "because": [],
                   f"{A}|by": [card("ana")]}  # fmt: skip


@case()
def a_failed_reading_blocks() -> Found:
    a = Tablet("a")
    a.reads("r", "0.4", step="a", done=True)
    a.reads("m", "made", "", step="b", done=True)
    return a.log, {f"{R}|word": "fail", f"{R}|state": "recorded", "ready": False,
                   "because": [{"why": "item fail", "what": "r"}]}  # fmt: skip


@case()
def over_range_passes_where_the_limit_says_so() -> Found:
    a = Tablet("a")
    a.reads("r", "OL")
    return a.log, {f"{R}|word": "pass", f"{R}|reason": "over range"}


@case()
def a_wrong_unit_cannot_be_judged() -> Found:
    a = Tablet("a")
    a.reads("r", "5", "kΩ")
    return a.log, {f"{R}|word": "cannot tell", f"{R}|reason": "wrong unit"}


@case()
def the_later_reading_counts() -> Found:
    a = Tablet("a")
    a.reads("r", "0.4")
    a.reads("r", "2")
    return a.log, {f"{R}|word": "pass", f"{R}|values|0|counts": False, f"{R}|values|0|word": "fail",
                   f"{R}|values|1|counts": True}  # fmt: skip


@case()
def the_later_reading_counts_though_it_is_worse() -> Found:
    a = Tablet("a")
    a.reads("r", "2")
    a.reads("r", "0.4")
    return a.log, {f"{R}|word": "fail", f"{R}|state": "recorded"}


@case()
def later_on_another_tablet_that_has_seen_it() -> Found:
    a, b = two()
    a.reads("r", "0.4")
    b.sees(a)
    b.reads("r", "2")
    return a.log + b.log, {f"{R}|word": "pass", f"{R}|state": "recorded", f"{R}|values|0|counts": False}


@case()
def concurrent_readings_are_disputed() -> Found:
    a, b = two()
    a.reads("r", "0.4")
    b.reads("r", "2")
    return a.log + b.log, {f"{R}|word": "fail", f"{R}|state": "disputed", f"{R}|values|0|counts": True,
                           f"{R}|values|1|counts": True}  # fmt: skip


@case()
def concurrent_equal_readings_are_not_disputed() -> Found:
    a, b = two()
    a.reads("r", "2.0")
    b.reads("r", "2.0")
    return a.log + b.log, {f"{R}|state": "recorded", f"{R}|word": "pass"}


@case()
def the_same_number_written_differently_is_disputed() -> Found:
    a, b = two()
    a.reads("r", "2.0")
    b.reads("r", "2")
    return a.log + b.log, {f"{R}|state": "disputed", f"{R}|word": "pass"}


@case()
def the_same_number_in_another_unit_is_disputed() -> Found:
    a, b = two()
    a.reads("r", "2", "MΩ")
    b.reads("r", "2", "kΩ")
    return a.log + b.log, {f"{R}|state": "disputed", f"{R}|word": "cannot tell"}


@case()
def three_concurrent_readings() -> Found:
    a, b = two()
    c = Tablet("c", "cem")
    for each, value in ((a, "3"), (b, "OL"), (c, "x")):
        each.reads("r", value)
    return a.log + b.log + c.log, {f"{R}|state": "disputed", f"{R}|word": "cannot tell"}


@case()
def a_dispute_is_resolved() -> Found:
    a, b = two()
    bad, good = a.reads("r", "0.4"), b.reads("r", "2")
    a.sees(b)
    a.tell("resolve", of=[bad, good], keep=good, reason="lead was off")
    return a.log + b.log, {f"{R}|state": "recorded", f"{R}|word": "pass", f"{R}|values|0|counts": False}


@case()
def a_dispute_is_resolved_to_the_worse() -> Found:
    a, b = two()
    bad, good = a.reads("r", "0.4"), b.reads("r", "2")
    a.sees(b)
    a.tell("resolve", of=[bad, good], keep=bad, reason="the other was another cable")
    return a.log + b.log, {f"{R}|state": "recorded", f"{R}|word": "fail"}


@case()
def a_resolve_without_a_reason_settles_nothing() -> Found:
    a, b = two()
    bad, good = a.reads("r", "0.4"), b.reads("r", "2")
    a.sees(b)
    a.tell("resolve", of=[bad, good], keep=good, reason="")
    return a.log + b.log, {f"{R}|state": "disputed"}


@case()
def a_resolve_that_names_one_settles_nothing() -> Found:
    a, b = two()
    bad, good = a.reads("r", "0.4"), b.reads("r", "2")
    a.sees(b)
    a.tell("resolve", of=[good], keep=good, reason="mine")
    a.tell("resolve", of=[bad], keep=good, reason="not among them")
    return a.log + b.log, {f"{R}|state": "disputed", f"{R}|word": "fail"}


@case()
def a_resolve_leaves_the_third() -> Found:
    a, b = two()
    c = Tablet("c", "cem")
    one, other, _ = a.reads("r", "0.4"), b.reads("r", "2"), c.reads("r", "3")
    a.sees(b)
    a.tell("resolve", of=[one, other], keep=other, reason="lead was off")
    return a.log + b.log + c.log, {f"{R}|state": "disputed", f"{R}|word": "pass", f"{R}|values|0|counts": False}


@case()
def two_resolves_that_contradict_settle_nothing() -> Found:
    a, b = two()
    one, other = a.reads("r", "0.4"), b.reads("r", "2")
    a.tell("resolve", of=[one, other], keep=one, reason="mine is right")
    b.tell("resolve", of=[one, other], keep=other, reason="mine is right")
    return a.log + b.log, {f"{R}|state": "disputed", f"{R}|word": "fail"}


@case()
def a_later_resolve_takes_back_an_earlier() -> Found:
    a, b = two()
    one, other = a.reads("r", "0.4"), b.reads("r", "2")
    a.tell("resolve", of=[one, other], keep=other, reason="lead was off")
    a.tell("resolve", of=[one, other], keep=one, reason="it was not")
    return a.log + b.log, {f"{R}|state": "recorded", f"{R}|word": "fail"}


@case()
def two_resolves_end_a_dispute_of_three() -> Found:
    a, b = two()
    c = Tablet("c", "cem")
    one, other, third = a.reads("r", "0.4"), b.reads("r", "2"), c.reads("r", "3")
    a.tell("resolve", of=[one, other], keep=one, reason="first")
    a.tell("resolve", of=[one, third], keep=third, reason="then")
    return a.log + b.log + c.log, {f"{R}|state": "recorded", f"{R}|word": "pass", f"{R}|values|2|counts": True,
                                   f"{R}|values|1|counts": False}  # fmt: skip


@case()
def a_void_resolve_settles_nothing() -> Found:
    a, b = two()
    one, other = a.reads("r", "0.4"), b.reads("r", "2")
    settled = a.tell("resolve", of=[one, other], keep=other, reason="lead was off")
    a.tell("void", of=settled, reason="wrong one")
    return a.log + b.log, {f"{R}|state": "disputed"}


@case()
def a_dispute_ends_by_reading_again() -> Found:
    a, b = two()
    a.reads("r", "0.4")
    b.reads("r", "2")
    b.sees(a)
    b.reads("r", "2.1")
    return a.log + b.log, {f"{R}|state": "recorded", f"{R}|word": "pass", f"{R}|values|2|counts": True}


@case()
def who_read_again_without_the_others_log_ends_nothing() -> Found:
    a, b = two()
    a.reads("r", "0.4")
    b.reads("r", "2")
    b.reads("r", "2.1")
    return a.log + b.log, {f"{R}|state": "disputed", f"{R}|values|1|counts": False}


@case()
def each_claims_to_have_seen_the_other() -> Found:
    a, b = two()
    a.seen, b.seen = {b.dev: 9}, {a.dev: 9}
    a.reads("r", "0.4")
    b.reads("r", "2")
    return a.log + b.log, {f"{R}|state": "disputed", f"{R}|word": "fail"}


@case()
def three_claim_to_follow_each_other_in_a_ring() -> Found:
    a, b = two()
    c = Tablet("c", "cem")
    a.seen, b.seen, c.seen = {c.dev: 1}, {a.dev: 1}, {b.dev: 1}
    for each, value in ((a, "1"), (b, "2"), (c, "0")):
        each.reads("r", value)
    return a.log + b.log + c.log, {f"{R}|state": "disputed", f"{R}|word": "fail"}


@case()
def a_void_reading_counts_no_longer() -> Found:
    a = Tablet("a")
    wrong = a.reads("r", "0.4")
    a.tell("void", of=wrong, reason="wrong cable")
    return a.log, {f"{R}|state": "open", f"{R}|values|0|void": True, f"{R}|values|0|value": "0.4"}


@case()
def void_the_later_and_the_earlier_counts_again() -> Found:
    a = Tablet("a")
    a.reads("r", "2")
    wrong = a.reads("r", "0.4")
    a.tell("void", of=wrong, reason="wrong cable")
    return a.log, {f"{R}|word": "pass", f"{R}|values|0|counts": True}


@case()
def a_void_without_a_reason_changes_nothing() -> Found:
    a = Tablet("a")
    wrong = a.reads("r", "0.4")
    a.tell("void", of=wrong, reason="")
    a.tell("void", of=wrong)
    return a.log, {f"{R}|state": "recorded", f"{R}|word": "fail", f"{R}|values|0|void": False}


@case()
def a_void_cannot_be_made_void() -> Found:
    a = Tablet("a")
    wrong = a.reads("r", "0.4")
    gone = a.tell("void", of=wrong, reason="wrong cable")
    a.tell("void", of=gone, reason="it was right")
    return a.log, {f"{R}|state": "open", f"{R}|values|0|void": True}


@case()
def a_void_of_an_event_that_is_not_here() -> Found:
    a = Tablet("a")
    a.reads("r", "2")
    a.tell("void", of="00000000-0000-0000-0000-000000000000", reason="not here yet")
    return a.log, {f"{R}|word": "pass"}


@case()
def a_dispute_ends_where_one_is_void() -> Found:
    a, b = two()
    wrong = a.reads("r", "0.4")
    b.reads("r", "2")
    a.tell("void", of=wrong, reason="wrong cable")
    return a.log + b.log, {f"{R}|state": "recorded", f"{R}|word": "pass"}


@case()
def a_reading_from_another_tablet_is_void() -> Found:
    a, b = two()
    wrong = a.reads("r", "0.4")
    b.tell("void", of=wrong, reason="was not this job")
    return b.log + a.log, {f"{R}|state": "open"}


@case()
def a_step_done_by_mistake() -> Found:
    a = Tablet("a")
    wrong = a.tell("done", "a")
    a.tell("void", of=wrong, reason="slipped")
    return a.log, {f"{A}|state": "void", f"{A}|done|0|void": True, f"{A}|by": []}


@case()
def a_step_done_after_a_mistake() -> Found:
    a = Tablet("a")
    wrong = a.tell("done", "a")
    a.tell("void", of=wrong, reason="slipped")
    a.tell("done", "a")
    return a.log, {f"{A}|state": "done", f"{A}|again": False}


@case()
def done_before_its_turn() -> Found:
    a = Tablet("a")
    a.tell("done", "b")
    a.tell("done", "a")
    return a.log, {f"{B}|state": "early", f"{B}|done|0|early": True, f"{A}|state": "done"}


@case()
def done_while_another_did_what_comes_before() -> Found:
    a, b = two()
    a.tell("done", "a")
    b.tell("done", "b")
    return a.log + b.log, {f"{B}|state": "early"}


@case()
def done_after_another_did_what_comes_before() -> Found:
    a, b = two()
    a.tell("done", "a")
    b.sees(a)
    b.tell("done", "b")
    return a.log + b.log, {f"{B}|state": "done"}


@case()
def done_again_in_its_turn() -> Found:
    a = Tablet("a")
    a.tell("done", "b")
    a.tell("done", "a")
    a.tell("done", "b")
    return a.log, {f"{B}|state": "done", f"{B}|done|0|early": True, f"{B}|done|1|early": False}


@case()
def early_where_what_comes_before_was_a_mistake() -> Found:
    a = Tablet("a")
    wrong = a.tell("done", "a")
    a.tell("done", "b")
    a.tell("void", of=wrong, reason="slipped")
    return a.log, {f"{A}|state": "void", f"{B}|state": "early"}


@case()
def an_early_step_with_the_word_of_a_second_person() -> Found:
    a = Tablet("a")
    a.reads("m", "made", "", step="b", done=True)
    a.reads("r", "2", step="a", done=True)
    id = a.tell("override", of="b", reason="nothing was live", by=card("ben"))
    return a.log, {f"{B}|state": "early", f"{B}|override": [id], "ready": True}


@case()
def an_override_by_the_same_person() -> Found:
    a = Tablet("a")
    a.reads("r", "0.4", step="a", done=True)
    a.tell("override", of="r", reason="good enough", by=card("ana"))
    return a.log, {f"{R}|override": [], f"{R}|word": "fail"}


@case()
def an_override_by_a_second_person_stays_visible() -> Found:
    a = Tablet("a")
    a.reads("r", "0.4", step="a", done=True)
    a.reads("m", "made", "", step="b", done=True)
    id = a.tell("override", of="r", reason="agreed with the inspector", by=card("ben"))
    return a.log, {f"{R}|override": [id], f"{R}|word": "fail", "ready": True}


@case()
def an_override_without_a_reason() -> Found:
    a = Tablet("a")
    a.reads("r", "0.4")
    a.tell("override", of="r", reason="", by=card("ben"))
    return a.log, {f"{R}|override": []}


@case()
def an_override_by_nobody() -> Found:
    a = Tablet("a")
    a.reads("r", "0.4")
    a.tell("override", of="r", reason="agreed")
    return a.log, {f"{R}|override": []}


@case()
def an_override_by_a_word_that_is_no_card() -> Found:
    a = Tablet("a")
    a.reads("r", "0.4")
    a.tell("override", of="r", reason="agreed", by="the inspector")
    return a.log, {f"{R}|override": [], f"{R}|word": "fail"}


@case()
def an_override_of_what_a_word_that_is_no_card_read() -> Found:
    a = Tablet("a", "")
    a.user = "somebody"
    a.reads("r", "0.4")
    a.tell("override", of="r", reason="agreed", by=card("ben"))
    return a.log, {f"{R}|override": []}


@case()
def an_override_where_nobody_knows_who_read() -> Found:
    a = Tablet("a", "")
    a.reads("r", "0.4")
    a.tell("override", of="r", reason="agreed", by=card("ben"))
    return a.log, {f"{R}|override": []}


@case()
def an_override_does_not_cover_a_later_reading() -> Found:
    a = Tablet("a")
    a.reads("r", "0.4")
    a.tell("override", of="r", reason="agreed", by=card("ben"))
    a.reads("r", "0.3")
    return a.log, {f"{R}|override": [], f"{R}|word": "fail"}


@case()
def an_override_does_not_cover_what_it_has_not_seen() -> Found:
    a, b = two()
    a.reads("r", "0.4")
    b.tell("override", of="r", reason="agreed", by=card("cem"))
    return a.log + b.log, {f"{R}|override": []}


@case()
def a_void_override() -> Found:
    a = Tablet("a")
    a.reads("r", "0.4")
    id = a.tell("override", of="r", reason="agreed", by=card("ben"))
    a.tell("void", of=id, reason="was not")
    return a.log, {f"{R}|override": []}


@case()
def a_step_left_out_with_two_persons() -> Found:
    a = Tablet("a")
    a.reads("r", "2", step="a", done=True)
    id = a.tell("override", of="b", reason="not on this wall", by=card("ben"))
    return a.log, {f"{B}|state": "open", f"{B}|override": [id], "ready": True, f"{M}|state": "open"}


@case()
def a_problem_blocks_until_it_is_closed() -> Found:
    a = Tablet("a")
    a.reads("r", "2", step="a", done=True)
    a.reads("m", "made", "", step="b", done=True)
    id = a.tell("problem", "a", kind="damage", text="scratch on the lid")
    return a.log, {
        f"work|problems|{id}|state": "open",
        "ready": False,
        "because": [{"why": "problem open", "what": id}],
    }


@case()
def a_problem_is_closed() -> Found:
    a = Tablet("a")
    id = a.tell("problem", "a", kind="damage", text="scratch")
    closed = a.tell("closed", of=id, text="painted")
    return a.log, {f"work|problems|{id}|state": "closed", f"work|problems|{id}|closed": [closed]}


@case()
def a_problem_is_not_closed_without_a_word() -> Found:
    a = Tablet("a")
    id = a.tell("problem", "a", kind="damage", text="scratch")
    a.tell("closed", of=id, text="")
    return a.log, {f"work|problems|{id}|state": "open"}


@case()
def a_problem_that_was_none() -> Found:
    a = Tablet("a")
    id = a.tell("problem", "a", kind="damage", text="scratch")
    a.tell("void", of=id, reason="dust")
    return a.log, {f"work|problems|{id}|state": "void"}


@case()
def an_unknown_type_changes_nothing() -> Found:
    a = Tablet("a")
    a.reads("r", "2", step="a", done=True)
    later = a.tell("weather", "a", item="r", value="0.1")
    a.reads("m", "made", "", step="b", done=True)
    return a.log, {f"{R}|word": "pass", "logs|later": [later], "logs|gaps": [], "ready": True}


@case()
def a_later_version_of_a_known_type_changes_nothing() -> Found:
    a = Tablet("a")
    later = a.write("reading", "a", {"values": [{"item": "r", "value": "0.1", "unit": "MΩ"}]}, v=2)
    return a.log, {f"{R}|state": "open", "logs|later": [later]}


@case()
def an_item_and_a_step_that_are_not_on_the_sheet() -> Found:
    a = Tablet("a")
    one, other = a.reads("q", "2"), a.tell("done", "z")
    return a.log, {"logs|unknown": [one, other], f"{R}|state": "open"}


@case()
def a_value_that_is_a_number_of_json() -> Found:
    a = Tablet("a")
    a.tell("reading", "a", values=[{"item": "r", "value": 5, "unit": "MΩ"}])
    return a.log, {f"{R}|word": "cannot tell", f"{R}|reason": "no value", f"{R}|values|0|value": ""}


@case()
def values_that_are_no_values() -> Found:
    a = Tablet("a")
    a.tell("reading", "a", values=[None, 3, "r", [], {"item": ["r"]}])
    a.tell("reading", "a", values={"item": "r"})
    a.tell("reading", "a")
    return a.log, {f"{R}|state": "open"}


@case()
def data_of_wrong_kinds() -> Found:
    a = Tablet("a")
    a.reads("r", "2")
    a.tell("void", of=3, reason=True)
    a.tell("resolve", of="x", keep=None, reason=[])
    a.tell("override", of={}, by=1, reason=2)
    a.tell("hold", "a", kind=None, by=None, seen="yes")
    a.tell("closed", of=[])
    a.tell("manifest", files=[1, None, "x"])
    a.tell("erased", what="all")
    a.tell("clock", server=12)
    a.tell("done", "a", done=3)
    return a.log, {f"{R}|word": "pass", f"{A}|state": "done", "logs|files": []}


@case()
def a_scan_of_what_is_read() -> Found:
    a = Tablet("a")
    a.tell("scan", "a", item="r", text="5", symbology="QR", typed=False)
    return a.log, {f"{R}|state": "open", f"{R}|values": []}


@case()
def one_event_tells_two_values_of_one_item() -> Found:
    a = Tablet("a")
    a.tell(
        "reading", "a", values=[{"item": "r", "value": "2", "unit": "MΩ"}, {"item": "r", "value": "0", "unit": "MΩ"}]
    )
    return a.log, {f"{R}|state": "disputed", f"{R}|word": "fail"}


@case()
def the_same_events_twice() -> Found:
    a = Tablet("a")
    a.reads("r", "2", step="a", done=True)
    return a.log + a.log, {
        f"{R}|values|0|value": "2",
        f"{A}|done|0|early": False,
        "logs|forks": [],
        f"{A}|again": False,
    }


@case()
def a_gap_in_a_log() -> Found:
    a = Tablet("a")
    a.tell("done", "a")
    a.tell("person", card=card("ben"))
    a.reads("r", "2")
    return [a.log[0], a.log[2]], {
        "logs|gaps": [{"dev": a.dev, "first": 2, "last": 2}],
        f"{R}|word": "pass",
        "ready": False,
    }


@case()
def the_beginning_is_missing() -> Found:
    a = Tablet("a")
    a.tell("begin")
    a.tell("done", "a")
    return a.log[1:], {"logs|gaps": [{"dev": a.dev, "first": 1, "last": 1}], f"{A}|state": "done"}


@case()
def somebody_has_seen_more_than_is_here() -> Found:
    a, b = two()
    a.tell("done", "a")
    b.seen = {a.dev: 3}
    b.reads("r", "2")
    return a.log + b.log, {"logs|gaps": [{"dev": a.dev, "first": 2, "last": 3}]}


@case()
def somebody_has_seen_a_log_that_is_not_here() -> Found:
    a, b = two()
    b.seen = {a.dev: 2}
    b.tell("done", "a")
    return b.log, {"logs|gaps": [{"dev": a.dev, "first": 1, "last": 2}]}


@case()
def a_fork_is_two_texts_in_one_place() -> Found:
    a = Tablet("a")
    a.reads("r", "2")
    other = rewritten(a.log[0], id="00000000-0000-0000-0000-00000000000f")
    return [a.log[0], other], {"logs|forks|0|seq": 1, "logs|forks|0|settled": False, f"{R}|state": "recorded"}


@case()
def a_fork_with_other_values_is_a_dispute() -> Found:
    a = Tablet("a")
    a.reads("r", "2")
    data = {"values": [{"item": "r", "value": "0.1", "unit": "MΩ"}]}
    other = rewritten(a.log[0], id="00000000-0000-0000-0000-00000000000f", data=data)
    return [a.log[0], other], {f"{R}|state": "disputed", f"{R}|word": "fail", "ready": False}


@case()
def a_fork_of_one_id_is_settled_by_no_word() -> Found:
    """A word on a reading and another one says nothing of a second text that goes by the id of the first."""
    a, b = two()
    a.reads("r", "2", step="a", done=True)
    other = rewritten(a.log[0], wall="2026-11-25T08:09:00.000Z")
    b.reads("r", "3", step="a", done=True)
    b.sees(a)
    b.tell("resolve", of=[a.log[0].id, b.log[0].id], keep=b.log[0].id, reason="read again")
    b.reads("m", "made", "", step="b", done=True)
    return [*a.log, other, *b.log], {"logs|forks|0|settled": False, "ready": False}


@case()
def a_fork_is_settled_by_a_word_on_both() -> Found:
    a, b = two()
    a.reads("r", "2", step="a", done=True)
    other = rewritten(a.log[0], id="00000000-0000-0000-0000-00000000000f")
    b.sees(a)
    b.tell("resolve", of=[a.log[0].id, other.id], keep=a.log[0].id, reason="the tablet was restored")
    b.reads("m", "made", "", step="b", done=True)
    return [*a.log, other, *b.log], {"logs|forks|0|settled": True, "ready": True}


@case()
def a_signature_on_an_old_state_is_stale() -> Found:
    a = Tablet("a")
    a.reads("r", "2", step="a", done=True)
    a.tell("sign", role="crew", by=card("ana"), state="0" * 64)
    return a.log, {"signs|0|state": "stale", "signs|0|role": "crew", "signs|0|by": card("ana")}


@case()
def a_void_signature() -> Found:
    a = Tablet("a")
    id = a.tell("sign", role="crew", by=card("ana"), state="0" * 64)
    a.tell("void", of=id, reason="wrong person")
    return a.log, {"signs|0|state": "void"}


@case()
def files_and_what_was_erased() -> Found:
    a = Tablet("a")
    a.tell("photo", "a", sha="b" * 64, bytes=9, mime="image/jpeg")
    a.tell("problem", "a", kind="damage", text="scratch", sha="a" * 64)
    a.tell("sign", role="crew", by=card("ana"), state="", image="c" * 64)
    a.tell("manifest", files=["a" * 64, "d" * 64, "no hash"])
    a.tell("erased", what=["d" * 64, "short"], reason="asked for")
    return a.log, {"logs|files": ["a" * 64, "b" * 64, "c" * 64, "d" * 64], "logs|erased": ["d" * 64]}


@case()
def the_sheet_of_each_tablet() -> Found:
    a, b = two()
    a.tell("begin", sheet="1" * 64, key="", device="tablet a")
    a.tell("sheet", sheet="2" * 64, was="1" * 64)
    b.tell("begin", sheet="1" * 64, key="", device="tablet b")
    return a.log + b.log, {f"logs|devices|{a.dev}|sheet": "2" * 64, f"logs|devices|{b.dev}|sheet": "1" * 64,
                           f"logs|devices|{a.dev}|last": 2}  # fmt: skip


@case()
def a_clock_wrong_by_years_changes_nothing() -> Found:
    a, b = two()
    b.years = -30
    a.reads("r", "0.4", step="a", done=True)
    b.sees(a)
    b.reads("r", "2")
    return a.log + b.log, {f"{R}|word": "pass", f"{R}|state": "recorded"}


@case()
def texts_that_are_hard_to_write() -> Found:
    a = Tablet("a")
    text = 'quote " slash \\ / tab \t bell \x07 del \x7f line \u2028 ünï 🔧 \ufeff'
    id = a.tell("problem", "a", kind="damage", text=text)
    a.write("problem", "a", {"kind": "", "text": "half \ud83d of a sign"}, id="00000000-0000-0000-0000-0000000000aa")
    return a.log, {f"work|problems|{id}|text": text}


IR, NM, PHOTO, V, GREEN = (f"work|items|{id}" for id in ("ir", "nm", "photo", "v", "green"))


def contact(a: Tablet, day: str) -> str:
    return a.tell("clock", server=f"{day}T12:00:00.000Z", wall="1999-01-01T00:00:00.000Z", mono=1, boot=a.boot)


@case("wall")
def an_instrument_in_calibration() -> Found:
    a = Tablet("a")
    a.reads("ir", "5", tool="tester-1")
    contact(a, "2026-11-25")
    return a.log, {"tools|items|ir|word": "pass", "tools|used|tester-1": ["ir"], f"{IR}|values|0|tool": "tester-1"}


@case("wall")
def an_instrument_on_its_last_day() -> Found:
    a = Tablet("a")
    contact(a, "2027-01-31")
    a.reads("ir", "5", tool="tester-1")
    contact(a, "2027-01-31")
    return a.log, {"tools|items|ir|word": "pass"}


@case("wall")
def an_instrument_out_of_calibration() -> Found:
    a = Tablet("a")
    contact(a, "2026-11-25")
    a.reads("ir", "5", tool="tester-2")
    contact(a, "2026-11-26")
    return a.log, {"tools|items|ir|word": "fail", "tools|items|ir|reason": "calibration was over", f"{IR}|word": "pass"}


@case("wall")
def no_contact_after_the_reading() -> Found:
    a = Tablet("a")
    contact(a, "2026-11-25")
    a.reads("ir", "5", tool="tester-1")
    return a.log, {"tools|items|ir|word": "cannot tell", "tools|items|ir|reason": "date not certain"}


@case("wall")
def a_contact_of_another_tablet_tells_the_date() -> Found:
    a, b = two()
    a.reads("ir", "5", tool="tester-1")
    b.sees(a)
    contact(b, "2026-11-25")
    return a.log + b.log, {"tools|items|ir|word": "pass"}


@case("wall")
def a_reading_across_the_last_day() -> Found:
    a = Tablet("a")
    contact(a, "2027-01-30")
    a.reads("ir", "5", tool="tester-1")
    contact(a, "2027-02-02")
    return a.log, {"tools|items|ir|word": "cannot tell"}


@case("wall")
def no_instrument_was_named() -> Found:
    a = Tablet("a")
    a.reads("ir", "5")
    return a.log, {"tools|items|ir|reason": "no instrument named", "tools|used": {}}


@case("wall")
def an_instrument_that_is_not_on_the_sheet() -> Found:
    a = Tablet("a")
    a.reads("ir", "5", tool="__proto__")
    return a.log, {"tools|items|ir|reason": "not on the sheet", "tools|used": {}}


@case("wall")
def an_instrument_of_another_kind() -> Found:
    a = Tablet("a")
    a.reads("ir", "5", tool="driver-1")
    return a.log, {"tools|items|ir|reason": "of another kind"}


@case("wall")
def an_instrument_that_is_several() -> Found:
    a = Tablet("a")
    a.reads("ir", "5", tool="multi-1")
    contact(a, "2026-11-25")
    return a.log, {"tools|items|ir|word": "pass"}


@case("wall")
def an_instrument_without_a_date() -> Found:
    a = Tablet("a")
    a.reads("ir", "5", tool="tester-3")
    contact(a, "2026-11-25")
    return a.log, {"tools|items|ir|reason": "no date of calibration"}


@case("wall")
def four_equal_joints_in_one_entry() -> Found:
    a = Tablet("a")
    a.reads("nm", "5.0", "N·m", n=4)
    return a.log, {f"{NM}|state": "recorded", f"{NM}|word": "pass", f"{NM}|values|0|n": 4}


@case("wall")
def three_of_four_joints() -> Found:
    a = Tablet("a")
    a.reads("nm", "5.0", "N·m", n=3)
    return a.log, {f"{NM}|state": "part", f"{NM}|word": "pass"}


@case("wall")
def a_joint_that_differs() -> Found:
    a = Tablet("a")
    a.reads("nm", "5.0", "N·m", n=4, exceptions=[{"which": "2", "value": "6"}, {"which": "3", "value": "x"}])
    return a.log, {f"{NM}|state": "recorded", f"{NM}|word": "fail", f"{NM}|values|0|exceptions|0|word": "fail",
                   f"{NM}|values|0|exceptions|1|reason": "not a number"}  # fmt: skip


@case("wall")
def a_count_that_is_none() -> Found:
    a = Tablet("a")
    for n in (True, "4", 4.5, -4, None, 2**60):
        a.reads("nm", "5.0", "N·m", n=n)
    return a.log, {f"{NM}|state": "part", f"{NM}|values|0|n": 1, f"{NM}|values|5|n": 1}


@case("wall")
def one_photo_of_all_joints() -> Found:
    a = Tablet("a")
    a.tell("photo", "cover", item="photo", sha="1" * 64, bytes=9, mime="image/jpeg", equal=4)
    return a.log, {f"{PHOTO}|state": "recorded", f"{PHOTO}|word": "recorded"}


@case("wall")
def two_photos_of_two_joints_each_by_two_people() -> Found:
    a, b = two()
    a.tell("photo", "cover", item="photo", sha="1" * 64, equal=2)
    b.tell("photo", "cover", item="photo", sha="2" * 64, equal=2)
    return a.log + b.log, {f"{PHOTO}|state": "recorded"}


@case("wall")
def one_photo_twice_is_one_photo() -> Found:
    a, b = two()
    a.tell("photo", "cover", item="photo", sha="1" * 64, equal=2)
    b.tell("photo", "cover", item="photo", sha="1" * 64, equal=2)
    return a.log + b.log, {f"{PHOTO}|state": "part"}


@case("wall")
def a_photo_without_a_hash() -> Found:
    a = Tablet("a")
    a.tell("photo", "cover", item="photo", sha="1" * 63, equal=4)
    return a.log, {f"{PHOTO}|word": "cannot tell", f"{PHOTO}|reason": "no photo"}


@case("wall")
def near_the_limit_of_the_instrument() -> Found:
    a = Tablet("a")
    a.reads("v", "252", "V")
    return a.log, {f"{V}|word": "cannot tell", f"{V}|reason": "near the limit"}


@case("wall")
def an_indication_seen_in_time() -> Found:
    a = Tablet("a")
    a.tell("timer", "live", item="green", seconds=60, waited_ms=60000, judged="seen")
    return a.log, {f"{GREEN}|word": "pass", f"{GREEN}|values|0|value": "seen"}


@case("wall")
def an_indication_not_seen() -> Found:
    a = Tablet("a")
    a.tell("timer", "live", item="green", seconds=60, waited_ms=61000, judged="not seen")
    return a.log, {f"{GREEN}|word": "fail", f"{GREEN}|reason": "not seen"}


@case("wall")
def an_indication_judged_too_early() -> Found:
    a = Tablet("a")
    a.tell("timer", "live", item="green", seconds=60, waited_ms=59999, judged="seen")
    return a.log, {f"{GREEN}|word": "cannot tell", f"{GREEN}|reason": "too early"}


@case("wall")
def an_indication_that_was_not_judged() -> Found:
    a = Tablet("a")
    a.tell("timer", "live", item="green", seconds=60, waited_ms=99999, judged="maybe")
    return a.log, {f"{GREEN}|word": "cannot tell", f"{GREEN}|reason": "no value"}


def scan(a: Tablet, id: str, text: str, **more: Any) -> str:
    return a.tell("scan", "numbers", item=id, text=text, symbology="QR", typed=False, **more)


@case("wall")
def a_serial_by_camera() -> Found:
    a = Tablet("a")
    scan(a, "inverter", "SN-1")
    return a.log, {"work|items|inverter|state": "recorded", "work|items|inverter|word": "recorded"}


@case("wall")
def a_serial_whose_check_failed() -> Found:
    a = Tablet("a")
    scan(a, "inverter", "SN-1", check=False)
    return a.log, {"work|items|inverter|word": "cannot tell", "work|items|inverter|reason": "check failed"}


@case("wall")
def two_serials_of_one_part() -> Found:
    a, b = two()
    scan(a, "inverter", "SN-1")
    scan(b, "inverter", "SN-2")
    return a.log + b.log, {"work|items|inverter|state": "disputed"}


@case("wall")
def serials_of_three_modules() -> Found:
    a, b = two()
    scan(a, "modules", "M-1")
    scan(a, "modules", "M-2")
    scan(b, "modules", "M-3")
    return a.log + b.log, {"work|items|modules|state": "recorded"}


@case("wall")
def one_module_scanned_twice() -> Found:
    a, b = two()
    scan(a, "modules", "M-1")
    scan(a, "modules", "M-2")
    scan(b, "modules", "M-2")
    return a.log + b.log, {"work|items|modules|state": "part"}


LOOK, OFF = "work|steps|cover|holds|cover|state", "work|steps|cover|holds|sign off|state"


def tight(a: Tablet, reader: Tablet | None = None) -> None:
    """The joints are tight, and before that the conductors were read, by somebody else where one is named."""
    by = a if reader is None else reader
    by.reads("ir", "5", tool="tester-1")
    if by is not a:
        a.sees(by)
    a.reads("nm", "5.0", "N·m", tool="driver-1", n=4)


def look(a: Tablet, by: str, seen: object = True, kind: str = "cover", **more: Any) -> str:
    return a.tell("hold", "cover", kind=kind, by=card(by) if by else "", seen=seen, **more)


@case("wall")
def a_second_person_looked() -> Found:
    a = Tablet("a")
    tight(a)
    look(a, "ben")
    return a.log, {LOOK: "seen", OFF: "open"}


@case("wall")
def the_same_person_looked() -> Found:
    a = Tablet("a")
    tight(a)
    look(a, "ana")
    return a.log, {LOOK: "same person"}


@case("wall")
def nobody_said_who_looked() -> Found:
    a = Tablet("a")
    tight(a)
    look(a, "")
    return a.log, {LOOK: "same person"}


@case("wall")
def a_word_that_is_no_card_looked() -> Found:
    a = Tablet("a")
    tight(a)
    a.tell("hold", "cover", kind="cover", by="the inspector", seen=True)
    return a.log, {LOOK: "same person"}


@case("wall")
def who_read_the_conductors_may_look_at_the_joints_and_not_at_all_of_it() -> Found:
    a, b = two()
    tight(a, b)
    look(a, "ben")
    look(a, "ben", kind="sign off")
    return a.log + b.log, {LOOK: "seen", OFF: "same person"}


@case("wall")
def where_no_joint_was_recorded_all_of_it_is_looked_at() -> Found:
    a, b = two()
    b.reads("ir", "5", tool="tester-1")
    a.sees(b)
    look(a, "ben")
    return a.log + b.log, {LOOK: "same person"}


@case("wall")
def where_nothing_was_recorded_it_is_who_did_it() -> Found:
    a = Tablet("a")
    a.tell("done", "lugs")
    look(a, "ben")
    look(a, "ana", kind="sign off")
    return a.log, {LOOK: "seen", OFF: "same person"}


@case("wall")
def who_does_the_step_after_the_look_may_be_the_one_who_looked() -> Found:
    a, b = two()
    tight(a)
    look(a, "ben")
    b.sees(a)
    b.tell("done", "cover")
    return a.log + b.log, {LOOK: "seen"}


@case("wall")
def the_second_person_refused() -> Found:
    a = Tablet("a")
    tight(a)
    look(a, "ben", seen=False, text="mark missing")
    return a.log, {LOOK: "refused", "work|steps|cover|holds|cover|looks|0|text": "mark missing"}


@case("wall")
def refused_and_then_seen() -> Found:
    a = Tablet("a")
    tight(a)
    look(a, "ben", seen=False)
    look(a, "ben")
    return a.log, {LOOK: "seen"}


@case("wall")
def refused_by_one_while_seen_by_another() -> Found:
    a, b = two()
    tight(a)
    look(a, "cem")
    look(b, "ben", seen=False)
    return a.log + b.log, {LOOK: "refused"}


@case("wall")
def a_look_where_nobody_knows_who_worked() -> Found:
    a = Tablet("a", "")
    tight(a)
    look(a, "ben")
    return a.log, {LOOK: "same person"}


@case("wall")
def a_look_before_anything_was_done() -> Found:
    a = Tablet("a")
    look(a, "ben")
    return a.log, {LOOK: "same person"}


@case("wall")
def a_look_that_came_before_the_work_has_not_seen_it() -> Found:
    a = Tablet("a")
    look(a, "ben")
    tight(a)
    return a.log, {LOOK: "open", "work|steps|cover|holds|cover|looks|0|counts": False}


@case("wall")
def joints_that_were_tightened_again_are_looked_at_again() -> Found:
    a = Tablet("a")
    tight(a)
    look(a, "ben")
    a.reads("nm", "5.1", "N·m", tool="driver-1", n=4)
    return a.log, {LOOK: "open"}


@case("wall")
def a_look_on_another_tablet_that_had_not_seen_the_log() -> Found:
    a, b = two()
    tight(a)
    look(b, "ben")
    return a.log + b.log, {LOOK: "seen"}


@case("wall")
def a_void_look() -> Found:
    a = Tablet("a")
    tight(a)
    id = look(a, "ben")
    a.tell("void", of=id, reason="other wall")
    return a.log, {LOOK: "open", "work|steps|cover|holds|cover|looks|0|void": True}


@case("wall")
def two_persons_answer_for_a_look_that_nobody_else_could_take() -> Found:
    a = Tablet("a")
    a.tell("done", "dead")
    tight(a)
    a.tell("done", "lugs")
    a.tell("done", "cover")
    look(a, "ana")
    id = a.tell("override", of="cover", reason="two of us on site", by=card("ben"))
    return a.log, {LOOK: "same person", "work|steps|cover|override": [id],
                   "because|0": {"why": "item open", "what": "green"}}  # fmt: skip


@case("wall")
def a_look_that_was_refused_is_not_answered_for() -> Found:
    a = Tablet("a")
    a.tell("done", "dead")
    tight(a)
    a.tell("done", "lugs")
    look(a, "ben", seen=False)
    a.tell("done", "cover")
    a.tell("override", of="cover", reason="it is fine", by=card("ben"))
    return a.log, {LOOK: "refused", "because|0": {"why": "hold refused", "what": "cover: cover"}}


@case("wall")
def what_was_opened_once_more_is_tested_again() -> Found:
    a = Tablet("a")
    for each in ("dead", "lugs", "cover", "live", "lugs"):
        a.tell("done", each)
    return a.log, {"work|steps|dead|again": True, "work|steps|live|again": True, "work|steps|cover|again": False,
                   "work|steps|dead|state": "done"}  # fmt: skip


def read_live(a: Tablet) -> None:
    a.reads("v", "240", "V")
    a.tell("timer", "live", item="green", seconds=60, waited_ms=60000, judged="seen")


@case("wall")
def tested_again_after_it_was_opened() -> Found:
    a = Tablet("a")
    for each in ("dead", "lugs", "cover", "live", "lugs"):
        a.tell("done", each)
    a.reads("ir", "5", step="dead", done=True)
    read_live(a)
    a.tell("done", "live")
    return a.log, {"work|steps|dead|again": False, "work|steps|live|again": False}


@case("wall")
def done_again_and_not_read_again() -> Found:
    a = Tablet("a")
    a.reads("ir", "5", step="dead", done=True)
    read_live(a)
    for each in ("lugs", "cover", "live", "lugs", "dead", "live"):
        a.tell("done", each)
    return a.log, {"work|steps|dead|again": True, "work|steps|live|again": True}


@case("wall")
def read_again_and_not_said_to_be_done() -> Found:
    a = Tablet("a")
    for each in ("dead", "lugs", "cover", "live", "lugs"):
        a.tell("done", each)
    a.reads("ir", "5")
    return a.log, {"work|steps|dead|again": True}


@case("wall")
def one_of_two_items_read_again() -> Found:
    a = Tablet("a")
    for each in ("dead", "lugs", "cover", "live", "lugs"):
        a.tell("done", each)
    a.reads("v", "240", "V", step="live", done=True)
    return a.log, {"work|steps|live|again": True}


@case("wall")
def what_was_not_done_yet_is_not_done_again() -> Found:
    a = Tablet("a")
    for each in ("dead", "lugs", "lugs"):
        a.tell("done", each)
    return a.log, {"work|steps|dead|again": True, "work|steps|live|again": False, "work|steps|live|state": "open"}


@case("wall")
def done_by_two_at_once_is_not_done_once_more() -> Found:
    a, b = two()
    a.tell("done", "dead")
    a.tell("done", "lugs")
    b.tell("done", "lugs")
    return a.log + b.log, {"work|steps|dead|again": False, "work|steps|lugs|state": "done"}


@case("wall")
def a_whole_day() -> Found:
    a, b = two()
    contact(a, "2026-11-25")
    a.reads("ir", "99", tool="tester-1", step="dead", done=True)
    a.reads("nm", "5.0", "N·m", step="lugs", tool="driver-1", n=4, done=True)
    a.tell("photo", "cover", item="photo", sha="1" * 64, bytes=9, mime="image/jpeg", equal=4)
    a.tell("done", "cover")
    for kind in ("cover", "sign off"):
        a.tell("hold", "cover", kind=kind, by=card("ben"), seen=True)
    b.sees(a)
    b.reads("v", "240.1", "V", step="live")
    b.tell("timer", "live", item="green", seconds=60, waited_ms=60001, judged="seen")
    b.tell("done", "live")
    scan(b, "inverter", "SN-1")
    for each in ("M-1", "M-2", "M-3"):
        scan(b, "modules", each)
    b.reads("who", "agreed", "", step="numbers", done=True)
    contact(b, "2026-11-25")
    return a.log + b.log, {"because": [], "ready": True, "work|steps|live|by": [card("ben")]}


SHEETS: dict[str, Sheet] = {"bare": BARE, "wall": WALL}
