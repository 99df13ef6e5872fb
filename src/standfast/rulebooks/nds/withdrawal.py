"""Withdrawal of lag screws, wood screws and nails from side grain (NDS 12.2)."""

from standfast.faults import NotInEdition, OutsideTable
from standfast.sheet import Value, work
from standfast.shelf import Edition

_TEXTS = {
    "lag": "k_W * G ** 1.5 * D ** 0.75",
    "wood_screw": "k_W * G ** 2 * D",
    "nail": "k_W * G ** 2.5 * D",
}


def per_inch(book: Edition, fastener: str, G: Value, D: Value) -> Value:
    """W: reference withdrawal value for each inch of thread in the holding member (nail: of its length), lb/in.

    Args:
        book: the edition.
        fastener: ``lag``, ``wood_screw`` or ``nail``.
        G: specific gravity of the wood.
        D: nominal diameter, in.
    """
    if fastener not in _TEXTS:
        raise NotInEdition(f"{book.short} {book.edition}: no withdrawal value is held for {fastener!r}")
    k_W = book.number(f"withdrawal_{fastener}")
    return work("W", _TEXTS[fastener], "lb/in", book.clause(f"withdrawal_{fastener}"), k_W, G=G, D=D)


def holding(book: Edition, fastener: str, p: Value, E: Value) -> Value:
    """p_t: length that counts in withdrawal: penetration less the tip, in. OutsideTable where nothing is left."""
    p_t = work("p_t", "p - E", "in", book.clause(f"withdrawal_{fastener}"), p=p, E=E)
    if not p_t.missing and p_t.quantity <= 0:
        raise OutsideTable(f"{p_t.clause}: no length holds behind a tip of {E.quantity:g} in")
    return p_t


def whole(book: Edition, fastener: str, W: Value, p_t: Value) -> Value:
    """Reference withdrawal value of one fastener, lb."""
    return work("Wp", "W * p_t", "lb", book.clause(f"withdrawal_{fastener}"), W=W, p_t=p_t)
