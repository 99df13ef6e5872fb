"""What is said of a record: what was changed and where, what is open, and never more than can be known."""

import json
from typing import Any

import pytest
from signed_record import PHOTO, PHOTO_SHA, SHEET, SHEET_TEXT, Signed, Whole, kinds, said, worked
from tablet import JOB, card, rewritten, text_of

from standfast.fieldwork.record.findings import KINDS, Finding
from standfast.fieldwork.record.verify import Report


@pytest.fixture(scope="module")
def whole() -> Whole:
    return worked()


@pytest.fixture(scope="module")
def open_one() -> Whole:
    return worked(sealed=False)


def the(report: Report, kind: str) -> Finding:
    (found,) = [each for each in report.findings if each.kind == kind]
    return found


def changed(raw: str, **fields: Any) -> str:
    return text_of({**json.loads(raw), **fields})


def test_a_sealed_record_with_known_keys_passes_and_is_ready(whole: Whole) -> None:
    report = said(whole.lines, whole.keys)
    assert (report.word, kinds(report)) == ("pass", [])
    assert report.state is not None and report.state.ready
    assert {log.dev: (log.signed, log.sealed, log.trusted) for log in report.logs} == {
        each.dev: (len(each.log), len(each.log), True) for each in (whole.a, whole.b, whole.office)
    }


def test_one_known_key_that_seals_vouches_for_every_log(whole: Whole) -> None:
    report = said(whole.lines, frozenset({whole.office.public}))
    assert (report.word, kinds(report)) == ("pass", [])


def test_without_a_key_from_elsewhere_nobody_can_tell_who_wrote_it(whole: Whole) -> None:
    report = said(whole.lines)
    assert report.word == "cannot tell" and set(kinds(report)) == {"unknown key"}


def test_a_log_of_a_key_that_nobody_gave_is_told(open_one: Whole) -> None:
    report = said([*open_one.a.raws, *open_one.b.raws], frozenset({open_one.a.public}))
    assert the(report, "other key").dev == open_one.b.dev and report.word == "cannot tell"


def test_an_open_record_is_never_ticked(open_one: Whole) -> None:
    """Signed to its last event, and still nobody can see whether something came after it."""
    report = said([*open_one.a.raws, *open_one.b.raws], open_one.keys)
    assert report.word == "cannot tell" and kinds(report) == ["open end", "open end"]


def test_a_cut_tail_that_nobody_saw_is_cannot_tell(open_one: Whole) -> None:
    a, b = open_one.a.raws, open_one.b.raws
    report = said([*a, *b[:-2]], open_one.keys)
    assert report.word == "cannot tell" and set(kinds(report)) == {"open end", "unsigned tail"}
    assert the(report, "unsigned tail").what == f"events 1 to {len(b) - 2} of this log"


def test_a_cut_tail_that_another_tablet_saw_is_told(open_one: Whole) -> None:
    report = said([*open_one.a.raws[:-1], *open_one.b.raws], open_one.keys)
    assert report.word == "fail"
    told = [each for each in report.findings if each.kind == "cut or rewritten"]
    assert {each.dev for each in told} == {open_one.b.dev}
    assert any("is not here" in each.what for each in told)  # the witness
    assert any(f"had {len(open_one.a.log)} events" in each.what for each in told)  # what it had seen


def test_a_cut_tail_of_a_sealed_record_is_told(whole: Whole) -> None:
    report = said([*whole.a.raws[:-1], *whole.b.raws, *whole.office.raws], whole.keys)
    assert "seal broken" in kinds(report, "fail")


def test_a_log_written_anew_with_its_own_key_is_told_by_the_witness(open_one: Whole) -> None:
    forged = Signed("a", "ana")
    for event in open_one.a.log[1:-1]:
        data = dict(event.data)
        if event.type == "reading" and data["values"][0]["item"] == "ir":
            data["values"] = [{**data["values"][0], "value": "120"}]
        forged.write(event.type, event.step, data)
    forged.checkpoint()
    report = said([*forged.raws, *open_one.b.raws], open_one.keys)
    assert "is another one" in the(report, "cut or rewritten").what


def test_an_altered_event_is_told_with_its_line(whole: Whole) -> None:
    lines = whole.lines
    place = next(number for number, raw in enumerate(lines) if '"99"' in raw)
    lines[place] = lines[place].replace('"99"', '"98"')
    report = said(lines, whole.keys)
    altered = the(report, "altered")
    assert (altered.line, altered.dev, altered.seq) == (place + 1, whole.a.dev, place + 1)
    assert "sealed state" in kinds(report)  # what was sealed and signed does not follow from it any more
    assert "signed state" in kinds(report)


