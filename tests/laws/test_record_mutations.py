"""Whatever is changed in a record is found, or stands in what is said to be open. What nobody can know is listed here.

UNKNOWABLE:

* The order of lines of different logs: it is that in which they arrived, and no part of the record.
* Clock, time zone, counter, start, program, person, step, id and `seen` of the very event that signs: the signature
  covers what stands before it, and of a seal what it seals. Nothing signs the signing event itself until the next one.
* Everything after the last signature, and whether anything came after the last event: told as open.
"""

import json
from functools import cache
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from signed_record import Whole, kinds, said, worked
from signed_record import given as there_is
from tablet import text_of

from standfast.fieldwork.record.chain import chained, read_record
from standfast.fieldwork.record.event import Event, NotAnEvent, hash_of, read
from standfast.fieldwork.record.seal import Head, Sealed, stamp
from standfast.fieldwork.record.sheet import NotASheet, read_sheet
from standfast.fieldwork.record.verify import Report, verify


@cache
def sealed() -> Whole:
    return worked()


@cache
def unsealed() -> Whole:
    return worked(sealed=False)


def content(lines: list[str]) -> bytes:
    return "".join(f"{line}\n" for line in lines).encode()


WHOLE = content(worked().lines)
SEAL_AT = WHOLE.rindex(b'{"v":1')
"""Where the event of the seal begins, which is the last."""
ENVELOPE = ("wall", "tz", "mono", "boot", "app", "user", "step", "id", "seen")


def only_the_envelope(line: bytes) -> bool:
    """Whether an event differs from that of the seal only in what its signature does not cover."""
    try:
        found, seal = json.loads(line), json.loads(WHOLE[SEAL_AT:])
    except ValueError:
        return False
    return all(found.get(key) == value for key, value in seal.items() if key not in ENVELOPE)


@given(st.integers(0, len(WHOLE) - 1), st.integers(1, 255))
def test_a_byte_that_flips_is_found(place: int, flip: int) -> None:
    changed = bytearray(WHOLE)
    changed[place] ^= flip
    report = said(bytes(changed), sealed().keys)
    if report.word == "pass":
        assert place >= SEAL_AT and only_the_envelope(bytes(changed[SEAL_AT:]).rstrip(b"\n"))


def test_every_byte_of_a_line_that_flips_is_found_by_the_chain_alone() -> None:
    """One line in full, since chance may miss a byte."""
    log = content(sealed().a.raws)
    begin = log.index(b"\n") + 1
    for place in range(begin, log.index(b"\n", begin) + 1):
        changed = bytearray(log)
        changed[place] ^= 1
        record = read_record([("record.ndjson", bytes(changed))])
        assert "fail" in {each.word for each in (*record.findings, *chained(record))}


@given(st.sets(st.integers(0, len(sealed().lines) - 1), min_size=1, max_size=3))
def test_lines_that_are_removed_are_found(places: set[int]) -> None:
    report = said([line for place, line in enumerate(sealed().lines) if place not in places], sealed().keys)
    assert report.word != "pass"
    if places != {len(sealed().lines) - 1}:  # without the seal alone nothing is known to be missing
        assert report.word == "fail"


@given(st.integers(0, len(sealed().lines) - 1), st.integers(0, len(sealed().lines) - 1))
def test_lines_that_change_places_change_nothing_and_are_told_within_a_log(one: int, other: int) -> None:
    lines = sealed().lines
    lines[one], lines[other] = lines[other], lines[one]
    report = said(lines, sealed().keys)
    assert (report.word, report.state) == ("pass", said(WHOLE, sealed().keys).state)
    if one != other and read(lines[one]).dev == read(lines[other]).dev:
        assert "reordered" in kinds(report)


@given(st.integers(0, len(sealed().lines) - 1), st.integers(0, len(sealed().lines)))
def test_a_line_that_stands_twice_is_told(one: int, to: int) -> None:
    lines = sealed().lines
    lines.insert(to, lines[one])
    report = said(lines, sealed().keys)
    assert report.word == "pass" and kinds(report).count("doubled") == 1


CHANGES: list[dict[str, Any]] = [
    {"wall": "2020-01-01T00:00:00.000Z"}, {"user": "f" * 64}, {"step": "lugs"}, {"type": "done"}, {"data": {}},
    {"id": "00000000-0000-0000-0000-0000000000ee"}, {"app": "9.9"}, {"seen": {}}, {"mono": 1}, {"type": "weather"},
]  # fmt: skip


