"""The only ways to make a value of the sheet.

A step that gets a missing input gives a missing value that says what is needed: a missing fact never becomes a number.
"""

from collections.abc import Callable, Sequence
from typing import Literal

from standfast.faults import BadFormula, Refusal, UnitMismatch
from standfast.sheet.formula import parse
from standfast.sheet.value import Clause, Number, Value


def given(symbol: str, number: Number, unit: str, place: str) -> Value:
    """A fact from a file: `place` is file:line:column, or the document that states it."""
    return Value(symbol, number, unit, "given", place)


def measured(symbol: str, number: Number, unit: str, method: str, *inputs: Value) -> Value:
    """A number found by geometry or an instrument; `method` says how, with what tolerance."""
    return _wrap(Value(symbol, number, unit, "measured", method, inputs=inputs))


def simulated(symbol: str, number: Number, unit: str, method: str, *inputs: Value) -> Value:
    """A number found by running a model; `method` names the model and the hash of its input."""
    return _wrap(Value(symbol, number, unit, "simulated", method, inputs=inputs))


def assumed(symbol: str, number: Number, unit: str, reason: str, clause: Clause | None, *, bounding: bool) -> Value:
    """A number taken for want of the fact.

    Args:
        symbol: the symbol.
        number: the value taken.
        unit: its unit.
        reason: what is not known, and why this value was taken.
        clause: the clause that allows it, if one does.
        bounding: true only where the book or table marks this value as safe for every value that the fact can have.
    """
    return Value(symbol, number, unit, "assumed", reason, clause, bounding=bounding)


def missing(symbol: str, unit: str, need: str, *inputs: Value) -> Value:
    """A number that is not known; `need` says what is needed and where to put it."""
    return Value(symbol, None, unit, "missing", need, inputs=inputs)


def chosen(symbol: str, number: Number, unit: str, condition: str, clause: Clause | None, *inputs: Value) -> Value:
    """The branch of a clause that applies, and the condition that was met."""
    return _wrap(Value(symbol, number, unit, "chosen", condition, clause, inputs=inputs))


def work(symbol: str, text: str, unit: str, clause: Clause | None, /, *inputs: Value, **named: Value) -> Value:
    """Apply a formula.

    Args:
        symbol: symbol of the result.
        text: the formula, for instance ``"k_cont * I_cont"``.
        unit: unit of the result.
        clause: the clause that states the formula; None for plain mechanics, geometry or arithmetic.
        inputs: the values, each under its own symbol.
        named: values under another name than their symbol.

    Raises:
        BadFormula: if the symbols of the text are not exactly those of the inputs, or there is no finite result.
    """
    formula = parse(text)
    names = tuple(value.symbol for value in inputs) + tuple(named)
    values = inputs + tuple(named.values())
    if len(names) != len(formula.symbols) or set(names) != set(formula.symbols):
        raise BadFormula(f"{symbol} = {text} names {sorted(formula.symbols)} but was given {sorted(names)}")
    lacking = _lacking(symbol, unit, values)
    if lacking is not None:
        return lacking
    number = formula.evaluate({name: value.quantity for name, value in zip(names, values, strict=True)})
    return Value(symbol, number, unit, "worked", text, clause, names=names, inputs=values)


def total(symbol: str, values: Sequence[Value], unit: str, clause: Clause | None = None) -> Value:
    """The sum of many values of one unit; an empty sum is zero."""
    _one_unit(symbol, values, unit)
    lacking = _lacking(symbol, unit, values)
    if lacking is not None:
        return lacking
    number = float(sum(value.quantity for value in values))
    return Value(symbol, number, unit, "worked", "sum", clause, inputs=tuple(values))


def worst(symbol: str, values: Sequence[Value], pick: Literal["max", "min"], clause: Clause | None = None) -> Value:
    """The greatest or least of some values; keeps which one it was.

    Args:
        symbol: symbol of the result.
        values: at least one value, all of one unit.
        pick: ``"max"`` or ``"min"``.
        clause: the clause that asks for the worst, if one does.
    """
    if not values:
        raise BadFormula(f"{symbol}: the worst of no values")
    unit = values[0].unit
    _one_unit(symbol, values, unit)
    lacking = _lacking(symbol, unit, values)
    if lacking is not None:
        return lacking
    found = (max if pick == "max" else min)(values, key=lambda value: value.quantity)
    how = f"{pick} of {len(values)}: {found.symbol}"
    return Value(symbol, found.number, unit, "chosen", how, clause, inputs=tuple(values))


def attempt(symbol: str, unit: str, ask: Callable[[], Value]) -> Value:
    """Ask for a value that other steps need; a refusal becomes a missing value with the refusal as its reason."""
    try:
        return ask()
    except Refusal as refusal:
        return missing(symbol, unit, str(refusal))


def needs(value: Value) -> list[str]:
    """What has to be found out before this value is known, each need once."""
    found = dict.fromkeys(
        each.how for each in value.trail() if each.missing and not any(i.missing for i in each.inputs)
    )
    return list(found)


def _wrap(value: Value) -> Value:
    lacking = _lacking(value.symbol, value.unit, value.inputs)
    return value if lacking is None else lacking


def _lacking(symbol: str, unit: str, inputs: Sequence[Value]) -> Value | None:
    lacking = tuple(value for value in inputs if value.missing)
    if not lacking:
        return None
    need = "; ".join(dict.fromkeys(value.how for value in lacking))
    return Value(symbol, None, unit, "missing", need, inputs=lacking)


def _one_unit(symbol: str, values: Sequence[Value], unit: str) -> None:
    for value in values:
        if value.unit != unit:
            raise UnitMismatch(f"{symbol} is in {unit}, but {value.symbol} is in {value.unit}")
