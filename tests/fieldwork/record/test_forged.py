"""Records that were forged with some care: by a crew member, by who has the file, by who holds an office's export."""

import json
from hashlib import sha256
from typing import Any

import pytest
from signed_record import PHOTO_SHA, SHEET, SHEET_TEXT, Signed, Whole, given, kinds, said, worked
from tablet import JOB, WALL, card, rewritten

from standfast.fieldwork.record.findings import Finding
from standfast.fieldwork.record.seal import Head, Sealed, sign
from standfast.fieldwork.record.verify import Report, verify


@pytest.fixture
def whole() -> Whole:
    return worked()


@pytest.fixture
def open_one() -> Whole:
    return worked(sealed=False)


def of(report: Report, kind: str) -> list[Finding]:
    return [each for each in report.findings if each.kind == kind]


def named(record: Whole, **names: str) -> Report:
    """What is said where the cards can be read, each with a name."""
    made = given(record.lines, record.keys)
    cards = {card(who): json.dumps({"salt": who, "name": name}).encode() for who, name in names.items()}
    return verify(made._replace(content=lambda sha: cards.get(sha) or made.content(sha)))


def test_a_second_text_under_an_id_that_somebody_settled_is_a_fork_all_the_same(open_one: Whole) -> None:
    """A word on two readings names their ids; a forger gave his text for one of the places the same id."""
    a, b = open_one.a, open_one.b
    mine = b.reads("ir", "98", tool="tester-1", step="dead")
    b.tell("resolve", of=[a.log[2].id, mine], keep=mine, reason="read again")
    forged = rewritten(a.log[2], wall="2026-11-25T09:00:00.000Z")
    report = said([*a.raws, forged.raw, *b.raws], open_one.keys)
    assert "forked" in kinds(report, "fail") and "fork settled" not in kinds(report)


@pytest.mark.parametrize("type", ["hold", "override", "sign"])
def test_the_word_of_nobody_is_told(open_one: Whole, type: str) -> None:
    open_one.b.tell(type, "cover", by="the inspector", kind="cover", seen=True)
    (found,) = of(said(open_one.lines, open_one.keys), "no card")
    assert (found.word, found.seq, type in found.what) == ("cannot tell", len(open_one.b.log), True)


def test_one_person_with_two_cards_is_no_second_person(whole: Whole) -> None:
    """Ana tightened the joints and looked at them under a card that she made for it, of a name that looks the same."""
    assert of(named(whole, ana="Ana López", ben="Ben Ito"), "one name") == []
    report = named(whole, ana="Ana López", ben="ANA  Lope\u0301z\u200b")
    assert report.word == "cannot tell" and report.state is not None and report.state.ready
    assert {each.what.partition(",")[0] for each in of(report, "one name")} == {
        "hold same person: cover: cover", "hold same person: cover: sign off",
    }  # fmt: skip


def test_cards_that_are_none_name_nobody(whole: Whole) -> None:
    made = given(whole.lines, whole.keys)
    for text in (b"[" * 60_000, b"{}", b'{"name": 5}', b"\xff", b'{"name": ""}'):
        assert of(verify(made._replace(content=lambda sha, text=text: made.content(sha) or text)), "one name") == []


def lax() -> tuple[str, str]:
    """The field sheet of the tests with a limit that everything passes; its text and hash."""
    sheet: dict[str, Any] = json.loads(SHEET_TEXT)
    (asked,) = [item for step in sheet["steps"] for item in step["items"] if item["id"] == "ir"]
    asked["limit"] = {**asked["limit"], "value": "0.001"}
    text = json.dumps(sheet)
    return text, sha256(text.encode()).hexdigest()


def with_lax(record: Whole, keys: frozenset[str]) -> Report:
    text, sha = lax()
    made = given(record.lines, keys)
    files = (*made.files, (f"files/{sha}", sha))
    return verify(made._replace(files=files, content=lambda each: text.encode() if each == sha else made.content(each)))


def test_a_laxer_sheet_in_the_middle_of_a_job_is_told(open_one: Whole) -> None:
    open_one.b.tell("sheet", sheet=lax()[1], was=SHEET)
    (found,) = of(with_lax(open_one, open_one.keys), "other limits")
    assert found.word == "cannot tell" and "1 things" in found.what and found.what.endswith("ir")


