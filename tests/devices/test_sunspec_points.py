"""Points: marks for *not implemented*, scales, texts, and what is refused."""

import struct

import pytest

from standfast.devices import sunspec_points as points
from standfast.devices.modbus_bytes import registers_of


@pytest.mark.parametrize("kind", list(points.WHOLE))
def test_every_type_has_a_mark_that_has_no_value(kind: str) -> None:
    whole = points.WHOLE[kind]
    mark = registers_of(list(whole.absent.to_bytes(2 * whole.registers, "big", signed=whole.signed)))
    assert points.raw(kind, mark) is None
    assert points.value(kind, mark, 1) is None
    near = [*mark[:-1], mark[-1] ^ 1]
    assert points.raw(kind, near) is not None


@pytest.mark.parametrize("kind", list(points.WHOLE))
def test_a_wrong_number_of_registers_is_refused(kind: str) -> None:
    with pytest.raises(ValueError, match="registers, not"):
        points.raw(kind, [1] * (points.WHOLE[kind].registers + 1))


def test_floats_and_texts() -> None:
    assert points.value("float32", registers_of(list(struct.pack(">f", -2.5)))) == -2.5
    assert points.raw("float32", [0x7FC0, 0]) is None
    assert points.raw("string", registers_of(list(b"Demo\0\0"))) == "Demo"
    assert points.raw("string", [0, 0]) is None
    assert points.raw("pad", [5]) is None


def test_a_scale_that_is_absent_leaves_no_value() -> None:
    assert points.value("int16", [12], 0x8000) is None
    assert points.value("int16", [12], 2) == 1200
    assert points.value("int16", [12]) == 12


@pytest.mark.parametrize("power", [11, 65525])
def test_a_scale_beyond_ten_powers_is_refused(power: int) -> None:
    with pytest.raises(ValueError, match="scale factor"):
        points.value("int16", [12], power)


def test_a_type_that_is_not_known_is_refused() -> None:
    with pytest.raises(ValueError, match="no type of a point"):
        points.raw("int13", [1])
