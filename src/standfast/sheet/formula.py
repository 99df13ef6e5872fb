"""Formula texts: parsed once, evaluated and printed from the same tree.

Allowed are + - * / **, numbers, symbols, pi, and the functions named below; angles are in radians.
"""

import ast
import math
import re
from collections.abc import Callable
from functools import lru_cache
from types import CodeType
from typing import NamedTuple

from standfast.faults import BadFormula

FUNCTIONS: dict[str, Callable[..., float]] = {
    "min": min,
    "max": max,
    "sqrt": math.sqrt,
    "floor": math.floor,
    "ceil": math.ceil,
    "exp": math.exp,
    "ln": math.log,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "atan2": math.atan2,
    "hypot": math.hypot,
}
CONSTANTS: dict[str, float] = {"pi": math.pi}
_SHOWN = {"pi": "π"}
_SPACE: dict[str, object] = {"__builtins__": {}, **FUNCTIONS, **CONSTANTS}
_OPERATORS = {ast.Add: " + ", ast.Sub: " − ", ast.Mult: " × ", ast.Div: " / ", ast.Pow: "^"}
_ONE = re.compile(r"[\w.]+")
"""A text that stands as one thing beside a power sign."""
_RANK = {ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 2, ast.Pow: 4}


class Formula(NamedTuple):
    """A parsed formula: its text, its symbols in order of appearance, its tree and compiled form."""

    text: str
    symbols: tuple[str, ...]
    tree: ast.expr
    code: CodeType

    def evaluate(self, numbers: dict[str, float]) -> float:
        """The number that the formula gives for these numbers, or BadFormula where there is none."""
        try:
            result = eval(self.code, _SPACE, numbers)  # noqa: S307 - the tree was checked node by node
        except (ArithmeticError, ValueError, TypeError) as error:
            raise BadFormula(f"{self.text} has no value for {numbers}: {error}") from error
        if isinstance(result, complex) or not math.isfinite(result):
            raise BadFormula(f"{self.text} has no finite value for {numbers}")
        return float(result)

    def printed(self, shown: dict[str, str]) -> str:
        """The formula as a person reads it, each symbol replaced by its text in `shown`."""
        return _print(self.tree, shown, 0)


@lru_cache(maxsize=4096)
def parse(text: str) -> Formula:
    """Read a formula text.

    Args:
        text: for instance ``"k_cont * I_cont"``.

    Returns:
        The formula, ready to evaluate and to print.

    Raises:
        BadFormula: if it holds anything but arithmetic, the allowed functions, numbers and symbols.
    """
    try:
        tree = ast.parse(text, mode="eval")
    except (SyntaxError, ValueError, RecursionError, MemoryError) as error:
        raise BadFormula(f"{text!r} is not a formula: {error}") from error
    symbols: dict[str, None] = {}
    _visit(tree.body, text, symbols)
    return Formula(text, tuple(symbols), tree.body, compile(tree, "<formula>", "eval"))


def _visit(node: ast.expr, text: str, symbols: dict[str, None]) -> None:
    match node:
        case ast.BinOp(left, operator, right) if type(operator) in _OPERATORS:
            _visit(left, text, symbols)
            _visit(right, text, symbols)
        case ast.UnaryOp(ast.USub(), operand):
            _visit(operand, text, symbols)
        case ast.Call(ast.Name(name), arguments, []) if name in FUNCTIONS:
            for argument in arguments:
                _visit(argument, text, symbols)
        case ast.Constant(value) if isinstance(value, int | float) and not isinstance(value, bool):
            pass
        case ast.Name(name) if name in CONSTANTS:
            pass
        case ast.Name(name) if name not in FUNCTIONS:
            symbols[name] = None
        case _:
            raise BadFormula(f"{text!r} holds {ast.unparse(node)!r}, which a formula may not hold")


def _print(node: ast.expr, shown: dict[str, str], outer: int) -> str:
    match node:
        case ast.BinOp(left, operator, right):
            rank = _RANK[type(operator)]
            loose = rank + (1 if isinstance(operator, ast.Pow) else 0)
            tight = rank + (1 if isinstance(operator, ast.Sub | ast.Div) else 0)
            text = _print(left, shown, loose) + _OPERATORS[type(operator)] + _unsigned(_print(right, shown, tight))
            return f"({text})" if rank < outer else text
        case ast.UnaryOp(_, operand):
            text = f"−{_unsigned(_print(operand, shown, 3))}"
            return f"({text})" if outer > 1 else text
        case ast.Call(ast.Name(name), arguments, _):
            return f"{name}({', '.join(_print(argument, shown, 0) for argument in arguments)})"
        case ast.Constant(value):
            return f"{value:g}" if isinstance(value, float) else str(value)
        case ast.Name(name):
            text = shown[name] if name in shown else _SHOWN[name]
            # A power of "0.125 in" or of "−3" is a power of all of it.
            return text if outer < _RANK[ast.Pow] or _ONE.fullmatch(text) else f"({text})"
    raise BadFormula(f"cannot print {ast.unparse(node)}")


def _unsigned(text: str) -> str:
    """A text that stands behind an operator or a sign: one with a sign of its own gets brackets."""
    return f"({text})" if text.startswith("−") else text
