"""IEC 60949, IEC 62446-1 and the Australian and New Zealand standards on invented figures."""

import math

import pytest

from standfast import shelf
from standfast.rulebooks.asnzs3000 import insulation as wiring_rules
from standfast.rulebooks.asnzs4777 import voltage_rise
from standfast.rulebooks.asnzs5139 import dc_class
from standfast.rulebooks.iec60949 import short_circuit
from standfast.rulebooks.iec62446 import insulation
from standfast.sheet import Value, given, missing


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def test_short_circuit_with_and_without_loss_of_heat() -> None:
    book = shelf.edition("iec60949", "1988")
    copper = of(226, "A s^0.5/mm2"), of(234.5, "°C")
    current = short_circuit.adiabatic(book, *copper, of(16, "mm2"), of(70, "°C"), of(160, "°C"), of(0.25, "s"))
    assert current.quantity == pytest.approx(226 * 16 * math.sqrt(math.log(394.5 / 304.5) / 0.25))
    none = of(0, "(mm2/s)^0.5"), of(0, "mm2/s")
    assert short_circuit.non_adiabatic_factor(book, *none, of(16, "mm2"), of(0.25, "s")).quantity == 1
    some = of(0.4, "(mm2/s)^0.5"), of(0.1, "mm2/s")
    factor = short_circuit.non_adiabatic_factor(book, *some, of(16, "mm2"), of(0.25, "s"))
    assert short_circuit.permissible(book, factor, current).quantity > current.quantity


@pytest.mark.parametrize(
    ("voc", "limits"),
    [(95, (250, 0.5)), (96, (500, 1)), (400, (500, 1)), (401, (1000, 1)), (800, (1000, 1)), (801, (1500, 1))],
)
def test_array_bands(voc: float, limits: tuple[float, float]) -> None:
    book = shelf.edition("iec62446", "2016")
    band = insulation.band(book, insulation.system_voltage(book, of(voc, "V")))
    assert tuple(each.quantity for each in insulation.limits(book, band)) == limits


@pytest.mark.parametrize(("volts", "limits"), [(48, (250, 0.5)), (400, (500, 1)), (600, (1000, 1))])
def test_wiring_rules_bands(volts: float, limits: tuple[float, float]) -> None:
    book = shelf.edition("asnzs3000", "2018")
    found = wiring_rules.limits(book, wiring_rules.band(book, of(volts, "V")))
    assert tuple(each.quantity for each in found) == limits
    assert wiring_rules.reduced_test(book).quantity == 250


def test_voltage_rise() -> None:
    assert voltage_rise.limit(shelf.edition("asnzs4777", "2016"), of(240, "V")).quantity == pytest.approx(4.8)


@pytest.mark.parametrize(
    ("volts", "word", "protected"), [(60, "a", False), (60.5, "b", True), (120, "b", True), (121, "c", True)]
)
def test_voltage_classes(volts: float, word: str, protected: bool) -> None:
    book = shelf.edition("asnzs5139", "2019")
    found = dc_class.decisive_voltage_class(book, of(volts, "V"))
    assert (found.word, dc_class.cable_protected_throughout(book, found).yes) == (word, protected)


def test_an_unknown_voltage_has_no_class() -> None:
    book = shelf.edition("asnzs5139", "2019")
    unknown = dc_class.decisive_voltage_class(book, missing("U", "V", "the voltage"))
    assert unknown.missing
    assert dc_class.cable_protected_throughout(book, unknown).missing
