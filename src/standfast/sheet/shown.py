"""The sheet in a notebook: a value is its lines of working, a check its verdict with them, a ledger a table.

Plain HTML without style: it takes the look of the page round it, and a verdict is told by its word.
"""

from collections.abc import Iterable
from html import escape

from standfast.sheet.check import Check
from standfast.sheet.ledger import Ledger
from standfast.sheet.printed import compared, ground, line
from standfast.sheet.value import Value


def value_html(value: Value) -> str:
    """The working of a value, inputs first."""
    return _working([value])


def check_html(check: Check) -> str:
    """The question, the verdict with what was compared, the clause, and the working."""
    facts = [("verdict", check.verdict), ("clause", str(check.clause)), ("compared", compared(check))]
    facts += [("condition", check.condition), ("because", check.reason), *(("remedy", each) for each in check.remedies)]
    rows = [f"<tr><th>{escape(word)}</th><td>{escape(text)}</td></tr>" for word, text in facts if text]
    sides = [side for side in (check.demand, check.limit) if side is not None]
    return f"<table><caption>{escape(check.title)} ({escape(check.id)})</caption>{''.join(rows)}</table>" + (
        _working(sides) if sides else ""
    )


def ledger_html(ledger: Ledger) -> str:
    """The counts, and one row for each check: those that hold the job up first."""
    counts = ", ".join(f"{count} {state.replace('_', ' ')}" for state, count in ledger.summary().items())
    head = "<tr><th>verdict</th><th>question</th><th>compared</th><th>clause</th></tr>"
    rows = "".join(
        _row((check.verdict, check.title, compared(check), str(check.clause)))
        for check in sorted(ledger, key=lambda each: not each.open)
    )
    return f"<table><caption>{len(ledger)} checks: {counts}</caption>{head}{rows}</table>"


def _working(sides: Iterable[Value]) -> str:
    steps = {id(value): value for side in sides for value in side.trail()}
    rows = "".join(_row((line(value), ground(value))) for value in steps.values())
    return f"<table><tr><th>working</th><th>ground</th></tr>{rows}</table>"


def _row(cells: Iterable[str]) -> str:
    return f"<tr>{''.join(f'<td>{escape(each)}</td>' for each in cells)}</tr>"
