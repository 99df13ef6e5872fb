"""Everything that can be said about a record from what was given: what is proven, what is wrong, what is open."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from standfast.fieldwork.record import clocks, named_sheets, persons
from standfast.fieldwork.record.causal import known, listed, text
from standfast.fieldwork.record.chain import Record, chained, read_record
from standfast.fieldwork.record.compare import Word, worst
from standfast.fieldwork.record.event import HASH
from standfast.fieldwork.record.findings import Finding, Place, found
from standfast.fieldwork.record.fold import fold
from standfast.fieldwork.record.logs import files as named_files
from standfast.fieldwork.record.state import State
from standfast.fieldwork.record.vouched import Trust, Vouched, key_of, signatures, vouched


class Given(NamedTuple):
    """What there is of a record.

    Attributes:
        texts: the files with events, and what is in them.
        files: name and hash of every other file; empty where only the events were given.
        content: what is in a file, by its hash; None where it is not there.
        trust: what is known from elsewhere.
    """

    texts: tuple[tuple[str, bytes], ...]
    files: tuple[tuple[str, str], ...]
    content: Callable[[str], bytes | None]
    trust: Trust


class Log(NamedTuple):
    """One log: how many events, the last place, how far it is signed and sealed, whether its key is known."""

    dev: str
    events: int
    last: int
    signed: int
    sealed: int
    trusted: bool


class Report(NamedTuple):
    """What can be said about a record.

    Attributes:
        job: its id.
        word: the worst of the findings; pass where there is nothing against it and nothing open.
        logs: each log.
        findings: in the order of the files.
        state: what follows from it under the newest field sheet that is at hand; None without one.
    """

    job: str
    word: Word
    logs: tuple[Log, ...]
    findings: tuple[Finding, ...]
    state: State | None


def verify(given: Given) -> Report:
    """Say what can be said about a record, and no more."""
    record = read_record(given.texts)
    if not record.logs:
        nothing = found("no record", "there is no event")
        return Report("", "fail", (), (nothing, *record.findings), None)
    sheets, of_sheets = named_sheets.at_hand(record, given.content)
    stands = vouched(record, sheets, given.trust)
    newest = named_sheets.judged_by(record, sheets)
    findings = [
        *record.findings, *chained(record), *stands.findings, *signatures(record, sheets), *of_sheets,
        *_files(record, given), *persons.without_card(record), *_taken_back(record, given.trust),
        *clocks.jumped(record),
    ]  # fmt: skip
    if newest is not None:
        findings += named_sheets.otherwise(record, sheets, newest, _stood_for(record, stands))
        findings += _behind_two(record, given, sheets[newest])
    names = [name for name, _ in given.texts]
    findings.sort(key=lambda each: (names.index(each.file) if each.file in names else len(names), each.line))
    logs = tuple(
        Log(dev, sum(map(len, log.values())), record.end(dev), stands.signed[dev], stands.sealed.get(dev, 0),
            dev in stands.trusted)
        for dev, log in record.logs.items()
    )  # fmt: skip
    state = None if newest is None else fold(record.events, sheets[newest])
    word = worst([each.word for each in findings] or ["pass"])
    return Report(record.job, word, logs, tuple(findings), state)


def _stood_for(record: Record, stands: Vouched) -> set[str]:
    """Hashes of the field sheets that were sealed by a key that is known from elsewhere."""
    seals = [each for each in record.events if each.type == "seal" and each.dev in stands.trusted]
    return {text(each.data, "sheet") for each in seals if each.seq <= stands.sealed.get(each.dev, 0)}


def _taken_back(record: Record, trust: Trust) -> Iterator[Finding]:
    """Refusals that somebody else declared void; of a log whose key was given it is told, and in order."""
    for kept, each in persons.taken_back(record):
        yield each._replace(word="pass", todo="") if key_of(record, kept.event.dev) in trust.keys else each


def _behind_two(record: Record, given: Given, sheet: Mapping[str, Any]) -> Iterator[Finding]:
    """What would not count if two cards of one name were one person's."""
    there = {sha: given.content(sha) for sha in persons.named_cards(record.events)}
    cards = {sha: each.decode("utf-8", "replace") for sha, each in there.items() if each is not None}
    for each in persons.behind_two(record.events, sheet, cards):
        yield found("one name", f"{each}, if two cards of one name are one person's")


def _files(record: Record, given: Given) -> Iterator[Finding]:
    """Files that are named and not there, exchanged, or erased on purpose."""
    told = known(record.events)
    wanted = {
        **dict.fromkeys(persons.named_cards(record.events), "card"),
        **dict.fromkeys(named_files(told), "file"),
    }
    there = {sha for _, sha in given.files}
    for name, sha in given.files:
        stem = name.rpartition("/")[2].partition(".")[0]
        if HASH.fullmatch(stem) and stem != sha:
            yield found("wrong file", f"{name} holds something else, {sha}", Place(name))
    erased = dict(_erased(record, wanted, given.trust))
    missing = {sha: what for sha, what in wanted.items() if sha not in there and sha not in erased}
    yield from (each for sha, each in erased.items() if sha not in there)
    if missing and not given.files:
        yield found("files not given", f"{len(missing)} files that the record names")
    else:
        yield from (found("file missing", f"{what} {sha} is not there") for sha, what in missing.items())


def _erased(record: Record, wanted: Mapping[str, str], trust: Trust) -> Iterator[tuple[str, Finding]]:
    """What the record says was erased: by which log, and why. Any device can write that: whose word it is counts."""
    for log in record.logs.values():
        for kept in (each for texts in log.values() for each in texts if each.event.type == "erased"):
            reason = text(kept.event.data, "reason")
            known_key = not trust.keys or key_of(record, kept.event.dev) in trust.keys
            kind = "erased" if reason and known_key else "erasure open"
            for sha in listed(kept.event.data, "what"):
                if isinstance(sha, str) and sha in wanted:
                    yield sha, found(kind, f"{wanted[sha]} {sha}: {reason or 'no reason'}", kept.at)