def test_the_last_event_altered_is_told_by_the_seal(whole: Whole) -> None:
    lines = [*whole.a.raws, *whole.b.raws, whole.office.raws[0], changed(whole.office.raws[1], step="x")]
    assert kinds(said(lines, whole.keys), "fail") == []  # the envelope of the seal itself: docs/record.md
    data = json.loads(whole.office.raws[1])["data"]
    lines[-1] = changed(whole.office.raws[1], data={**data, "state": "0" * 64})
    assert {"bad signature", "sealed state"} <= set(kinds(said(lines, whole.keys), "fail"))


def test_a_removed_event_is_told_with_its_place(whole: Whole) -> None:
    lines = whole.lines
    del lines[2:4]
    removed = the(said(lines, whole.keys), "removed")
    assert (removed.what, removed.line) == ("events 3 to 4 of this log missing before event 5", 3)


def test_a_removed_beginning_is_told(whole: Whole) -> None:
    report = said(whole.lines[1:], whole.keys)
    assert the(report, "removed").what == "event 1 of this log missing before event 2"
    assert the(report, "no key").dev == whole.a.dev


def test_a_whole_log_taken_out_is_told_by_those_who_saw_it(whole: Whole) -> None:
    report = said([*whole.b.raws, *whole.office.raws], whole.keys)
    assert {"cut or rewritten", "seal broken"} <= set(kinds(report, "fail"))


def test_lines_in_another_order_are_told_and_harmless(whole: Whole) -> None:
    lines = whole.lines
    lines[2], lines[3] = lines[3], lines[2]
    report = said(lines, whole.keys)
    assert report.word == "pass" and kinds(report) == ["reordered"]
    assert report.state == said(whole.lines, whole.keys).state


def test_events_that_changed_places_are_told(whole: Whole) -> None:
    """Not the lines but the numbers: the hashes do not fit any more."""
    lines = whole.lines
    lines[2], lines[3] = changed(lines[3], seq=3), changed(lines[2], seq=4)
    assert "altered" in kinds(said(lines, whole.keys), "fail")


def test_a_line_twice_is_told_and_harmless(whole: Whole) -> None:
    report = said([*whole.lines, whole.lines[4]], whole.keys)
    assert report.word == "pass" and "doubled" in kinds(report)


def test_a_fork_is_told_and_is_open_even_when_it_is_settled(open_one: Whole) -> None:
    a = open_one.a
    other = rewritten(a.log[3], id="00000000-0000-0000-0000-0000000000ff", step="dead")
    lines = [*a.raws, other.raw]
    forked = the(said(lines, open_one.keys), "forked")
    assert (forked.seq, forked.line, forked.what) == (
        4, 4, f"another text for this place stands in line {len(a.log) + 1} of record.ndjson",
    )  # fmt: skip
    office = Signed("f", "")
    office.tell("resolve", of=[a.log[3].id, other.id], keep=a.log[3].id, reason="the tablet was restored")
    report = said([*lines, *office.raws], open_one.keys)
    assert "forked" not in kinds(report) and "fork settled" in kinds(report, "cannot tell")


def test_a_text_that_is_no_event(whole: Whole) -> None:
    for text, why in (("{}", "v is missing"), ("no", "not JSON"), ("[1]", "not an object"), ("\xff", "not JSON")):
        found = the(said([*whole.lines, text], whole.keys), "not an event")
        assert why in found.what and found.line == len(whole.lines) + 1
    assert "no UTF-8" in the(said("\n".join(whole.lines).encode() + b"\n\xff\n", whole.keys), "not an event").what


def test_an_event_of_another_job_is_told(whole: Whole) -> None:
    foreign = changed(whole.a.raws[0], job=JOB.replace("0", "1"))
    report = said([*whole.lines, foreign], whole.keys)
    assert the(report, "another job").line == len(whole.lines) + 1


def test_a_checkpoint_over_something_else_is_told(open_one: Whole) -> None:
    a = Signed("a")
    a.tell("done", "dead")
    a.tell("checkpoint", sig=json.loads(open_one.a.raws[-1])["data"]["sig"])
    report = said(a.raws, open_one.keys)
    assert the(report, "bad signature").seq == 3
    assert the(report, "unsigned tail").what == "events 1 to 3 of this log"
    for sig in ("", "no base64", "AAAA", None, 3):
        b = Signed("a")
        b.tell("checkpoint", sig=sig)
        assert "bad signature" in kinds(said(b.raws), "fail")


def test_a_log_without_a_key(open_one: Whole) -> None:
    for key in ("", "no key", "AAAA", None):
        a = Signed("a")
        begun = changed(a.raws[0], data={"sheet": SHEET, "key": key, "device": "tablet a"})
        assert "no key" in kinds(said([begun], open_one.keys))


def test_a_log_that_begins_twice(open_one: Whole) -> None:
    a = Signed("a")
    a.tell("begin", sheet=SHEET, key=Signed("b").public, device="tablet a")
    assert the(said(a.raws), "begun twice").seq == 2


