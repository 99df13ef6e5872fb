"""The calculation sheet: numbers that carry their working, and checks that compare them."""

from standfast.sheet.check import (
    Check,
    at_least,
    at_most,
    cannot_tell,
    exactly,
    is_,
    none_of,
    not_applicable,
    one_of,
    settle,
)
from standfast.sheet.ledger import Ledger
from standfast.sheet.steps import (
    assumed,
    attempt,
    chosen,
    given,
    measured,
    missing,
    needs,
    simulated,
    total,
    work,
    worst,
)
from standfast.sheet.value import Clause, Value

__all__ = [
    "Check",
    "Clause",
    "Ledger",
    "Value",
    "assumed",
    "at_least",
    "at_most",
    "attempt",
    "cannot_tell",
    "chosen",
    "exactly",
    "given",
    "is_",
    "measured",
    "missing",
    "needs",
    "none_of",
    "not_applicable",
    "one_of",
    "settle",
    "simulated",
    "total",
    "work",
    "worst",
]
