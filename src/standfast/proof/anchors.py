"""How the cases of anchors write their inputs and answers."""

from collections.abc import Mapping
from typing import Any, TypeVar

from standfast.proof.inputs import BadCase, Inputs
from standfast.rulebooks.aci318.strength_reduction import design_strength
from standfast.sheet import Value, given
from standfast.shelf import Edition
from standfast.units import convert

Word = TypeVar("Word")


def positive(case: Inputs, name: str, symbol: str, unit: str) -> Value:
    """An input that must be above zero."""
    value = case.value(name, symbol, unit)
    if value.quantity <= 0:
        raise BadCase(f"the input {name!r} must be above zero")
    return value


def optional(case: Inputs, name: str, symbol: str, unit: str) -> Value | None:
    """An input above zero, or None where the case has none."""
    return positive(case, name, symbol, unit) if name in case else None


def not_negative(case: Inputs, name: str, symbol: str, unit: str) -> Value | None:
    """An input of zero or more, or None where the case has none."""
    if name not in case:
        return None
    value = case.value(name, symbol, unit)
    if value.quantity < 0:
        raise BadCase(f"the input {name!r} must not be below zero")
    return value


def gaps(case: Inputs, name: str) -> tuple[Value, ...]:
    """A list of spacings; empty where the case has none."""
    found = [given("s", gap, "in", f"case, {name}") for gap in case.numbers(name)] if name in case else []
    if any(gap.quantity < 0 for gap in found):
        raise BadCase(f"the input {name!r} holds a spacing below zero")
    return tuple(found)


def worded(case: Inputs, name: str, words: Mapping[str, Word]) -> Word:
    """A word of a closed list, in the calculator's own words."""
    word = case.word(name)
    if word not in words:
        raise BadCase(f"the input {name!r} is {word!r}: use one of {', '.join(words)}")
    return words[word]


def reduced(book: Edition, case: Inputs, name: str, key: str, nominal: Value) -> dict[str, Any]:
    """The design strength under its key where the case gives the strength reduction; nothing else."""
    phi = optional(case, name, "phi", "1")
    return {} if phi is None else {key: design_strength(book, "phi_R_n", phi, nominal).quantity}


def kilonewton(force: Value) -> float:
    """A force of the sheet, N, in kN."""
    return convert(force.quantity, "N", "kN")
