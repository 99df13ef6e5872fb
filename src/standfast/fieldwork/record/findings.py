"""What can be found out about a record: each kind with its verdict, why that is, and what to do."""

from typing import NamedTuple

from standfast.fieldwork.record.compare import Word

KINDS: dict[str, tuple[Word, str, str]] = {
    "no record": ("fail", "without it nothing can be said", "give a job folder, a record.ndjson or an export"),
    "not an event": ("fail", "what stood here cannot be read, and nothing follows from it",
                     "put the record back from a copy: of the tablet, of the office, of an export"),
    "another job": ("fail", "it does not belong to this record", "find out how it came in; take the copy of a tablet"),
    "later version": ("cannot tell", "this version keeps it and does not know what it means",
                      "verify with the version that wrote it"),
    "removed": ("fail", "logs are counted without a gap; what was here was taken out, or never brought along",
                "bring the log from its tablet or from another copy"),
    "altered": ("fail", "each event names the hash of the one before it, and here the two do not fit",
                "compare both lines with another copy of the record"),
    "forked": ("fail", "two texts claim one place of one log; neither is believed",
               "find out whether the tablet was restored or copied, and settle it in the record"),
    "fork settled": ("cannot tell", "two texts claim one place of one log, and somebody said which one counts",
                     "read the reason that stands there"),
    "doubled": ("pass", "the same text stands here once more; it counts once", ""),
    "reordered": ("pass", "lines stand in another order than their log has; the log itself is whole", ""),
    "begun twice": ("fail", "a log begins once, and with it the key that signs it",
                    "compare the log with the copy of its tablet"),
    "id twice": ("fail", "two events of different places have one id; what names it can mean either",
                 "compare both with another copy of the record"),
    "no key": ("cannot tell", "the log does not begin with a key, so nothing in it can be signed",
               "bring the beginning of the log"),
    "unknown key": ("cannot tell", "the key stands in the log itself; who rewrites all of it can put in another",
                    "give the key that the office has of this device with --key"),
    "other key": (
        "cannot tell",
        "the key is none of those that were given: of another device of the firm, or of somebody else",
        "ask the office with which devices this job was recorded",
    ),
    "bad signature": ("fail", "the signature is not by the key of this log over what stands before it",
                      "compare the log with the copy of its tablet"),
    "unsigned tail": ("cannot tell", "nothing signs these events yet; whoever has the file could write them anew",
                      "sign them on the tablet (by itself every 25 entries), or seal the record"),
    "open end": ("cannot tell", "a log does not show that its end was cut off; only a seal or another log can",
                 "compare with the tablet, or seal the record"),
    "cut or rewritten": ("fail", "another log names something of this one that is not here: one of them was changed",
                         "compare both logs with the copies of their tablets"),
    "sheet missing": ("cannot tell", "without the field sheet no reading can be judged again",
                      "put the field sheet beside the record"),
    "sheet faulty": ("cannot tell", "the field sheet is the one that is named, and cannot be read",
                     "verify with the version that made it"),
    "files not given": ("cannot tell", "the record names files, and none were given with it",
                        "give the job folder or the export"),
    "file missing": ("cannot tell", "it was not brought along, or was taken away; the record only has its hash",
                     "bring it from the tablet that made it, or from another copy"),
    "wrong file": ("fail", "its name is the hash of something else: it was exchanged or damaged",
                   "bring it from the tablet that made it, or from another copy"),
    "erased": ("pass", "the record says that it was erased on purpose; its hash stays", ""),
    "erasure open": (
        "cannot tell", "any device can write that; this log has none of the keys that were given, or gives no reason",
        "give the key of the office with --key, or bring the file"),
    "no card": ("cannot tell", "a person is named by the hash of their card, and here stands none",
                "ask who it was, and have it said again"),
    "refusal void": ("cannot tell", "somebody else than who refused took it back, under no key that you gave",
                     "ask who refused whether they know; give the key of the office if it was the office"),
    "one name": ("cannot tell", "whoever holds a tablet makes the cards; a second look has to be by a second person",
                 "ask whether they are two people"),
    "other limits": ("cannot tell", "a laxer sheet would pass what the one of the day did not",
                     "compare both with the plan; a seal by a key that you gave with --key stands for its sheet"),
    "seal faulty": ("fail", "what the seal should hold fast cannot be read", "compare with another copy of the record"),
    "seal broken": ("fail", "this is not what was sealed", "compare with the copy that was handed over"),
    "sealed state": ("fail", "from the sealed events follows another state than the one that was sealed",
                     "compare with the copy that was handed over; verify with the version that sealed it"),
    "not sealed": ("cannot tell", "the seal does not cover this log", "seal the record again"),
    "harmless": ("pass", "it came after the seal, and changes nothing of what was sealed", ""),
    "after the seal": ("cannot tell", "it came after the seal, which does not cover it", "seal the record again"),
    "signed state": ("fail", "from the events that the signer had follows another state than the one that was signed",
                     "ask the signer to look at the record and to sign again"),
    "signature open": ("cannot tell", "what was signed cannot be worked out again", "bring what is missing"),
    "clock set": ("pass", "the clock of the tablet was set, or the tablet slept meanwhile; nothing is ordered by it, "
                  "but times before and after do not compare", ""),
    "clock wrong": ("pass", "the tablet told another time than the office when they met; nothing is ordered by it, and "
                    "calibration is judged by the office's day", ""),
    "stamp": ("cannot tell", "", "give the certificate of the time stamping authority with --root"),
}  # fmt: skip
"""Kind of finding → verdict, why, what to do."""


class Finding(NamedTuple):
    """One thing found out about a record.

    Attributes:
        kind: one of `KINDS`.
        word: pass (told, and harmless), fail, cannot tell.
        file: where: the name of the file; empty where it has none.
        line: its line, from 1; 0 where it has none.
        dev, seq: device and place of the event; empty and 0 where it is none.
        what: what was found.
        why: what that means.
        todo: what to do about it.
    """

    kind: str
    word: Word
    file: str
    line: int
    dev: str
    seq: int
    what: str
    why: str
    todo: str


class Place(NamedTuple):
    """Where something was found."""

    file: str = ""
    line: int = 0
    dev: str = ""
    seq: int = 0


def found(kind: str, what: str, at: Place = Place()) -> Finding:  # noqa: B008 - it cannot be changed
    """A finding of a kind."""
    word, why, todo = KINDS[kind]
    return Finding(kind, word, at.file, at.line, at.dev, at.seq, what, why, todo)
