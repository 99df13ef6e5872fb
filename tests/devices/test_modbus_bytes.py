"""Bytes and registers: what is none is refused."""

import pytest

from standfast.devices import modbus_bytes


def test_a_checksum_goes_out_low_byte_first() -> None:
    low, high = modbus_bytes.on_the_wire(modbus_bytes.crc16([17, 3, 0, 107, 0, 3]))
    assert high << 8 | low == modbus_bytes.crc16([17, 3, 0, 107, 0, 3])
    assert modbus_bytes.crc16([17, 3, 0, 107, 0, 3, low, high]) == 0


def test_no_bytes_leave_the_start_value() -> None:
    assert modbus_bytes.crc16([]) == 0xFFFF


@pytest.mark.parametrize("wrong", [256, -1, 3.0, True, "a"])
def test_what_is_no_byte_is_refused(wrong: object) -> None:
    with pytest.raises(ValueError, match="is no byte"):
        modbus_bytes.crc16([1, wrong])  # type: ignore[list-item]


def test_an_odd_number_of_bytes_is_no_register() -> None:
    with pytest.raises(ValueError, match="3 bytes"):
        modbus_bytes.registers_of([1, 2, 3])


def test_a_register_beyond_its_range_is_refused() -> None:
    with pytest.raises(ValueError, match="65536 is no register"):
        modbus_bytes.bytes_of([0, 65536])
