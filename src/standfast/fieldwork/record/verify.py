"""Everything that can be said about a record from what was given: what is proven, what is wrong, what is open."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from standfast.fieldwork.record.causal import known, listed, text
from standfast.fieldwork.record.chain import Record, chained, read_record
from standfast.fieldwork.record.compare import Word, worst
from standfast.fieldwork.record.event import HASH
from standfast.fieldwork.record.findings import Finding, Place, found
from standfast.fieldwork.record.fold import fold
from standfast.fieldwork.record.logs import files as named_files
from standfast.fieldwork.record.sheet import NotASheet, read_sheet
from standfast.fieldwork.record.state import State
from standfast.fieldwork.record.vouched import Trust, signatures, vouched


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
    sheets, of_sheets = _sheets(record, given)
    stands = vouched(record, sheets, given.trust)
    findings = [
        *record.findings, *chained(record), *stands.findings, *signatures(record, sheets), *of_sheets,
        *_files(record, given, set(sheets)),
    ]  # fmt: skip
    names = [name for name, _ in given.texts]
    findings.sort(key=lambda each: (names.index(each.file) if each.file in names else len(names), each.line))
    logs = tuple(
        Log(dev, sum(map(len, log.values())), record.end(dev), stands.signed[dev], stands.sealed.get(dev, 0),
            dev in stands.trusted)
        for dev, log in record.logs.items()
    )  # fmt: skip
    newest = _newest(record, sheets)
    state = None if newest is None else fold(record.events, sheets[newest])
    word = worst([each.word for each in findings] or ["pass"])
    return Report(record.job, word, logs, tuple(findings), state)


def _named_sheets(record: Record) -> dict[str, Place]:
    """Hashes of the field sheets that a record names, with where."""
    found = dict[str, Place]()
    for log in record.logs.values():
        for texts in log.values():
            for each in texts:
                sheet = text(each.event.data, "sheet")
                if each.event.type in ("begin", "sheet", "seal") and HASH.fullmatch(sheet):
                    found.setdefault(sheet, each.at)
    return found


def _sheets(record: Record, given: Given) -> tuple[dict[str, Mapping[str, Any]], list[Finding]]:
    sheets, findings = dict[str, Mapping[str, Any]](), list[Finding]()
    for sha, at in _named_sheets(record).items():
        content = given.content(sha)
        if content is None:
            findings.append(found("sheet missing", f"field sheet {sha} is not at hand", at))
            continue
        try:
            sheets[sha] = read_sheet(content.decode())
        except (NotASheet, UnicodeDecodeError) as error:
            findings.append(found("sheet faulty", f"field sheet {sha} cannot be read: {error}", at))
    return sheets, findings


def _newest(record: Record, sheets: Mapping[str, object]) -> str | None:
    """The field sheet that was sealed last, else the one taken up last in the log with the most events."""
    sealed = [text(each.data, "sheet") for each in record.events if each.type == "seal"]
    logs = sorted(record.logs.values(), key=len)
    taken = [
        text(each.event.data, "sheet") for log in logs for seq in sorted(log) for each in log[seq]
        if each.event.type in ("begin", "sheet")
    ]  # fmt: skip
    at_hand = [each for each in (*taken, *sealed) if each in sheets]
    return at_hand[-1] if at_hand else None


def _files(record: Record, given: Given, sheets: set[str]) -> Iterator[Finding]:
    """Files that are named and not there, exchanged, or erased on purpose."""
    told = known(record.events)
    erased = {each for event in told.of("erased") for each in listed(event.data, "what") if isinstance(each, str)}
    cards = {each.user for each in told.events if HASH.fullmatch(each.user)}
    cards |= {text(each.data, key) for each in told.events for key in ("by", "card")} - {""}
    wanted = {
        **dict.fromkeys(sorted(filter(HASH.fullmatch, cards)), "card"),
        **dict.fromkeys(named_files(told), "file"),
    }
    there = {sha for _, sha in given.files}
    for name, sha in given.files:
        stem = name.rpartition("/")[2].partition(".")[0]
        if HASH.fullmatch(stem) and stem != sha:
            yield found("wrong file", f"{name} holds something else, {sha}", Place(name))
    missing = {sha: what for sha, what in wanted.items() if sha not in there and sha not in erased}
    yield from (found("erased", f"{wanted[sha]} {sha}") for sha in wanted if sha in erased and sha not in there)
    if missing and not given.files:
        yield found("files not given", f"{len(missing)} files that the record names")
    else:
        yield from (found("file missing", f"{what} {sha} is not there") for sha, what in missing.items())
