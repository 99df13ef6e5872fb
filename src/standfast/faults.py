"""The two ways in which the program says that something is wrong.

Faults in a file are collected: a reader keeps what it understood and reports every fault at once.
Rules that cannot be applied raise one of the refusals; a check turns a refusal into *cannot tell*.
"""

from typing import NamedTuple


class Fault(NamedTuple):
    """One thing wrong in a file or a call.

    Attributes:
        file: name as the user wrote it.
        line: counted from 1; 0 where the fault has no line (an absent file).
        column: counted from 1; 0 where it has none.
        what: what is wrong, with the offending text.
        why: why it matters or is not accepted; may be empty.
        todo: what the user can do about it.
    """

    file: str
    line: int
    column: int
    what: str
    why: str
    todo: str

    def __str__(self) -> str:
        place = self.file + (f":{self.line}:{self.column}" if self.line else "")
        why = f": {self.why}" if self.why else ""
        todo = f" ({self.todo})" if self.todo else ""
        return f"{place}: {self.what}{why}{todo}"


class FaultsFound(Exception):
    """Input that cannot be used, with every fault that was found in it."""

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = faults
        super().__init__("\n".join(str(fault) for fault in faults))


class Refusal(Exception):
    """A rule that cannot be applied. The sheet answers *cannot tell* with this text as the reason."""


class NotInEdition(Refusal):
    """The edition in force holds no such clause, number, table or cell; nothing is borrowed from another."""


class OutsideTable(Refusal):
    """A value lies beyond the rows of a table, or between rows where the book does not allow a value."""


class UnitMismatch(Refusal):
    """Two values that must have one unit have two."""


class BadFormula(Refusal):
    """A formula text that cannot be read, names other symbols than its inputs, or has no finite result."""


class Unanswered(Refusal):
    """A question that a model cannot answer truly.

    Attributes:
        word: the reason, one word of the model's own closed list.
    """

    def __init__(self, word: str, text: str) -> None:
        self.word = word
        super().__init__(text)
