"""Laws of formula texts: what is printed is what was computed."""

import math
import re

from hypothesis import given
from hypothesis import strategies as st

from standfast.faults import BadFormula
from standfast.sheet.formula import parse

NUMBERS = {"a": 3.5, "b": 2.0, "c": 0.25, "d": 7.0}
LEAVES = st.sampled_from([*NUMBERS, "2", "0.5", "10"])
TREES = st.recursive(
    LEAVES,
    lambda parts: st.one_of(
        st.tuples(parts, st.sampled_from("+-*/"), parts).map(lambda each: f"({each[0]} {each[1]} {each[2]})"),
        st.tuples(st.sampled_from(["min", "max"]), parts, parts).map(lambda each: f"{each[0]}({each[1]}, {each[2]})"),
        parts.map(lambda part: f"(-{part})"),
        parts.map(lambda part: f"({part}) ** 2"),
    ),
    max_leaves=12,
)


def back(printed: str) -> str:
    return printed.replace(" × ", " * ").replace("−", "-").replace("^", "**")


@given(TREES)
def test_the_printed_formula_means_the_same(text: str) -> None:
    formula = parse(text)
    space = {symbol: NUMBERS[symbol] for symbol in formula.symbols}
    try:
        ours = formula.evaluate(space)
    except BadFormula:
        return
    again = parse(back(formula.printed({symbol: symbol for symbol in formula.symbols}))).evaluate(space)
    assert math.isclose(ours, again, rel_tol=1e-9, abs_tol=1e-9)


@given(TREES)
def test_the_printed_numbers_mean_the_same(text: str) -> None:
    """With the numbers in place of the symbols, units and signs with them, the line still reads as it was computed."""
    formula = parse(text)
    numbers = {"a": -3.5, "b": 2.0, "c": -0.25, "d": 7.0}
    shown = {"a": "−3.5 in", "b": "2", "c": "−0.25", "d": "7 lb/ft"}
    printed = formula.printed({symbol: shown[symbol] for symbol in formula.symbols})
    assert not re.search(r"(in|ft)\^", printed)
    assert not re.search(r"[+−×/] −|−−", printed)
    try:
        ours = formula.evaluate({symbol: numbers[symbol] for symbol in formula.symbols})
    except BadFormula:
        return
    again = parse(back(re.sub(" in| lb/ft", "", printed))).evaluate({})
    assert math.isclose(ours, again, rel_tol=1e-9, abs_tol=1e-9)


@given(st.text(max_size=30))
def test_any_text_is_a_formula_or_refused(text: str) -> None:
    try:
        formula = parse(text)
    except BadFormula:
        return
    assert all(symbol.isidentifier() for symbol in formula.symbols)
