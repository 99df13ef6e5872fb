"""Walks the register map of a SunSpec device: where it begins, which models it holds, whether it ends as it should.

Addresses are those of the protocol, counted from 0; some makers print them counted from 1.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from standfast.devices import sunspec_models
from standfast.devices.modbus_bytes import REGISTER, checked_registers, registers_of

BASES = (40000, 0, 50000)
"""Where a map may begin, in the order in which the bases are tried."""
MARKER = registers_of(b"SunS")
END_MODEL, NO_MODEL = 0xFFFF, 0
LONGEST_READ = 125
"""Registers that one request of the protocol may ask for."""

Read = Callable[[int, int], Sequence[int] | None]
"""Reads so many holding registers at an address; None where the device answers with an exception."""


class Found(NamedTuple):
    """A model of a map: identifier, address of the identifier's register, and the length that the device states."""

    model: int
    address: int
    length: int


class Map(NamedTuple):
    """What a walk found.

    Attributes:
        base: address of the marker; None where no base holds it.
        models: those that were read, in their order.
        end_marker: true where the end model was read. Without it the models that were read are kept.
    """

    base: int | None
    models: list[Found]
    end_marker: bool


class Registers:
    """Holding registers that are known, in blocks; a read that touches any other register gets no answer."""

    def __init__(self, blocks: Iterable[tuple[int, Sequence[int]]]) -> None:
        """Take blocks of address and registers.

        Raises:
            ValueError: for a number that is no register, a block beyond the last address, or two that disagree.
        """
        self._held: dict[int, int] = {}
        for start, registers in blocks:
            for address, number in enumerate(checked_registers(registers), start):
                if not 0 <= address <= REGISTER:
                    raise ValueError(f"{address} is no address of a register")
                if self._held.setdefault(address, number) != number:
                    raise ValueError(f"two blocks hold different numbers at {address}")

    def read(self, address: int, count: int) -> list[int] | None:
        """So many registers from an address; None where one of them is not there."""
        wanted = range(address, address + count)
        return [self._held[each] for each in wanted] if all(each in self._held for each in wanted) else None


def discover(read: Read) -> Map:
    """Find the map and walk it to its end.

    A model that the definitions hold is kept only where all its registers answer; one that they do not hold is stepped
    over by its length. A walk ends at the end model, at a register that does not answer, or at identifier 0.
    """
    for base in BASES:
        marker = read(base, len(MARKER))
        if marker is not None and list(marker) == MARKER:
            return _walk(read, base)
    return Map(None, [], False)


def _walk(read: Read, base: int) -> Map:
    models: list[Found] = []
    address = base + len(MARKER)
    while (identifier := read(address, 1)) is not None:
        # The end model is recognised before its length is asked for: some devices have no register behind it.
        if identifier[0] == END_MODEL:
            return Map(base, models, True)
        length = read(address + 1, 1)
        if length is None or identifier[0] == NO_MODEL:
            break
        found = Found(identifier[0], address, length[0])
        if sunspec_models.known(found.model) and not _answers(read, address + sunspec_models.HEADER, found.length):
            break
        models.append(found)
        address += sunspec_models.HEADER + found.length
    return Map(base, models, False)


def _answers(read: Read, address: int, count: int) -> bool:
    parts = range(0, count, LONGEST_READ)
    return all(read(address + at, min(LONGEST_READ, count - at)) is not None for at in parts)
