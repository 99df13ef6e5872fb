"""What vouches for the logs of a record: signatures of their devices, seals, and what other logs saw of them."""

from base64 import b64decode
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from standfast.fieldwork.record.causal import text
from standfast.fieldwork.record.chain import Kept, Record
from standfast.fieldwork.record.event import HASH, TYPES, VERSION
from standfast.fieldwork.record.findings import Finding, found
from standfast.fieldwork.record.fold import fold
from standfast.fieldwork.record.seal import Sealed, head_text, is_key, sealed_by, signed, stamp

Sheets = Mapping[str, Mapping[str, Any]]
"""Field sheets that are at hand, by their hash."""

HARMLESS = ("checkpoint", "clock", "manifest", "person", "witness")
"""Types of events that change nothing of what was done and read."""


class Trust(NamedTuple):
    """What is known from elsewhere: public keys of devices (base64), certificates of stamping authorities (PEM)."""

    keys: frozenset[str] = frozenset()
    roots: tuple[bytes, ...] = ()


class Vouched(NamedTuple):
    """How far each log is signed or sealed, and what was found.

    Attributes:
        signed: place of the last event that a signature of the log, or a seal, covers.
        sealed: place of the last one that a good seal covers.
        trusted: devices whose log is vouched for by a key that is known from elsewhere.
        findings: what was found.
    """

    signed: Mapping[str, int]
    sealed: Mapping[str, int]
    trusted: frozenset[str]
    findings: tuple[Finding, ...]


def vouched(record: Record, sheets: Sheets, trust: Trust) -> Vouched:
    """What signatures, seals and other logs say."""
    findings = list[Finding]()
    keys = {dev: key_of(record, dev) for dev in record.logs}
    signs, seals, trusted = dict.fromkeys(record.logs, 0), dict[str, int](), set[str]()
    for dev, key in keys.items():
        first = record.logs[dev][min(record.logs[dev])][0]
        if not key:
            findings.append(found("no key", "no key of this device", first.at))
        elif key in trust.keys:
            trusted.add(dev)
        elif trust.keys:
            findings.append(found("other key", f"the log begins with key {key}", first.at))
    for kept in _of(record, "checkpoint"):
        dev, key = kept.event.dev, keys[kept.event.dev]
        said = head_text(record.job, dev, kept.event.seq - 1, kept.event.prev)
        if key and not signed(said, text(kept.event.data, "sig"), key):
            findings.append(found("bad signature", f"the signature of events 1 to {kept.event.seq - 1}", kept.at))
        elif key:
            signs[dev] = max(signs[dev], kept.event.seq)
    for kept in _of(record, "seal"):
        sealed = sealed_by(kept.event)
        if sealed is None:
            findings.append(found("seal faulty", "the seal cannot be read", kept.at))
            continue
        against = list(_seal(record, kept, sealed, keys[kept.event.dev], sheets))
        findings += [*against, *_stamped(kept, sealed, trust)]
        if keys[kept.event.dev] and not any(each.word == "fail" for each in against):
            covers = {**{dev: head.seq for dev, head in sealed.heads.items()}, kept.event.dev: kept.event.seq}
            seals |= {dev: max(seals.get(dev, 0), seq) for dev, seq in covers.items()}
            if kept.event.dev in trusted:
                trusted |= set(sealed.heads)
    findings += _ends(record, signs, seals)
    if not trust.keys:
        findings += [
            found("unknown key", f"the key {keys[dev]} of this log", log[min(log)][0].at)
            for dev, log in record.logs.items() if keys[dev]
        ]  # fmt: skip
    else:
        findings = [each for each in findings if each.kind != "other key" or each.dev not in trusted]
    reached = {dev: max(signs[dev], seals.get(dev, 0)) for dev in record.logs}
    return Vouched(reached, seals, frozenset(trusted), (*findings, *_witnessed(record)))


def _of(record: Record, type: str) -> list[Kept]:
    """Events of a type, of versions that are understood."""
    found = [each for log in record.logs.values() for texts in log.values() for each in texts]
    return [each for each in found if each.event.type == type and each.event.v <= VERSION and type in TYPES]


def key_of(record: Record, dev: str) -> str:
    """The key that a log begins with; empty where it has none, or begins in two ways."""
    first = record.at(dev, 1)
    keys = {text(each.event.data, "key") for each in first if each.event.type == "begin"}
    key = keys.pop() if len(keys) == 1 else ""
    return key if is_key(key) else ""