def chained_anew(log: list[Event], place: int, change: dict[str, Any]) -> list[str]:
    """A log with one event changed and every later one chained to it anew, by somebody without the key."""
    raws: list[str] = []
    for number, event in enumerate(log):
        if number < place:
            raws.append(event.raw)
            continue
        fields = {**json.loads(event.raw), **(change if number == place else {})}
        raws.append(text_of({**fields, "prev": hash_of(raws[-1]) if raws else fields["prev"]}))
    return raws


@given(st.sampled_from("ab"), st.integers(0, 20), st.sampled_from(CHANGES))
def test_a_log_that_is_chained_anew_contradicts_the_seal(letter: str, place: int, change: dict[str, Any]) -> None:
    whole = sealed()
    log = {"a": whole.a, "b": whole.b}[letter].log
    raws = chained_anew(log, place % len(log), change)
    if raws[-1] == log[-1].raw:  # the change was none
        return
    logs = {"a": whole.a.raws, "b": whole.b.raws, letter: raws}
    report = said([*logs["a"], *logs["b"], *whole.office.raws], whole.keys)
    assert report.word == "fail" and "seal broken" in kinds(report)


@given(st.integers(0, 20), st.sampled_from(CHANGES), st.integers(2, 20))
def test_without_a_seal_a_log_chained_anew_is_found_or_stands_in_what_is_open(
    place: int, change: dict[str, Any], upto: int
) -> None:
    whole = unsealed()
    log = whole.b.log[: max(2, upto % (len(whole.b.log) + 1))]
    place %= len(log)
    raws = chained_anew(log, place, change)
    report = said([*whole.a.raws, *raws], whole.keys)
    if report.word != "fail":
        (end,) = [each for each in report.logs if each.dev == whole.b.dev]
        assert report.word == "cannot tell" and "open end" in kinds(report)
        signs_itself = log[place].type == "checkpoint" and place == len(log) - 1
        assert raws[-1] == log[-1].raw or place + 1 > end.signed or signs_itself


@given(st.binary(max_size=200) | st.text(max_size=200).map(str.encode))
def test_no_bytes_make_the_reader_of_a_record_stumble(text: bytes) -> None:
    assert said(text).word == "fail" or b"dev" in text
    assert said(WHOLE + text, sealed().keys).logs


@given(st.integers(0, len(WHOLE)), st.integers(0, len(WHOLE)), st.binary(max_size=20))
def test_no_piece_that_is_exchanged_makes_it_stumble(begin: int, long: int, text: bytes) -> None:
    assert isinstance(said(WHOLE[:begin] + text + WHOLE[begin + long % 300 :], sealed().keys), Report)


@given(st.text(max_size=60) | st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=3),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(
        st.sampled_from(("schema", "steps", "tools", "items", "id", "after", "redo", "holds", "kind", "limit")), inner,
        max_size=6,
    ), max_leaves=15,
).map(json.dumps))  # fmt: skip
def test_no_text_makes_the_readers_of_events_and_sheets_stumble(text: str) -> None:
    for reader in (read, read_sheet):
        try:
            reader(text)
        except (NotAnEvent, NotASheet) as error:
            assert str(error)


SEALED = Sealed("job", "0" * 64, "1" * 64, {"dev": Head(1, "2" * 64)})


@given(st.binary(max_size=300))
def test_no_bytes_make_the_reader_of_time_stamps_stumble(token: bytes) -> None:
    assert stamp(token, SEALED).word in ("fail", "cannot tell")


ODD = (
    st.none() | st.text(max_size=9) | st.integers()
    | st.dictionaries(st.text(max_size=3), st.integers() | st.text(max_size=3))
)  # fmt: skip


@given(st.dictionaries(st.sampled_from(("heads", "sheet", "state", "sig", "token", "key")), ODD, max_size=6))
def test_whatever_a_seal_or_a_signature_holds_is_told(data: dict[str, Any]) -> None:
    whole = worked(sealed=False)
    for type in ("seal", "checkpoint", "sign", "witness", "erased"):
        whole.office.tell(type, **data)
    report = verify(there_is(whole.lines, whole.keys))
    assert report.word == "fail"
