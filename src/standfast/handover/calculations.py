"""The calculation sheets: every check with its verdict, its working and the ground of each number."""

from collections.abc import Iterable, Mapping, Sequence

from standfast.handover.working import Working
from standfast.paper.document import (
    Block,
    CheckCard,
    Heading,
    Sheet,
    Table,
    Text,
    Words,
    bold,
    sheet_of,
    verdict,
)
from standfast.sheet import Check, Ledger, Value
from standfast.sheet.printed import amount
from standfast.shelf import Adoption
from standfast.terms import SEEN_WORDS
from standfast.units import show

GROUPS: dict[str, str] = {"load": "Loads", "wiring": "Circuits", "backup": "Backup", "existing": "Existing parts"}
"""Headings by the first word of a check's id; an unlisted word is its own heading."""

BASIS_WORDS: dict[str, str] = {
    "survey": "facts of the survey only",
    **SEEN_WORDS,
    "assumed": "an assumption, to be verified on site",
}


def sheet(code: str, ledger: Ledger, elsewhere: Mapping[str, str], working: Working) -> Sheet:
    """The calculation sheet: checks by subject, those that are open first; what does not apply at the end.

    Args:
        code: of the sheet.
        ledger: every check.
        elsewhere: ids of checks whose working stands on another sheet, with its code.
        working: the lines that stood before.
    """
    groups: dict[str, list[Check]] = {}
    for check in ledger:
        groups.setdefault(_group(check.id), []).append(check)
    blocks: list[Block] = [Words(_LEGEND, 8)]
    for name, checks in groups.items():
        asked = [check for check in checks if check.verdict != "not applicable"]
        shown = sorted((check for check in asked if check.id not in elsewhere), key=lambda check: _RANK[check.verdict])
        moved = list(dict.fromkeys(elsewhere[check.id] for check in asked if check.id in elsewhere))
        blocks.append(Heading(name))
        blocks += [Words([f"Working of {len(asked) - len(shown)} checks: sheet ", sheet_of(code)]) for code in moved]
        blocks += [card(check, working) for check in shown]
        blocks += _not_applicable(check for check in checks if check.verdict == "not applicable")
    return Sheet(code, "Calculations", blocks, columns=2)


def card(check: Check, working: Working) -> CheckCard:
    """A check as the sheets print it; lines that stood before are cited."""
    lines, cited = working.of(check)
    return CheckCard(
        check.verdict,
        check.title,
        check.id,
        str(check.clause),
        compared(check),
        _remark(check),
        lines,
        cited,
        check.remedies,
    )


def compared(check: Check) -> str:
    """Demand, relation, limit and margin on one line; empty where nothing was compared."""
    if check.demand is None:
        return ""
    text = _side(check.demand)
    if check.limit is not None and check.relation in _ASKED:
        text = f"{check.demand.symbol}: {amount(check.demand)}; asked: {_ASKED[check.relation]}{amount(check.limit)}"
    elif check.limit is not None:
        text += f" {_RELATIONS.get(check.relation, check.relation)} {_side(check.limit)}"
    if check.margin is not None:
        text += f"; margin {show(check.margin, check.demand.unit)}"
    return text


def count_table(ledger: Ledger) -> Table:
    """How many checks have each verdict."""
    counts = ledger.summary()
    rows: list[list[Text]] = [
        [verdict("pass"), str(counts["pass"])],
        [verdict("fail"), str(counts["fail"])],
        [verdict("cannot tell"), str(counts["cannot_tell"])],
        [verdict("not applicable"), str(counts["not_applicable"])],
    ]
    return Table(["Verdict", "Checks"], rows, [1, 0], right=[1])


def basis_table(ledger: Ledger) -> Table:
    """How many decided checks rest, at their weakest, on each ground."""
    counts = ledger.basis()
    rows: list[list[Text]] = [[words, str(counts[key])] for key, words in BASIS_WORDS.items() if counts.get(key)]
    return Table(["Weakest ground of a decided check", "Checks"], rows, [1, 0], right=[1])


def open_table(checks: Sequence[Check]) -> Table:
    """The checks that fail or cannot be told, with what would settle them."""
    rows: list[list[Text]] = []
    for check in checks:
        settle = "; ".join(check.remedies) or check.reason or compared(check)
        rows.append([verdict(check.verdict), check.title, str(check.clause), settle])
    return Table(["", "Check", "Clause", "What is known, and what would settle it"], rows, [0, 3, 2, 4], size=8)


def assumptions(ledger: Ledger) -> list[Table | Words]:
    """Every assumed value, to be verified on site."""
    found = ledger.assumptions()
    if not found:
        return [Words("No check rests on an assumption.")]
    rows: list[list[Text]] = [[bold(_side(value)), value.how, _clause(value), _safe(value), ""] for value in found]
    head = ["Taken", "Because", "Clause", "Safe side", "Found on site, by whom"]
    return [Table(head, rows, [3, 5, 3, 3, 4], tall=9)]


def not_checked(adoption: Adoption) -> Table | Words:
    """The clauses in scope that no check of this set answers, of every book in force, with the reason."""
    rows: list[list[Text]] = []
    for name in adoption.books:
        book = adoption.book(name)
        rows += [
            [
                f"{book.short} {each['clause']}",
                str(each["subject"]),
                bold(str(each["state"])),
                str(each.get("reason", "")),
            ]
            for each in book.coverage.get("clause", ())
            if each["state"] != "done"
        ]
    if not rows:
        return Words("The books in force hold no clause in scope that was not checked.")
    return Table(["Clause", "Subject", "State", "Reason"], rows, [2.6, 4, 1.7, 5], size=8)


def _not_applicable(checks: Iterable[Check]) -> list[Heading | Table]:
    rows: list[list[Text]] = [[check.title, str(check.clause), check.reason] for check in checks]
    if not rows:
        return []
    return [Heading("Not applicable", 3), Table(["Check", "Clause", "Reason"], rows, [3, 2, 3], size=8)]


def _group(id: str) -> str:
    word = id.replace("/", ".").partition(".")[0]
    return GROUPS.get(word, word.capitalize())


def _side(value: Value) -> str:
    if value.number is None or (isinstance(value.number, int | float) and not isinstance(value.number, bool)):
        return f"{value.symbol} = {amount(value)}"
    return amount(value)


def _clause(value: Value) -> str:
    return "" if value.clause is None else str(value.clause)


def _safe(value: Value) -> str:
    return "safe for every value it can have" if value.bounding else "not known to be safe"


def _remark(check: Check) -> str:
    if check.condition:
        return f"On condition: {check.condition}."
    return check.reason


_LEGEND = (
    "Each line of working has a number and stands once; where it is used again, the number is cited. On the right "
    "stands where a number comes from: " + "; ".join(f"[{word}] {meaning}" for word, meaning in SEEN_WORDS.items())
)
_RANK = {"fail": 0, "cannot tell": 1, "pass": 2, "not applicable": 3}
_RELATIONS = {"exactly": "="}
_ASKED = {"is": "", "is one of": "one of ", "is not": "none of "}
