"""Laws of bytes, registers and points."""

from hypothesis import given as draw
from hypothesis import settings
from hypothesis import strategies as st

from standfast.devices import modbus_bytes, sunspec_models, sunspec_points
from standfast.devices.sunspec_map import END_MODEL, MARKER, Registers, discover

MESSAGES = st.lists(st.integers(0, 255), max_size=60)
KINDS = st.sampled_from(sorted(sunspec_points.WHOLE))
FIXED = [model for model in (1, 103, 121, 124, 203, 702, 703, 713, 715, 802) if not sunspec_models.counted(model)]


@settings(deadline=None, derandomize=True, max_examples=150)
@draw(MESSAGES)
def test_a_message_with_its_checksum_has_the_checksum_zero(message: list[int]) -> None:
    wire = modbus_bytes.on_the_wire(modbus_bytes.crc16(message))
    assert modbus_bytes.crc16(message + wire) == 0


@settings(deadline=None, derandomize=True, max_examples=150)
@draw(MESSAGES, st.integers(0, 59), st.integers(1, 255))
def test_one_changed_byte_changes_the_checksum(message: list[int], at: int, change: int) -> None:
    if not message:
        return
    other = list(message)
    other[at % len(message)] ^= change
    assert modbus_bytes.crc16(other) != modbus_bytes.crc16(message)


@settings(deadline=None, derandomize=True, max_examples=100)
@draw(st.lists(st.integers(0, 65535), max_size=40))
def test_registers_to_bytes_and_back(registers: list[int]) -> None:
    assert modbus_bytes.registers_of(list(modbus_bytes.bytes_of(registers))) == registers


@settings(deadline=None, derandomize=True, max_examples=200)
@draw(KINDS, st.data())
def test_a_number_survives_its_registers(kind: str, data: st.DataObject) -> None:
    whole = sunspec_points.WHOLE[kind]
    bits = 16 * whole.registers - (1 if whole.signed else 0)
    number = data.draw(st.integers(-(2**bits) if whole.signed else 0, 2**bits - 1))
    registers = modbus_bytes.registers_of(list(number.to_bytes(2 * whole.registers, "big", signed=whole.signed)))
    assert sunspec_points.raw(kind, registers) == (None if number == whole.absent else number)


@settings(deadline=None, derandomize=True, max_examples=100)
@draw(st.integers(-32767, 32767), st.integers(-10, 10))
def test_a_scaled_number_is_the_nearest_to_the_decimal(number: int, power: int) -> None:
    assert sunspec_points.scaled(number, power) == float(f"{number}e{power}")


@settings(deadline=None, derandomize=True, max_examples=60)
@draw(st.lists(st.sampled_from(FIXED), max_size=6), st.sampled_from([40000, 0, 50000]), st.booleans())
def test_a_map_that_was_laid_is_found_again(wanted: list[int], base: int, ends: bool) -> None:
    lengths = [sunspec_models.length(sunspec_models.layout(model, {})) for model in wanted]
    registers = list(MARKER)
    for model, length in zip(wanted, lengths, strict=True):
        registers += [model, length, *[7] * length]
    found = discover(Registers([(base, registers + ([END_MODEL] if ends else []))]).read)
    assert found.base == base
    assert [(each.model, each.length) for each in found.models] == list(zip(wanted, lengths, strict=True))
    assert found.end_marker == ends
