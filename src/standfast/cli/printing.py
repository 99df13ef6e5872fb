"""Plain lines for people: verdicts and working. No colour, since state is told by words."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from standfast.sheet import Check, Ledger
from standfast.sheet.printed import compared, ground, line
from standfast.units import show

if TYPE_CHECKING:  # making papers loads what a check never needs
    from standfast.foreman.pack import Packed

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


def change_lines(data: Mapping[str, Any]) -> Iterator[str]:
    """What changes between two adoptions: each check with what it says under both, and the counts."""
    names = (data["adoption"], data["against"])
    wide = max(len(name) for name in names)
    yield f"{data['job']}; {names[0]} against {names[1]}"
    for change in data["changes"]:
        yield f"{', '.join(change['what']):22} {change['id']}"
        yield f"{'':22} {change['title']}"
        for name, told in zip(names, (change["under"], change["against"]), strict=True):
            yield f"{'':22} {name:{wide}}  {_told(told)}"
    counts = data["summary"]
    yield (
        f"{counts['checks']} checks: {counts['alike']} alike; {counts['verdict']} verdicts, {counts['limit']} limits, "
        f"{counts['clause']} clauses change; {counts['asked']} are asked under one only"
    )


def _told(check: Mapping[str, Any] | None) -> str:
    if check is None:
        return "does not ask"
    limit = check["limit"]
    parts = [WORDS[check["verdict"]]]
    if limit is not None and isinstance(limit["number"], int | float) and not isinstance(limit["number"], bool):
        parts.append(f"{check['relation']} {show(limit['number'], limit['unit'])}")
    parts.append(f"{check['book']} {check['edition']} {check['clause']}")
    if check["reason"]:
        parts.append(check["reason"])
    return "; ".join(parts)


def check_lines(check: Check) -> Iterator[str]:
    """One check: verdict, question, what was compared, clause."""
    yield f"{WORDS[check.verdict]:14} {check.id}"
    yield f"{'':14} {check.title}"
    if check.demand is not None and check.limit is not None:
        margin = "" if check.margin is None else f"; margin {show(check.margin, check.demand.unit)}"
        yield f"{'':14} {compared(check)}{margin}"
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


def packed_lines(packed: "Packed") -> Iterator[str]:
    """What was written, what was left out and why, and whether the set can be handed over."""
    yield from (f"written: {path}" for path in packed.paths)
    yield from (f"not written: {line}" for line in packed.left_out)
    yield "NOT READY TO SUBMIT: " + "; ".join(packed.against) if packed.against else "Ready for review."


def choice_lines(choice: Mapping[str, Any]) -> Iterator[str]:
    """What was chosen and why, as `design` and `explain` print it: the price rows, then the proof and the runner-up."""
    for row in choice["rows"]:
        what = f"{row['what']}, {'not known' if row['amount'] is None else format(row['amount'], '.2f')} {row['unit']}"
        if row["sum"] is None:
            yield f"price     {what}: no price"
        else:
            made_up = " (invented)" if row["invented"] else ""
            yield f"price     {what} at {row['price']:.2f}: {row['sum']:.2f} {choice['currency']}{made_up}"
    for text in choice["told"]:
        yield f"chosen    {text}"
