"""Evaluates a formula text again with units, from the same tree that the sheet evaluates and prints."""

import ast
import math
import re
from collections.abc import Sequence
from typing import Any

import pint

from standfast.sheet.formula import parse

UNITS: Any = pint.UnitRegistry(cache_folder=None)
UNITS.define("kft = 1000 foot")
UNITS.define("trade_horsepower = 746 watt")
NAMES = {
    "lb": "force_pound", "hp": "trade_horsepower", "°C": "delta_degC", "°F": "delta_degF", "kcmil": "1000*cmil",
    "pu": "1",
}  # fmt: skip
"""Where the sheet means another thing than the registry by a name. A pound of the books is a force: they weigh loads. A
temperature counts as a difference: where the zero of a scale matters, a formula holds in its own unit only."""
PLAIN = {"", "1", "%", "g", "pu"}
"""Counts and ratios. A number of per cent is a plain number: its formula says / 100 where it means the ratio. An
acceleration in g is a multiple of gravity, a voltage in pu one of the nominal voltage."""


class NoDimension(Exception):
    """The formula has no dimension, or another than it should have."""


def unit_of(name: str) -> Any:
    """One of a unit of the sheet, as a quantity of the registry."""
    if name in PLAIN:
        return UNITS.Quantity(1.0, "")
    text = re.sub(r"[A-Za-z°]+", lambda word: NAMES.get(word[0], word[0]), name)
    text = re.sub(r"([A-Za-z])([23])(?![\d.])", r"\1**\2", text)
    return UNITS.parse_expression(text.replace("·", "*").replace(" ", "*").replace("^", "**"))


def again(text: str, names: Sequence[str], numbers: Sequence[float], units: Sequence[str], result: str) -> float:
    """The number of a formula in the unit that its result claims, worked out with units.

    Raises:
        NoDimension: where units do not fit each other or the result.
    """
    known = {name: n * unit_of(unit) for name, n, unit in zip(names, numbers, units, strict=True)}
    try:
        found = _work(parse(text).tree, known)
        return float((found / unit_of(result)).to("").magnitude)
    except (pint.DimensionalityError, pint.OffsetUnitCalculusError) as error:
        raise NoDimension(str(error)) from error


def _work(node: ast.expr, known: dict[str, Any]) -> Any:
    match node:
        case ast.Constant(value):
            return UNITS.Quantity(float(value), "")
        case ast.Name("pi"):
            return UNITS.Quantity(math.pi, "")
        case ast.Name(name):
            return known[name]
        case ast.UnaryOp(_, operand):
            return -_work(operand, known)
        case ast.BinOp(left, operator, right):
            return _two(operator, _work(left, known), _work(right, known), left, right)
        case ast.Call(ast.Name(name), arguments, _):
            return _call(name, [_work(each, known) for each in arguments], arguments)
    raise NoDimension(ast.unparse(node))


def _two(operator: ast.operator, a: Any, b: Any, left: ast.expr, right: ast.expr) -> Any:
    match operator:
        case ast.Mult():
            return a * b
        case ast.Div():
            return a / b
        case ast.Pow():
            return a ** b.to("").magnitude
        case ast.Add():
            return b if _zero(left) else a if _zero(right) else a + b
        case ast.Sub():
            return -b if _zero(left) else a if _zero(right) else a - b
    raise NoDimension(str(operator))


def _call(name: str, values: list[Any], nodes: list[ast.expr]) -> Any:
    if name in ("min", "max"):
        scale = next(value for value, node in zip(values, nodes, strict=True) if not _zero(node)).units
        plain = [0.0 if _zero(n) else v.to(scale).magnitude for v, n in zip(values, nodes, strict=True)]
        return UNITS.Quantity((min if name == "min" else max)(plain), scale)
    if name == "sqrt":
        return values[0] ** 0.5
    if name == "hypot":
        return sum((value**2 for value in values[1:]), values[0] ** 2) ** 0.5
    if name == "atan2":
        scale = values[0].units
        return UNITS.Quantity(math.atan2(values[0].magnitude, values[1].to(scale).magnitude), "radian")
    if name in ("sin", "cos", "tan"):
        return UNITS.Quantity(getattr(math, name)(values[0].to("radian").magnitude), "")
    plain_functions = {"floor": math.floor, "ceil": math.ceil, "exp": math.exp, "ln": math.log}
    return UNITS.Quantity(plain_functions[name](values[0].to("").magnitude), "")


def _zero(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and node.value == 0
