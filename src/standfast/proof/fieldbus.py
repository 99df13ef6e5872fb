"""Adapters of buses and of the bytes and registers of Modbus."""

from typing import Any

from standfast import shelf
from standfast.devices import modbus_bytes
from standfast.proof.inputs import BadCase, Inputs, asked
from standfast.proof.methods import method
from standfast.rulebooks.handbook import field_bus
from standfast.rulebooks.iso11898 import terminators
from standfast.sheet import given


@method("modbus.crc16")
def crc16(case: Inputs) -> dict[str, Any]:
    """Checksum of a serial frame."""
    crc = asked(modbus_bytes.crc16, case.whole_numbers("bytes"))
    return {"crc": crc, "wire_bytes": modbus_bytes.on_the_wire(crc)}


@method("modbus.registers_from_bytes")
def registers_from_bytes(case: Inputs) -> dict[str, Any]:
    """Registers, high byte first."""
    return {"registers": asked(modbus_bytes.registers_of, case.whole_numbers("bytes"))}


@method("fieldbus.termination_resistance")
def termination_resistance(case: Inputs) -> dict[str, Any]:
    """What is fitted between two wires, in parallel."""
    book = shelf.edition("handbook", "2026")
    buses = [[given("R", each, "ohm", "case, terminators_ohm") for each in bus] for bus in _lists(case)]
    return {"ohm": [field_bus.in_parallel(book, bus).quantity for bus in buses]}


@method("fieldbus.termination_diagnosis")
def termination_diagnosis(case: Inputs) -> dict[str, Any]:
    """What the resistance of a dead bus means."""
    book = shelf.edition("iso11898", "undated")
    read = [given("R", each, "ohm", "case, measured_ohm") for each in case.numbers("measured_ohm")]
    return {"diagnosis": [terminators.diagnosis(book, each).word for each in read]}


def _lists(case: Inputs) -> list[list[float]]:
    raw = case.raw("terminators_ohm")
    if not isinstance(raw, list) or not all(isinstance(bus, list) for bus in raw):
        raise BadCase("the input 'terminators_ohm' is not a list of lists")
    return [Inputs({"bus": bus}).numbers("bus") for bus in raw]