def _seal(record: Record, kept: Kept, sealed: Sealed, key: str, sheets: Sheets) -> Iterator[Finding]:
    """What a seal says of the events that it names."""
    if key and not signed(sealed.text, text(kept.event.data, "sig"), key):
        yield found("bad signature", "the signature of the seal", kept.at)
    whole = True
    for dev, head in sealed.heads.items():
        if head.hash not in {each.event.hash for each in record.at(dev, head.seq)}:
            whole = False
            yield found("seal broken", f"event {head.seq} of {dev} is not the one that was sealed", kept.at)
    for dev, log in record.logs.items():
        if dev not in sealed.heads and dev != kept.event.dev:
            yield found("not sealed", "the seal does not name this log", log[min(log)][0].at)
    if sealed.sheet not in sheets:
        yield found("signature open", f"the sealed state: field sheet {sealed.sheet} is not at hand", kept.at)
    elif whole:
        far = {dev: head.seq for dev, head in sealed.heads.items()}
        if _state(record, far, sheets[sealed.sheet]) != sealed.state:
            yield found("sealed state", "the state that follows is not the sealed one", kept.at)


def _state(record: Record, far: Mapping[str, int], sheet: Mapping[str, Any]) -> str:
    """Hash of what follows from a part of every log."""
    return fold([each for each in record.events if each.seq <= far.get(each.dev, 0)], sheet).hash


def _stamped(kept: Kept, sealed: Sealed, trust: Trust) -> Iterator[Finding]:
    token = text(kept.event.data, "token")
    if token:
        try:
            told = stamp(b64decode(token, validate=True), sealed, trust.roots)
        except ValueError:
            yield found("stamp", "the time stamp is no base64", kept.at)._replace(word="fail")
            return
        when = f", made {told.when}" if told.when else ""
        todo = "" if told.word == "pass" else found("stamp", "").todo
        yield found("stamp", f"the time stamp of the seal{when}", kept.at)._replace(
            word=told.word, why=told.why, todo=todo
        )


def _ends(record: Record, signs: Mapping[str, int], seals: Mapping[str, int]) -> Iterator[Finding]:
    """What stands at the end of each log."""
    for dev, log in record.logs.items():
        end, covered = record.end(dev), max(signs[dev], seals.get(dev, 0))
        tail = [each for seq in sorted(log) if seq > covered for each in log[seq]]
        if dev in seals and end > seals[dev]:
            later = [each for seq in sorted(log) if seq > seals[dev] for each in log[seq]]
            harmless = all(each.event.type in HARMLESS for each in later)
            kind = "harmless" if harmless else "after the seal"
            yield found(kind, f"events {later[0].event.seq} to {end} of this log", later[0].at)
            tail = [] if harmless else tail
        elif dev not in seals:
            yield found("open end", f"whether anything came after event {end}", log[end][0].at)
        if tail:
            yield found("unsigned tail", f"events {tail[0].event.seq} to {end} of this log", tail[0].at)


def _witnessed(record: Record) -> Iterator[Finding]:
    """What other logs saw of a log that is not there."""
    for kept in _of(record, "witness"):
        dev, seq, hash = text(kept.event.data, "dev"), kept.event.data.get("seq"), text(kept.event.data, "hash")
        if not isinstance(seq, int) or isinstance(seq, bool) or not HASH.fullmatch(hash):
            continue
        there = record.at(dev, seq)
        if hash not in {each.event.hash for each in there}:
            how = "is another one" if there else "is not here"
            yield found("cut or rewritten", f"event {seq} of {dev}, which this device saw, {how}", kept.at)
    told = set[str]()
    for log in record.logs.values():
        for texts in log.values():
            for kept in texts:
                for dev, far in kept.event.seen.items():
                    if far > record.end(dev) and dev not in told:
                        told.add(dev)
                        what = f"who wrote this had {far} events of {dev}; there are {record.end(dev)}"
                        yield found("cut or rewritten", what, kept.at)


def signatures(record: Record, sheets: Sheets) -> Sequence[Finding]:
    """Whether what people signed is what followed from the events that they had."""
    findings = list[Finding]()
    for kept in _of(record, "sign"):
        vector, sheet = kept.event.data.get("vector"), _sheet_of(record, kept)
        if not isinstance(vector, dict) or not all(isinstance(each, int) for each in vector.values()):
            findings.append(found("signature open", "which events the signer had", kept.at))
        elif sheet not in sheets:
            findings.append(found("signature open", f"the signed state: field sheet {sheet} is not at hand", kept.at))
        elif any(far > record.end(dev) for dev, far in vector.items()):
            findings.append(found("signature open", "the signer had more events than there are", kept.at))
        elif _state(record, vector, sheets[sheet]) != text(kept.event.data, "state"):
            findings.append(found("signed state", "the state that follows is not the signed one", kept.at))
    return findings


def _sheet_of(record: Record, kept: Kept) -> str:
    """The field sheet that a device had when it wrote an event."""
    log = record.logs[kept.event.dev]
    taken = [each.event for seq in sorted(log) if seq < kept.event.seq for each in log[seq]]
    named = [text(each.data, "sheet") for each in taken if each.type in ("begin", "sheet")]
    return named[-1] if named else ""
