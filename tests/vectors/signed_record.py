"""A whole record for tests: two tablets and the office on one job, signed, witnessed and sealed, with its files."""

import json
from base64 import b64encode
from hashlib import sha256
from typing import Any, NamedTuple

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from tablet import JOB, WALL, Tablet, card

from standfast.fieldwork.record.event import Event
from standfast.fieldwork.record.fold import fold
from standfast.fieldwork.record.seal import Head, Sealed, head_text, sign
from standfast.fieldwork.record.sheet import hash_of_sheet, read_sheet
from standfast.fieldwork.record.verify import Given, Report, verify
from standfast.fieldwork.record.vouched import Trust

SHEET_TEXT = json.dumps(WALL, ensure_ascii=False)
SHEET = hash_of_sheet(SHEET_TEXT)
PHOTO = b"\xff\xd8\xff a picture of four joints"
PHOTO_SHA = sha256(PHOTO).hexdigest()


class Signed(Tablet):
    """A tablet with a key, that begins its log as it should."""

    def __init__(self, letter: str, user: str = "ana") -> None:
        super().__init__(letter, user)
        self.key = Ed25519PrivateKey.from_private_bytes(sha256(letter.encode()).digest())
        self.public = b64encode(self.key.public_key().public_bytes_raw()).decode()
        self.tell("begin", sheet=SHEET, key=self.public, device=f"tablet {letter}")

    def checkpoint(self) -> str:
        """Sign the log as it is."""
        return self.tell("checkpoint", sig=sign(head_text(JOB, self.dev, len(self.log), self.log[-1].hash), self.key))

    def witness(self, other: Tablet) -> str:
        """Scan the head of another tablet."""
        return self.tell("witness", dev=other.dev, seq=len(other.log), hash=other.log[-1].hash)

    def seals(self, events: list[Event], *logs: Tablet, **more: Any) -> Sealed:
        """Seal the record."""
        state = fold(events, read_sheet(SHEET_TEXT)).hash
        sealed = Sealed(JOB, SHEET, state, {each.dev: Head(len(each.log), each.log[-1].hash) for each in logs})
        self.tell("seal", **sealed.as_data(), sig=sign(sealed.text, self.key), **more)
        return sealed


class Whole(NamedTuple):
    """A record and what belongs to it."""

    a: Signed
    b: Signed
    office: Signed

    @property
    def lines(self) -> list[str]:
        return [*self.a.raws, *self.b.raws, *self.office.raws]

    @property
    def keys(self) -> frozenset[str]:
        return frozenset({self.a.public, self.b.public, self.office.public})


def worked(*, sealed: bool = True) -> Whole:
    """The day of two tablets, and the seal of the office."""
    a, b, office = Signed("a", "ana"), Signed("b", "ben"), Signed("f", "")
    a.tell("clock", server="2026-11-25T12:00:00.000Z", wall="1999-01-01T00:00:00.000Z", mono=1, boot=a.boot)
    a.reads("ir", "99", tool="tester-1", step="dead", done=True)
    a.reads("nm", "5.0", "N·m", step="lugs", tool="driver-1", n=4, done=True)
    a.tell("photo", "cover", item="photo", sha=PHOTO_SHA, bytes=len(PHOTO), mime="image/jpeg", equal=4)
    a.tell("done", "cover")
    for kind in ("cover", "sign off"):
        a.tell("hold", "cover", kind=kind, by=card("ben"), seen=True)
    a.checkpoint()
    b.sees(a)
    b.witness(a)
    b.reads("v", "240.1", "V", step="live")
    b.tell("timer", "live", item="green", seconds=60, waited_ms=60001, judged="seen")
    b.tell("done", "live")
    b.tell("scan", "numbers", item="inverter", text="SN-1", symbology="QR", typed=False)
    for each in ("M-1", "M-2", "M-3"):
        b.tell("scan", "numbers", item="modules", text=each, symbology="QR", typed=False)
    b.reads("who", "agreed", "", step="numbers", done=True)
    b.tell("clock", server="2026-11-25T18:00:00.000Z", wall="2026-11-25T18:00:00.000Z", mono=1, boot=b.boot)
    state = fold([*a.log, *b.log], WALL).hash
    b.tell("sign", role="crew", by=card("ben"), state=state, vector={a.dev: len(a.log), b.dev: len(b.log)})
    b.checkpoint()
    if sealed:
        office.sees(a, b)
        office.seals([*a.log, *b.log, *office.log], a, b, office)
    return Whole(a, b, office)


def given(
    lines: list[str] | bytes, keys: frozenset[str] = frozenset(), files: dict[str, bytes] | None = None,
    roots: tuple[bytes, ...] = (),
) -> Given:  # fmt: skip
    """What there is of a record: its lines, the field sheet, the photo and the cards, unless other files are named."""
    content = lines if isinstance(lines, bytes) else "".join(f"{line}\n" for line in lines).encode()
    named = {f"photos/{PHOTO_SHA}.jpg": PHOTO, f"files/{SHEET}": SHEET_TEXT.encode()} if files is None else files
    shas = {name: sha256(each).hexdigest() for name, each in named.items()}
    by_sha = {shas[name]: each for name, each in named.items()}
    cards = [] if files is not None else [(f"card of {name}", card(name)) for name in ("ana", "ben")]
    return Given((("record.ndjson", content),), (*shas.items(), *cards), by_sha.get, Trust(keys, roots))


def said(lines: list[str] | bytes, keys: frozenset[str] = frozenset(), **more: Any) -> Report:
    return verify(given(lines, keys, **more))


def kinds(report: Report, word: str = "") -> list[str]:
    """Kinds of findings, of one verdict or of all, but for the clock of the first tablet, which stands in 1999."""
    return [each.kind for each in report.findings if word in ("", each.word) and each.kind != "clock wrong"]
