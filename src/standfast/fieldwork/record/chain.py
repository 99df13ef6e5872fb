"""The chains of a record: which event stands where, and whether each is the one that the next one names."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.fieldwork.record.causal import known
from standfast.fieldwork.record.event import FIRST, LONGEST_BYTES, TYPES, VERSION, Event, NotAnEvent, read
from standfast.fieldwork.record.findings import Finding, Place, found
from standfast.fieldwork.record.values import resolves, settles


class Kept(NamedTuple):
    """An event and where it stands: name of the file, line from 1."""

    event: Event
    file: str
    line: int

    @property
    def at(self) -> Place:
        """Where it was found."""
        return Place(self.file, self.line, self.event.dev, self.event.seq)


Logs = Mapping[str, Mapping[int, Sequence[Kept]]]
"""Of each device, of each place, the texts that claim it: one, or several where the log forked."""


class Record(NamedTuple):
    """The texts of a record as they were read.

    Attributes:
        job: id of the job; empty where there is no event.
        logs: the events, each text once.
        findings: what was found while reading.
    """

    job: str
    logs: Logs
    findings: tuple[Finding, ...]

    @property
    def events(self) -> list[Event]:
        """Every event, each text once."""
        return [each.event for log in self.logs.values() for texts in log.values() for each in texts]

    def at(self, dev: str, seq: int) -> Sequence[Kept]:
        """The texts that claim a place."""
        return self.logs.get(dev, {}).get(seq, ())

    def end(self, dev: str) -> int:
        """The last place of a log."""
        return max(self.logs.get(dev, {}), default=0)


def read_record(texts: Sequence[tuple[str, bytes]]) -> Record:
    """Read the texts of a record.

    Args:
        texts: names of the files and what is in them: an event a line.
    """
    kept, findings = list[Kept](), list[Finding]()
    for file, content in texts:
        for line, raw in enumerate(content.split(b"\n"), 1):
            if raw:
                try:
                    kept.append(Kept(_read(raw), file, line))
                except NotAnEvent as error:
                    findings.append(found("not an event", f"this is no event: {error}", Place(file, line)))
    job = kept[0].event.job if kept else ""
    logs: dict[str, dict[int, list[Kept]]] = {}
    furthest: dict[tuple[str, str], int] = {}
    for each in kept:
        event = each.event
        if event.job != job:
            findings.append(found("another job", f"it is of job {event.job}, the record of {job}", each.at))
            continue
        there = logs.setdefault(event.dev, {}).setdefault(event.seq, [])
        first = next((other for other in there if other.event.hash == event.hash), None)
        if first is not None:
            findings.append(found("doubled", f"it stands in line {first.line} of {first.file} too", each.at))
            continue
        there.append(each)
        before = furthest.get((each.file, event.dev), 0)
        if event.seq < before:
            findings.append(found("reordered", f"event {event.seq} stands after event {before}", each.at))
        furthest[each.file, event.dev] = max(before, event.seq)
    return Record(job, logs, tuple(findings))


def _read(raw: bytes) -> Event:
    if len(raw) > LONGEST_BYTES:
        raise NotAnEvent(f"longer than {LONGEST_BYTES} bytes")
    try:
        return read(raw.decode())
    except UnicodeDecodeError:
        raise NotAnEvent("no UTF-8") from None


def chained(record: Record) -> Iterator[Finding]:
    """What the chains tell: removed, altered, forked, begun twice, one id twice, of a later version."""
    said = resolves(known(record.events))
    ids: dict[str, Kept] = {}
    for log in record.logs.values():
        before = 0
        for seq in sorted(log):
            texts = log[seq]
            if seq > before + 1:
                missing = f"event {before + 1}" if seq == before + 2 else f"events {before + 1} to {seq - 1}"
                yield found("removed", f"{missing} of this log missing before event {seq}", texts[0].at)
            if len(texts) > 1:
                kind = "fork settled" if settles([each.event.id for each in texts], said) else "forked"
                others = ", ".join(f"line {each.line} of {each.file}" for each in texts[1:])
                yield found(kind, f"another text for this place stands in {others}", texts[0].at)
            for each in texts:
                yield from _one(record, each)
                other = ids.setdefault(each.event.id, each)
                if (other.event.dev, other.event.seq) != (each.event.dev, each.event.seq):
                    where = f"line {other.line} of {other.file}"
                    yield found("id twice", f"its id is also that of {where}", each.at)
            before = seq


def _one(record: Record, kept: Kept) -> Iterator[Finding]:
    event = kept.event
    if event.seq == 1 and event.prev != FIRST:
        yield found("altered", "the first event of a log names another before it", kept.at)
    if event.seq > 1:
        before = record.at(event.dev, event.seq - 1)
        if before and event.prev not in {each.event.hash for each in before}:
            yield _broken(record, before[0], kept)
        elif not before and event.prev == FIRST:
            yield found("altered", "it stands as if it were the first of its log", kept.at)
    if event.type == "begin" and event.seq > 1:
        yield found("begun twice", f"the log begins again at event {event.seq}", kept.at)
    if event.v > VERSION or event.type not in TYPES:
        yield found("later version", f"an event of version {event.v} and type {event.type!r}", kept.at)


def _broken(record: Record, before: Kept, kept: Kept) -> Finding:
    """Which of two events that do not fit was altered: the earlier one, where a third vouches for the later."""
    event = kept.event
    if any(each.event.prev == event.hash for each in record.at(event.dev, event.seq + 1)):
        what = f"its text is not the one that event {event.seq} (line {kept.line} of {kept.file}) names"
        return found("altered", what, before.at)
    what = f"it, or event {event.seq - 1} (line {before.line} of {before.file}), whose text is not the one it names"
    return found("altered", what, kept.at)
