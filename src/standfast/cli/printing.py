"""Plain lines for people: verdicts and working. No colour, since state is told by words."""

from collections.abc import Iterator

from standfast.sheet import Check, Ledger
from standfast.sheet.printed import amount, ground, line
from standfast.units import show

WORDS = {"pass": "pass", "fail": "FAIL", "cannot tell": "CANNOT TELL", "not applicable": "not applicable"}


def verdict_lines(ledger: Ledger, *, every: bool) -> Iterator[str]:
    """The checks, those that hold the job up with what they compare, and the counts."""
    for check in ledger:
        if every or check.open:
            yield from check_lines(check)
    counts = ledger.summary()
    yield (
        f"{len(ledger)} checks: {counts['pass']} pass, {counts['fail']} fail, {counts['cannot_tell']} cannot be told, "
        f"{counts['not_applicable']} do not apply"
    )


def check_lines(check: Check) -> Iterator[str]:
    """One check: verdict, question, what was compared, clause."""
    yield f"{WORDS[check.verdict]:14} {check.id}"
    yield f"{'':14} {check.title}"
    if check.demand is not None and check.limit is not None:
        compared = f"{amount(check.demand)} {check.relation} {amount(check.limit)}"
        margin = "" if check.margin is None else f"; margin {show(check.margin, check.demand.unit)}"
        yield f"{'':14} {compared}{margin}"
    if check.condition:
        yield f"{'':14} on condition: {check.condition}"
    if check.reason:
        yield f"{'':14} because: {check.reason}"
    for remedy in check.remedies:
        yield f"{'':14} what would clear it: {remedy}"
    yield f"{'':14} {check.clause}"


def working_lines(check: Check) -> Iterator[str]:
    """A check with every step of its working and the ground of each number."""
    yield from check_lines(check)
    yield ""
    for value in check.values():
        yield f"  {line(value)}"
        where = ground(value)
        if where:
            yield f"      {where}"
    yield ""
    yield f"  Weakest ground: {check.basis}"
