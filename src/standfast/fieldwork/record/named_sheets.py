"""The field sheets of a record: which are at hand, which one it is judged by, and what differs between them."""

from collections.abc import Callable, Collection, Iterator, Mapping
from typing import Any

from standfast.fieldwork.record.causal import text
from standfast.fieldwork.record.chain import Record
from standfast.fieldwork.record.event import HASH
from standfast.fieldwork.record.findings import Finding, Place, found
from standfast.fieldwork.record.sheet import NotASheet, read_sheet

_ASKED = ("kind", "count", "limit", "uncertainty", "seconds", "tool_kind")
"""What of an item decides how it is judged."""
_SHOWN = 3

Sheets = Mapping[str, Mapping[str, Any]]


def at_hand(record: Record, content: Callable[[str], bytes | None]) -> tuple[Sheets, list[Finding]]:
    """The field sheets that a record names and that can be read, and what is said of the others."""
    sheets, findings = dict[str, Mapping[str, Any]](), list[Finding]()
    for sha, at in _named(record).items():
        whole = content(sha)
        if whole is None:
            findings.append(found("sheet missing", f"field sheet {sha} is not at hand", at))
            continue
        try:
            sheets[sha] = read_sheet(whole.decode())
        except (NotASheet, UnicodeDecodeError) as error:
            findings.append(found("sheet faulty", f"field sheet {sha} cannot be read: {error}", at))
    return sheets, findings


def judged_by(record: Record, sheets: Sheets) -> str | None:
    """The field sheet that was sealed last, else the one taken up last in the log with the most events."""
    sealed = [text(each.data, "sheet") for each in record.events if each.type == "seal"]
    logs = sorted(record.logs.values(), key=len)
    taken = [
        text(each.event.data, "sheet") for log in logs for seq in sorted(log) for each in log[seq]
        if each.event.type in ("begin", "sheet")
    ]  # fmt: skip
    known = [each for each in (*taken, *sealed) if each in sheets]
    return known[-1] if known else None


def otherwise(record: Record, sheets: Sheets, judging: str, vouched: Collection[str]) -> Iterator[Finding]:
    """What was asked otherwise by another sheet of the record than by the one that it is judged by.

    Args:
        record: it.
        sheets: those at hand.
        judging: hash of the sheet by which the record is judged.
        vouched: hashes of sheets that are sealed by a key that is known from elsewhere: the office stands for these.
    """
    asked = _asked(sheets[judging])
    for sha, at in _named(record).items():
        if sha == judging or sha not in sheets:
            continue
        other = _asked(sheets[sha])
        differ = [id for id in other if other[id] != asked.get(id)]
        if differ:
            shown = ", ".join(differ[:_SHOWN]) + (" …" if len(differ) > _SHOWN else "")
            what = f"field sheet {sha} asks {len(differ)} things otherwise than {judging}, which judges: {shown}"
            told = found("other limits", what, at)
            yield told._replace(word="pass", todo="") if judging in vouched else told


def _asked(sheet: Mapping[str, Any]) -> dict[str, object]:
    """What a sheet asks: of each item how it is judged, of each step what comes before it and who looks."""
    found: dict[str, object] = {}
    for step in sheet["steps"]:
        found[step["id"]] = [sorted(step["after"]), sorted(each["kind"] for each in step["holds"])]
        found.update({item["id"]: [item.get(key) for key in _ASKED] for item in step["items"]})
    return found


def _named(record: Record) -> dict[str, Place]:
    """Hashes of the field sheets that a record names, with where."""
    named = dict[str, Place]()
    for log in record.logs.values():
        for texts in log.values():
            for each in texts:
                sheet = text(each.event.data, "sheet")
                if each.event.type in ("begin", "sheet", "seal") and HASH.fullmatch(sheet):
                    named.setdefault(sheet, each.at)
    return named
