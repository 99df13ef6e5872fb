"""Points of the open SunSpec models: from registers to a number with its scale, or to *not implemented*.

Each type has a mark that says that a device does not have the point. Such a point has no value: it is never zero and
never a pass. Source: SunSpec information model specification, as the definitions shipped here and an open client
library of the same alliance agree.
"""

import math
import struct
from collections.abc import Sequence
from typing import NamedTuple

from standfast.devices.modbus_bytes import bytes_of

Raw = int | float | str


class Whole(NamedTuple):
    """A type that holds a whole number: how many registers, whether signed, and its mark for *not implemented*."""

    registers: int
    signed: bool
    absent: int


WHOLE: dict[str, Whole] = {
    "int16": Whole(1, True, -(2**15)), "int32": Whole(2, True, -(2**31)), "int64": Whole(4, True, -(2**63)),
    "uint16": Whole(1, False, 2**16 - 1), "uint32": Whole(2, False, 2**32 - 1), "uint64": Whole(4, False, 2**64 - 1),
    "acc16": Whole(1, False, 0), "acc32": Whole(2, False, 0), "acc64": Whole(4, False, 0),
    "enum16": Whole(1, False, 2**16 - 1), "enum32": Whole(2, False, 2**32 - 1),
    "bitfield16": Whole(1, False, 2**16 - 1), "bitfield32": Whole(2, False, 2**32 - 1),
    "bitfield64": Whole(4, False, 2**64 - 1),
    "count": Whole(1, False, 2**16 - 1), "sunssf": Whole(1, True, -(2**15)),
    "ipaddr": Whole(2, False, 0), "ipv6addr": Whole(8, False, 0), "eui48": Whole(4, False, 2**48 - 1),
}  # fmt: skip
FLOATS = {"float32": (2, ">f"), "float64": (4, ">d")}
"""Registers and layout; *not implemented* is not a number."""
SCALES = range(-10, 11)
"""Powers of ten that a scale factor may hold."""


def raw(kind: str, registers: Sequence[int]) -> Raw | None:
    """What the registers of a point hold, before the scale.

    Args:
        kind: type of the point.
        registers: its registers, high word first.

    Returns:
        A number, a text, or None where the registers hold the mark of the type for *not implemented*.

    Raises:
        ValueError: for a type that is not known, or another number of registers than it has.
    """
    data = bytes_of(registers)
    if kind == "string":
        return data.partition(b"\0")[0].decode("utf-8", "replace").strip() or None
    if kind == "pad":
        return None
    if kind in FLOATS:
        size, layout = FLOATS[kind]
        _sized(kind, registers, size)
        number: float = struct.unpack(layout, data)[0]
        return number if math.isfinite(number) else None
    if kind not in WHOLE:
        raise ValueError(f"{kind!r} is no type of a point: {', '.join([*WHOLE, *FLOATS, 'string'])} are")
    whole = WHOLE[kind]
    _sized(kind, registers, whole.registers)
    found = int.from_bytes(data, "big", signed=whole.signed)
    return None if found == whole.absent else found


def scale_of(register: int) -> int | None:
    """The power of ten that a scale factor's register holds; None where the device does not have it.

    ValueError for a power that no scale factor may hold.
    """
    power = raw("sunssf", [register])
    if power is None:
        return None
    if power not in SCALES:
        raise ValueError(f"a scale factor is from {SCALES[0]} to {SCALES[-1]}, not {power}")
    return int(power)


def value(kind: str, registers: Sequence[int], scale_register: int | None = None) -> Raw | None:
    """The value of a point.

    Args:
        kind: type of the point.
        registers: its registers, high word first.
        scale_register: register of its scale factor; None where the point has none.

    Returns:
        The scaled number or the text; None where the point, or the scale factor that it needs, is not implemented.
    """
    found = raw(kind, registers)
    power = 0 if scale_register is None else scale_of(scale_register)
    if found is None or power is None:
        return None
    return scaled(found, power) if isinstance(found, int | float) else found


def scaled(number: float, power: int) -> float:
    """A number times a power of ten, rounded once: 310 with −1 is exactly the float 31.0."""
    return number * int(10**power) if power >= 0 else number / int(10**-power)


def _sized(kind: str, registers: Sequence[int], size: int) -> None:
    if len(registers) != size:
        raise ValueError(f"{kind} has {size} registers, not {len(registers)}")