def test_two_places_with_one_id() -> None:
    a = Signed("a")
    a.write("done", "dead", {}, id=a.log[0].id)
    assert the(said(a.raws), "id twice").seq == 2


def test_what_a_later_version_wrote_is_kept_and_open(open_one: Whole) -> None:
    for type, v in (("weather", 1), ("done", 2)):
        a = Signed("a")
        a.tell(type, v=v)
        assert the(said(a.raws), "later version").word == "cannot tell"


def test_after_the_seal(whole: Whole) -> None:
    b = Signed("b", "ben")
    b.log, b.seen = list(whole.b.log), dict(whole.b.seen)
    b.tell("clock", server="2026-11-26T12:00:00.000Z", wall="", mono=1, boot="b")
    b.checkpoint()
    report = said([*whole.a.raws, *b.raws, *whole.office.raws], whole.keys)
    assert report.word == "pass" and kinds(report) == ["harmless"]
    b.reads("v", "239", "V")
    report = said([*whole.a.raws, *b.raws, *whole.office.raws], whole.keys)
    assert report.word == "cannot tell" and "after the seal" in kinds(report)


def test_a_log_that_the_seal_does_not_name(whole: Whole) -> None:
    c = Signed("c", "cem")
    c.tell("done", "dead")
    report = said([*whole.lines, *c.raws], whole.keys | {c.public})
    assert the(report, "not sealed").dev == c.dev and report.word == "cannot tell"


@pytest.mark.parametrize("heads", [None, {}, {"x": {"seq": 1, "hash": "0" * 64}}, {"a": 3}, [1]])
def test_a_seal_that_cannot_be_read(heads: object) -> None:
    office = Signed("f")
    office.tell("seal", heads=heads, sheet=SHEET, state="0" * 64, sig="")
    assert "seal faulty" in kinds(said(office.raws), "fail")


def test_a_seal_by_another_key_is_told(whole: Whole) -> None:
    office = Signed("f", "")
    office.key = whole.a.key
    office.seen = whole.office.seen
    office.seals([*whole.a.log, *whole.b.log, *office.log], whole.a, whole.b, office)
    assert the(said([*whole.a.raws, *whole.b.raws, *office.raws], whole.keys), "bad signature").seq == 2


def test_files_missing_exchanged_and_erased(whole: Whole) -> None:
    sheet = {f"files/{SHEET}": SHEET_TEXT.encode()}
    report = said(whole.lines, whole.keys, files=sheet)
    missing = {each.what for each in report.findings if each.kind == "file missing"}
    assert missing == {f"file {PHOTO_SHA} is not there", *(f"card {card(one)} is not there" for one in ("ana", "ben"))}
    report = said(whole.lines, whole.keys, files={**sheet, f"photos/{PHOTO_SHA}.jpg": PHOTO + b"!"})
    assert the(report, "wrong file").file == f"photos/{PHOTO_SHA}.jpg"
    office = Signed("f", "")
    office.log, office.seen = list(whole.office.log), whole.office.seen
    office.tell("erased", what=[PHOTO_SHA, card("ana"), card("ben")], reason="asked for")
    office.checkpoint()
    report = said([*whole.a.raws, *whole.b.raws, *office.raws], whole.keys, files=sheet)
    assert kinds(report, "fail") == [] and kinds(report).count("erased") == 3
    assert "file missing" not in kinds(report)


def test_events_alone_say_that_no_files_were_given(whole: Whole) -> None:
    report = said(whole.lines, whole.keys, files={})
    assert the(report, "files not given").what == "3 files that the record names"
    assert report.state is None and "sheet missing" in kinds(report) and report.word == "cannot tell"
    assert "signature open" in kinds(report)


def test_a_signature_on_another_state(open_one: Whole) -> None:
    a = Signed("a")
    a.reads("ir", "5")
    a.tell("sign", role="crew", by=card("ana"), state="0" * 64, vector={a.dev: 2})
    a.tell("sign", role="crew", by=card("ana"), state="0" * 64, vector={a.dev: 9})
    a.tell("sign", role="crew", by=card("ana"), state="0" * 64)
    report = said(a.raws)
    assert the(report, "signed state").seq == 3
    assert [each.seq for each in report.findings if each.kind == "signature open"] == [4, 5]


def test_nothing_at_all() -> None:
    for text in (b"", b"\n\n", b"no\n"):
        report = said(text)
        assert report.word == "fail" and report.findings[0].kind == "no record"


def test_every_kind_says_why_and_what_to_do_unless_it_is_harmless() -> None:
    for kind, (word, why, todo) in KINDS.items():
        assert word in ("pass", "fail", "cannot tell")
        assert why or kind == "stamp"
        assert bool(todo) == (word != "pass"), kind
