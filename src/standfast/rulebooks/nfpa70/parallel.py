"""Conductors in parallel: equal ones, from 1/0, that share the current: 310.10(G)."""

from standfast.rulebooks.nfpa70 import conductors
from standfast.sheet import Value, work
from standfast.shelf import Edition


def counted(book: Edition, poles: Value, sets: Value) -> Value:
    """Current-carrying conductors of a circuit whose sets share one raceway: every one of them counts.

    Args:
        book: the code.
        poles: current-carrying conductors of one set.
        sets: how many sets.
    """
    return work("n_own", "n_pole * n_set", "1", book.clause("bundling"), n_pole=poles, n_set=sets)


def tabulated(book: Edition, material: Value, size: Value, column: Value, sets: Value, symbol: str = "I_tab") -> Value:
    """Ampacity in A of all sets together from the table.

    Args:
        book: the code.
        material: ``cu`` or ``al``, the same in every set.
        size: the same in every set.
        column: of the table in °C.
        sets: how many.
        symbol: of the result for one set.

    Raises:
        OutsideTable: for several sets of a size that may not be joined in parallel.
    """
    one = conductors.tabulated(book, material, size, column, symbol)
    return conductors.of_sets(book, one, sets, size)


def resistance(book: Edition, one: Value, sets: Value) -> Value:
    """Resistance in ohm/kft of equal conductors in parallel, from that of one."""
    return work("R_sets", "R_dc / n_set", "ohm/kft", book.clause("conductor_resistance"), R_dc=one, n_set=sets)
