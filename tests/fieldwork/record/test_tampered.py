"""Who has the file of a sealed record and no key can change it in no way that passes, but what is told as harmless."""

import json
from collections.abc import Callable
from uuid import UUID

from hypothesis import given, settings
from hypothesis import strategies as st
from signed_record import kinds, said, worked
from tablet import text_of

from standfast.fieldwork.record.event import NotAnEvent, read
from standfast.fieldwork.record.vouched import HARMLESS

WHOLE = worked()
LINES = WHOLE.lines
KEYS = frozenset({WHOLE.office.public})
Change = Callable[[list[str]], None]
FIELDS = ("seq", "prev", "id", "type", "step", "data", "seen", "user", "dev", "job", "v")
WRONG = (0, 1, 2, "", "x", "0" * 64, {}, {"of": WHOLE.a.log[1].id, "reason": "x"}, str(UUID(int=7)))
TYPES = ("reading", "void", "hold", "erased", "sheet", "resolve", "override", "seal", "begin", "done", *HARMLESS)


def letter(place: int, at: int, mark: str) -> Change:
    def change(lines: list[str]) -> None:
        line = lines[place % len(lines)]
        at_ = at % len(line)
        lines[place % len(lines)] = line[:at_] + mark + line[at_ + 1 :]

    return change


def field(place: int, name: str, value: object) -> Change:
    def change(lines: list[str]) -> None:
        line = lines[place % len(lines)]
        try:
            read(line)
        except NotAnEvent:
            return
        lines[place % len(lines)] = text_of({**json.loads(line), name: value})

    return change


def out(place: int, more: int) -> Change:
    def change(lines: list[str]) -> None:
        del lines[place % len(lines) : place % len(lines) + more]

    return change


def added(log: int, type: str, back: int) -> Change:
    """An event at the end of a log, or in the place of one of its last."""

    def change(lines: list[str]) -> None:
        tablet = (WHOLE.a, WHOLE.b, WHOLE.office)[log]
        before = tablet.log[-1 - back % (len(tablet.log) - 1)]
        fields = {**json.loads(before.raw), "seq": before.seq + 1, "prev": before.hash, "id": str(UUID(int=log + 99))}
        lines.append(text_of({**fields, "type": type, "data": {"of": WHOLE.a.log[1].id, "reason": "x"}}))

    return change


PLACE = st.integers(0, len(LINES) - 1)
CHANGES = st.one_of(
    st.builds(letter, PLACE, st.integers(0, 2000), st.sampled_from('0a9Z" {}\u00e9')),
    st.builds(field, PLACE, st.sampled_from(FIELDS), st.sampled_from(WRONG)),
    st.builds(out, PLACE, st.integers(1, 4)),
    st.builds(added, st.integers(0, 2), st.sampled_from(TYPES), st.integers(0, 3)),
)


def harmless(line: str) -> bool:
    """Told as harmless, or the entry of the seal, of which its signature covers what it seals and nothing else."""
    return read(line).type in (*HARMLESS, "seal")


@settings(max_examples=250, deadline=None)
@given(st.lists(CHANGES, min_size=1, max_size=3))
def test_no_change_passes(changes: list[Change]) -> None:
    lines = list(LINES)
    for change in changes:
        if lines:
            change(lines)
    report = said(lines, KEYS)
    if report.word == "pass":
        assert set(kinds(report)) <= {"harmless", "doubled", "reordered", "clock set"}
        assert all(harmless(each) for each in set(lines) ^ set(LINES))
