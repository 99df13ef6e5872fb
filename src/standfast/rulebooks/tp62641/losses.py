"""Losses between the sun and the meter that multiply."""

from collections.abc import Sequence

from standfast.sheet import Value, total, work
from standfast.shelf import Edition


def published(book: Edition) -> list[Value]:
    """The losses that the manual takes where nothing is known, in per cent."""
    table = book.table("losses")
    return [table.pick("L", "share", loss=str(name)) for name in table.column("loss")]


def system_loss(book: Edition, losses: Sequence[Value]) -> Value:
    """All losses together in per cent; each takes its part of what the others leave."""
    clause = book.clause("losses")
    together = total("L_before", [], "%", clause)
    for loss in losses:
        together = work("L_all", "100 - (100 - L_before) * (1 - L / 100)", "%", clause, L_before=together, L=loss)
    return together
