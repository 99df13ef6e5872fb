"""A number that carries its trail.

A Value has no arithmetic and no float(): the only ways to a new number are the functions of `sheet.steps`, which keep
the inputs, so nobody can lose the trail by accident. Values are frozen.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from standfast.terms import Seen

Number = float | str | bool | tuple[str, ...]
"""A quantity or count, a word, a yes or no, or a set of words (sorted)."""

Kind = Literal["given", "table", "worked", "chosen", "measured", "simulated", "assumed", "missing"]


class Clause(NamedTuple):
    """A place in a book: which edition says so, and where."""

    book: str
    edition: str
    clause: str

    def __str__(self) -> str:
        return f"{self.book} {self.edition} {self.clause}".strip()


class Value:
    """One frozen line of the calculation sheet.

    Attributes:
        symbol: the standard's own symbol, or a trade word with a unit suffix. A plain identifier.
        number: quantity, count, word, yes/no or set of words; None only where the kind is *missing*.
        unit: unit name as in `units.UNITS`; "1" for ratios and counts; "" for words and yes/no.
        kind: where the number comes from.
        how: formula text (worked), condition met (chosen), method (measured, simulated), reason (assumed),
            what is needed and where to put it (missing), cell (table), place in the file (given).
        clause: the clause that the step applies, if any.
        seen: for numbers of a book, where they were read.
        bounding: for *assumed*, true where the book marks the value safe for every value that the fact can have.
        names: symbols that stand for the inputs in a formula, in the order of `inputs`.
        inputs: the Values that this one was made from.
    """

    __slots__ = ("bounding", "clause", "how", "inputs", "kind", "names", "number", "seen", "symbol", "unit")

    symbol: str
    number: Number | None
    unit: str
    kind: Kind
    how: str
    clause: Clause | None
    seen: Seen | None
    bounding: bool
    names: tuple[str, ...]
    inputs: tuple["Value", ...]

    def __init__(
        self,
        symbol: str,
        number: Number | None,
        unit: str,
        kind: Kind,
        how: str,
        clause: Clause | None = None,
        seen: Seen | None = None,
        bounding: bool = False,
        names: tuple[str, ...] = (),
        inputs: tuple["Value", ...] = (),
    ) -> None:
        put = object.__setattr__
        put(self, "symbol", symbol)
        put(self, "number", number)
        put(self, "unit", unit)
        put(self, "kind", kind)
        put(self, "how", how)
        put(self, "clause", clause)
        put(self, "seen", seen)
        put(self, "bounding", bounding)
        put(self, "names", names)
        put(self, "inputs", inputs)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{self.symbol} is frozen: make a new value with a step of the sheet")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"{self.symbol} is frozen")

    def __bool__(self) -> bool:
        raise TypeError(f"{self.symbol} is a value of the sheet: ask for .quantity, .word or .yes")

    def __repr__(self) -> str:
        return f"Value({self.symbol} = {self.number} {self.unit}, {self.kind})"

    @property
    def missing(self) -> bool:
        """True where the number is not known."""
        return self.kind == "missing"

    @property
    def quantity(self) -> float:
        """The number, for plain code that wraps its result again. TypeError where it is a word, yes/no, or missing."""
        if isinstance(self.number, bool) or not isinstance(self.number, int | float):
            raise TypeError(f"{self.symbol} is not a quantity but {self.number!r}")
        return self.number

    @property
    def word(self) -> str:
        """The word. TypeError where it is anything else."""
        if not isinstance(self.number, str):
            raise TypeError(f"{self.symbol} is not a word but {self.number!r}")
        return self.number

    @property
    def yes(self) -> bool:
        """The yes or no. TypeError where it is anything else."""
        if not isinstance(self.number, bool):
            raise TypeError(f"{self.symbol} is not a yes or no but {self.number!r}")
        return self.number

    def _repr_html_(self) -> str:
        from standfast.sheet.shown import value_html

        return value_html(self)

    def trail(self) -> Iterator["Value"]:
        """This value and everything it was made from, inputs before what uses them, each once."""
        seen: set[int] = set()
        stack: list[tuple[Value, bool]] = [(self, False)]
        while stack:
            value, ready = stack.pop()
            if ready:
                yield value
            elif id(value) not in seen:
                seen.add(id(value))
                stack.append((value, True))
                stack.extend((each, False) for each in reversed(value.inputs))
