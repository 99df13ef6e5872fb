"""The inputs of a case, as an adapter reads them."""

import math
from collections.abc import Callable, Mapping
from typing import Any, ParamSpec, TypeVar

from standfast.sheet import Value, given

_P = ParamSpec("_P")
_R = TypeVar("_R")


class BadCase(Exception):
    """A case that cannot be asked: an input is absent, of the wrong kind, or a word that the method does not know."""


class Inputs:
    """The inputs of one case; remembers which were used, since an input that nobody reads was not answered for."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        self._values = values
        self._used: set[str] = set()

    def __contains__(self, name: str) -> bool:
        return name in self._values

    def raw(self, name: str, default: Any = None) -> Any:
        """An input as it stands; the default where it is absent. BadCase where it is absent and has no default."""
        self._used.add(name)
        value = self._values.get(name, default)
        if value is None:
            raise BadCase(f"the input {name!r} is absent")
        return value

    def number(self, name: str, default: float | None = None) -> float:
        """A finite number."""
        value = self.raw(name, default)
        number = finite(value)
        if number is None:
            raise BadCase(f"the input {name!r} is not a number: {value!r}")
        return number

    def numbers(self, name: str, default: list[float] | None = None) -> list[float]:
        """A list of numbers; a single number is a list of one."""
        value = self.raw(name, default)
        numbers = [finite(item) for item in (value if isinstance(value, list) else [value])]
        found = [number for number in numbers if number is not None]
        if len(found) < len(numbers):
            raise BadCase(f"the input {name!r} is not a list of numbers: {value!r}")
        return found

    def word(self, name: str, default: str | None = None) -> str:
        """A word."""
        value = self.raw(name, default)
        if not isinstance(value, str):
            raise BadCase(f"the input {name!r} is not a word: {value!r}")
        return value

    def words(self, name: str) -> list[str]:
        """A list of words; a single word is a list of one."""
        value = self.raw(name)
        found = value if isinstance(value, list) else [value]
        if any(not isinstance(item, str) for item in found):
            raise BadCase(f"the input {name!r} is not a list of words: {value!r}")
        return list(found)

    def whole_number(self, name: str) -> int:
        """A whole number; one that stands as 3.0 is 3."""
        return _whole(name, self.number(name))

    def whole_numbers(self, name: str) -> list[int]:
        """A list of whole numbers."""
        return [_whole(name, number) for number in self.numbers(name)]

    def yes(self, name: str, default: bool | None = None) -> bool:
        """A yes or no."""
        value = self.raw(name, default)
        if not isinstance(value, bool):
            raise BadCase(f"the input {name!r} is not true or false: {value!r}")
        return value

    def items(self, name: str, default: list[Any] | None = None) -> "list[Inputs]":
        """A list of objects."""
        value = self.raw(name, default)
        if not isinstance(value, list) or any(not isinstance(item, Mapping) for item in value):
            raise BadCase(f"the input {name!r} is not a list of objects")
        return [Inputs(item) for item in value]

    def item(self, name: str) -> "Inputs":
        """An object."""
        value = self.raw(name)
        if not isinstance(value, Mapping):
            raise BadCase(f"the input {name!r} is not an object")
        return Inputs(value)

    def value(self, name: str, symbol: str, unit: str, default: float | None = None) -> Value:
        """A number as a given value of the sheet."""
        return given(symbol, self.number(name, default), unit, f"case, {name}")

    def unused(self) -> list[str]:
        """Inputs that no adapter asked for."""
        return sorted(set(self._values) - self._used)


def _whole(name: str, number: float) -> int:
    if not number.is_integer():
        raise BadCase(f"the input {name!r} is not whole: {number!r}")
    return int(number)


def asked(function: Callable[_P, _R], *facts: _P.args, **named: _P.kwargs) -> _R:
    """Call a function whose ValueError says that the facts of the case are none: it becomes a BadCase."""
    try:
        return function(*facts, **named)
    except ValueError as error:
        raise BadCase(str(error)) from error


def known(answers: Mapping[str, Value]) -> dict[str, Any]:
    """The answers that the inputs were enough for: those whose value is not missing."""
    return {name: value.number for name, value in answers.items() if not value.missing}


def finite(value: Any) -> float | None:
    """A number as a float; None for anything else, and for one that no float holds."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        number = float(value)
    except OverflowError:
        return None
    return number if math.isfinite(number) else None
