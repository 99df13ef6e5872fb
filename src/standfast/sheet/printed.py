"""The sheet as people and programs read it: working lines, and plain data for JSON."""

from standfast.sheet.check import Check
from standfast.sheet.formula import parse
from standfast.sheet.value import Value
from standfast.terms import SEEN_WORDS
from standfast.units import show


def amount(value: Value) -> str:
    """The number with its unit, rounded for print."""
    if value.number is None:
        return "not known"
    if isinstance(value.number, bool):
        return "yes" if value.number else "no"
    if isinstance(value.number, str):
        return value.number
    if isinstance(value.number, tuple):
        return ", ".join(value.number)
    return show(value.number, value.unit)


_ASKED = {"is one of": "one of", "is not": "none of"}


def compared(check: Check) -> str:
    """What was compared, on one line; empty where nothing was. What is asked of words is no claim about them."""
    if check.demand is None or check.limit is None:
        return ""
    if check.relation in _ASKED:
        return f"{amount(check.demand)}; asked: {_ASKED[check.relation]} {amount(check.limit)}"
    demand, limit = sides(check.demand, check.limit)
    return f"{demand} {check.relation} {limit}"


def sides(demand: Value, limit: Value) -> tuple[str, str]:
    """Both sides of a comparison for print: with more digits where they differ and rounding would make them alike."""
    found, numbers = (amount(demand), amount(limit)), (demand.number, limit.number)
    if found[0] != found[1] or numbers[0] == numbers[1] or not all(isinstance(each, float) for each in numbers):
        return found
    return f"{demand.quantity:.10g} {demand.unit}".strip(), f"{limit.quantity:.10g} {limit.unit}".strip()


def line(value: Value) -> str:
    """One line of working: the symbol, how it came about, and the result.

    The text is made from the tree that was evaluated and from the inputs that were used.
    """
    result = amount(value)
    if value.kind == "worked" and value.how == "sum":
        terms = " + ".join(amount(each) for each in value.inputs) or "nothing to add"
        if len(value.inputs) == 1:
            terms = value.inputs[0].symbol
        return f"{value.symbol} = {terms} = {result}"
    if value.kind == "worked":
        formula = parse(value.how)
        shown = {name: amount(each) for name, each in zip(value.names, value.inputs, strict=True)}
        symbols = {name: name for name in value.names}
        return f"{value.symbol} = {formula.printed(symbols)} = {formula.printed(shown)} = {result}"
    return f"{value.symbol} = {result}"


def ground(value: Value) -> str:
    """Where the number comes from: the clause with its edition, the cell, the place in the file, the reason."""
    parts: list[str] = []
    if value.clause is not None:
        parts.append(str(value.clause))
    if value.kind != "worked" and value.how:
        parts.append(value.how)
    if value.kind in ("assumed", "missing", "measured", "simulated"):
        parts.insert(0, value.kind)
    if value.seen is not None:
        parts.append(SEEN_WORDS[value.seen])
    return "; ".join(parts)


def working(check: Check) -> list[dict[str, str]]:
    """The trail of a check, one line a step."""
    return [{"line": line(value), "ground": ground(value), "kind": value.kind} for value in check.values()]


def side(value: Value | None) -> dict[str, object] | None:
    """A value as plain data."""
    if value is None:
        return None
    number = list(value.number) if isinstance(value.number, tuple) else value.number
    return {"symbol": value.symbol, "number": number, "unit": value.unit}


def check_data(check: Check) -> dict[str, object]:
    """A check as plain data, in the order of the schema."""
    return {
        "id": check.id,
        "title": check.title,
        "book": check.clause.book,
        "edition": check.clause.edition,
        "clause": check.clause.clause,
        "verdict": check.verdict,
        "condition": check.condition,
        "relation": check.relation,
        "demand": side(check.demand),
        "limit": side(check.limit),
        "margin": check.margin,
        "basis": check.basis,
        "reason": check.reason,
        "working": working(check),
        "remedies": list(check.remedies),
    }
