"""Least volume of outlet, device and junction boxes with conductors of 6 AWG and smaller."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.sheet import Value, total, work, worst
from standfast.shelf import Edition


class Counted(NamedTuple):
    """Things of one conductor size: size word and number; of a device the size is that of the conductors on it."""

    size: Value
    number: Value


def volume(book: Edition, size: Value) -> Value:
    """Free space in in3 of one conductor."""
    return book.table("box_volume").look("V_1", "volume", size=size)


def least_volume(
    book: Edition, conductors: Sequence[Counted], grounds: Sequence[Counted], devices: Sequence[Counted], clamps: bool
) -> Value:
    """Least volume in in3.

    Args:
        book: the code.
        conductors: that end in the box or pass through; not those that never leave it.
        grounds: equipment grounding and bonding conductors: up to four count as one of the largest.
        devices: yokes, each twice its largest conductor.
        clamps: true where the box has internal clamps: one of the largest conductor in the box.
    """
    clause = book.clause("box_fill")
    parts = [_some(book, "V_c", each, None) for each in conductors]
    parts += [_some(book, "V_d", each, book.number("box_device")) for each in devices]
    if grounds:
        parts.append(_grounds(book, grounds))
    present = [*conductors, *grounds, *devices]
    if clamps and present:
        parts.append(worst("V_clamp", [volume(book, each.size) for each in present], "max", clause))
    return total("V_box", parts, "in3", clause)


def _some(book: Edition, symbol: str, each: Counted, factor: Value | None) -> Value:
    clause, one = book.clause("box_fill"), volume(book, each.size)
    if factor is None:
        return work(symbol, "n * V_1", "in3", clause, one, n=each.number)
    return work(symbol, "k_device * n * V_1", "in3", clause, factor, one, n=each.number)


def _grounds(book: Edition, grounds: Sequence[Counted]) -> Value:
    clause = book.clause("box_fill")
    largest = worst("V_1", [volume(book, each.size) for each in grounds], "max", clause)
    count = total("n_g", [each.number for each in grounds], "1", clause)
    free, extra = book.number("box_grounds_free"), book.number("box_ground_extra")
    text = "V_1 * (1 + k_extra * max(0, n_g - n_one))"
    return work("V_g", text, "in3", clause, largest, count, free, extra)