def test_a_sheet_for_which_the_office_stands_is_told_and_in_order(open_one: Whole) -> None:
    a, b, office = open_one
    b.tell("sheet", sheet=lax()[1], was=SHEET)
    b.checkpoint()
    office.sees(a, b)
    office.seals([*a.log, *b.log, *office.log], a, b, office)
    trusted, unknown = with_lax(open_one, frozenset({office.public})), with_lax(open_one, frozenset())
    assert [each.word for each in of(trusted, "other limits")] == ["pass"] and trusted.word == "pass"
    assert [each.word for each in of(unknown, "other limits")] == ["cannot tell"]


def test_a_tablet_that_says_the_office_erased_a_photo_is_not_believed(open_one: Whole) -> None:
    open_one.b.tell("erased", what=[PHOTO_SHA], reason="asked for")
    files = {f"files/{SHEET}": SHEET_TEXT.encode()}
    (found,) = of(said(open_one.lines, frozenset({open_one.office.public}), files=files), "erasure open")
    assert (found.word, found.dev) == ("cannot tell", open_one.b.dev) and "asked for" in found.what
    assert of(said(open_one.lines, open_one.keys, files=files), "erased")


def test_an_erasure_without_a_reason_is_open(open_one: Whole) -> None:
    open_one.office.tell("erased", what=[PHOTO_SHA], reason="")
    files = {f"files/{SHEET}": SHEET_TEXT.encode()}
    assert of(said(open_one.lines, open_one.keys, files=files), "erasure open")


def test_a_seal_by_a_log_that_calls_itself_the_office_vouches_for_nothing(open_one: Whole) -> None:
    """Everything else is as it was: the forger rewrote one log, and sealed all of it with a key of his own."""
    forger = Signed("e", "")
    forger.sees(open_one.a, open_one.b)
    forger.seals([*open_one.a.log, *open_one.b.log, *forger.log], open_one.a, open_one.b, forger)
    lines = [*open_one.a.raws, *open_one.b.raws, *forger.raws]
    report = said(lines, frozenset({open_one.office.public}))
    assert report.word == "cannot tell" and not any(log.trusted for log in report.logs)
    assert {each.dev for each in of(report, "other key")} == {open_one.a.dev, open_one.b.dev, forger.dev}


def test_a_seal_whose_heads_are_not_those_of_the_logs_is_broken(open_one: Whole) -> None:
    office, a, b = open_one.office, open_one.a, open_one.b
    heads = {each.dev: Head(len(each.log), each.log[-1].hash) for each in (a, b, office)}
    heads[a.dev] = Head(len(a.log), "0" * 64)
    sealed = Sealed(JOB, SHEET, "1" * 64, heads)
    office.tell("seal", **sealed.as_data(), sig=sign(sealed.text, office.key))
    report = said([*a.raws, *b.raws, *office.raws], open_one.keys)
    assert "seal broken" in kinds(report, "fail") and all(log.sealed == 0 for log in report.logs)


def test_the_seal_of_another_job_is_no_seal_of_this_one(whole: Whole) -> None:
    seal = whole.office.log[-1]
    sealed = Sealed("00000000-0000-0000-0000-0000000000ff", SHEET, seal.data["state"], {})
    other = rewritten(seal, data={**seal.data, "sig": sign(sealed.text, whole.office.key)})
    lines = [*whole.a.raws, *whole.b.raws, *whole.office.raws[:-1], other.raw]
    assert "bad signature" in kinds(said(lines, whole.keys), "fail")


def test_the_sheet_of_the_tests_has_what_is_loosened() -> None:
    assert any(item["id"] == "ir" and item["limit"] for step in WALL["steps"] for item in step["items"])


def test_a_refusal_that_the_worker_declared_void_is_told(open_one: Whole) -> None:
    """Ben looked and refused; Ana, who holds the tablet, took it back, and his look of before counts again."""
    a, _, office = open_one
    refusal = a.tell("hold", "cover", kind="cover", by=card("ben"), seen=False, text="two joints have no mark")
    assert of(said(open_one.lines, open_one.keys), "refusal void") == []
    a.tell("void", "cover", of=refusal, reason="typed wrong")
    (found,) = of(said(open_one.lines, frozenset({office.public})), "refusal void")
    assert (found.word, found.dev, "typed wrong" in found.what) == ("cannot tell", a.dev, True)
    assert of(said(open_one.lines, frozenset({a.public})), "refusal void")[0].word == "pass"


def test_who_refused_may_take_it_back(open_one: Whole) -> None:
    b = open_one.b
    refusal = b.tell("hold", "cover", kind="cover", by=card("ben"), seen=False)
    b.tell("void", "cover", of=refusal, reason="looked at the wrong cover")
    assert of(said(open_one.lines, open_one.keys), "refusal void") == []
