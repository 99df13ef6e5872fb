"""Bytes and registers of Modbus: the checksum of the serial line, and the order of bytes.

A register holds 16 bits, an integer from 0 to 65535; its high byte goes first. The checksum of a serial frame is the
one exception of the protocol: its low byte goes first.
"""

from collections.abc import Sequence

REGISTER = 65535
"""The greatest number that a register holds."""
_START, _POLYNOMIAL = 0xFFFF, 0xA001


def crc16(message: Sequence[int]) -> int:
    """The checksum of a serial frame (CRC-16/MODBUS: starts with all ones, polynomial 0x8005 with its bits turned).

    Args:
        message: bytes from the address to the last byte before the checksum.

    Returns:
        An integer from 0 to 65535. The checksum of a message with its own checksum behind it is zero.

    Raises:
        ValueError: for a number that is no byte.
    """
    crc = _START
    for byte in checked_bytes(message):
        crc ^= byte
        for _ in range(8):
            crc = (crc >> 1) ^ (_POLYNOMIAL if crc & 1 else 0)
    return crc


def on_the_wire(crc: int) -> list[int]:
    """The two bytes of a checksum in the order in which they go on the wire: low byte first."""
    return [crc & 0xFF, crc >> 8]


def registers_of(message: Sequence[int]) -> list[int]:
    """The registers that an even number of bytes stands for, high byte first. ValueError for an odd number."""
    found = checked_bytes(message)
    if len(found) % 2:
        raise ValueError(f"{len(found)} bytes are no whole number of registers: a register has two")
    return [found[at] << 8 | found[at + 1] for at in range(0, len(found), 2)]


def bytes_of(registers: Sequence[int]) -> bytes:
    """The bytes of registers, high byte first: the way back from `registers_of`."""
    return b"".join(register.to_bytes(2, "big") for register in checked_registers(registers))


def checked_bytes(numbers: Sequence[int]) -> list[int]:
    """The same numbers. ValueError for one that is no byte."""
    return _within(numbers, 255, "byte")


def checked_registers(numbers: Sequence[int]) -> list[int]:
    """The same numbers. ValueError for one that no register holds."""
    return _within(numbers, REGISTER, "register")


def _within(numbers: Sequence[int], greatest: int, name: str) -> list[int]:
    for number in numbers:
        if isinstance(number, bool) or not isinstance(number, int) or not 0 <= number <= greatest:
            raise ValueError(f"{number!r} is no {name}: it is an integer from 0 to {greatest}")
    return list(numbers)
