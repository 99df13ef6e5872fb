"""Feeders and taps that also carry a power source."""

from collections.abc import Sequence
from typing import Literal

from standfast.rulebooks.nfpa70 import busbars
from standfast.sheet import Check, Value, at_least, at_most, work
from standfast.shelf import Edition

TapRule = Literal[10, 25]


def needed_beyond_source(book: Edition, primary: Value, outputs: Sequence[Value]) -> Value:
    """Ampacity in A of a feeder on the load side of a source connection that has no device there.

    Args:
        book: the code.
        primary: device at the supply end of the feeder, in A.
        outputs: rated continuous outputs of the sources, in A.
    """
    clause, sources = book.clause("source_feeder"), busbars.sources_125(book, outputs)
    return work("I_req", "I_primary + I_src", "A", clause, sources, I_primary=primary)


def beyond_source(book: Edition, id: str, ampacity: Value, needed: Value, device: Value | None) -> Check:
    """The feeder beyond a source connection is protected.

    Args:
        book: the code.
        id: of the check.
        ampacity: of the feeder in A.
        needed: what it needs without a device on the load side of the connection, in A.
        device: rating of such a device in A; None where there is none.
    """
    title, clause = "Feeder beyond the source connection", book.clause("source_feeder")
    own = at_least(id, title, clause, ampacity, needed)
    if own.verdict == "pass" or device is None:
        return own
    return at_most(id, title, clause, device, ampacity)


def tap(book: Edition, feeder: Value, sources_125: Value, rule: TapRule) -> Value:
    """Least ampacity in A of a tap conductor on a feeder that also carries a source. There is no next size up.

    The conductor has also to reach its load and the device at its end.

    Args:
        book: the code.
        feeder: device protecting the feeder, in A.
        sources_125: 125 % of the outputs of the sources, in A.
        rule: 10 for the ten-foot rule, 25 for the twenty-five-foot rule.
    """
    clause, divisor = book.clause("source_tap"), book.number(f"tap_{rule}_divisor")
    return work("I_tap", "(I_feeder + I_src) / n_tap", "A", clause, divisor, I_feeder=feeder, I_src=sources_125)
