"""Adapters of the Australian and New Zealand standards."""

from typing import Any

from standfast import shelf
from standfast.proof.inputs import Inputs
from standfast.proof.methods import method
from standfast.rulebooks.asnzs3000 import insulation
from standfast.rulebooks.asnzs4777 import voltage_rise
from standfast.rulebooks.asnzs5139 import dc_class
from standfast.sheet import given


@method("asnzs3000.insulation_test")
def insulation_test(case: Inputs) -> dict[str, Any]:
    """Insulation resistance of an installation."""
    book = shelf.edition("asnzs3000", "2018")
    test, least = insulation.limits(book, insulation.band(book, case.value("voltage_v", "U", "V")))
    reduced = insulation.reduced_test(book)
    return {"test_v": test.quantity, "reduced_test_v": reduced.quantity, "min_megohm": least.quantity}


@method("asnzs4777.voltage_rise")
def rise(case: Inputs) -> dict[str, Any]:
    """Voltage rise of an inverter's circuit."""
    book = shelf.edition("asnzs4777", "2016")
    limit = voltage_rise.limit(book, case.value("voltage_v", "U_n", "V"))
    return {"limit_pct": voltage_rise.limit_ratio(book).quantity * 100, "limit_v": limit.quantity}


@method("asnzs5139.dvc")
def dvc(case: Inputs) -> dict[str, Any]:
    """Decisive voltage class, and protection of the battery cable."""
    book = shelf.edition("asnzs5139", "2019")
    voltages = [given("U_dc", number, "V", "case, dc_voltage_v") for number in case.numbers("dc_voltage_v")]
    classes = [dc_class.decisive_voltage_class(book, each) for each in voltages]
    protected = [dc_class.cable_protected_throughout(book, each) for each in classes]
    return {"dvc": [each.word for each in classes], "mechanical_protection": [each.yes for each in protected]}
