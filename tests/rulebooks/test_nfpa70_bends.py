"""NEC 2023: bending space at terminals, DC voltage of storage in dwellings."""

import pytest

from standfast.faults import OutsideTable
from standfast.rulebooks.nfpa70 import bending, storage
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")


def say(symbol: str, number: float | str | bool, unit: str = "") -> Value:
    return given(symbol, number, unit, "a test")


@pytest.mark.parametrize(
    ("size", "space"), [("8", 1.5), ("6", 1.5), ("4", 2.0), ("2", 2.5), ("1/0", 3.5), ("4/0", 4.0)]
)
def test_bending_space_by_the_table(size: str, space: float) -> None:
    found = bending.needed(NEC, say("size", size))
    assert found is not None
    assert found.quantity == space


@pytest.mark.parametrize("size", ["14", "12", "10"])
def test_small_wires_need_no_space_by_the_table(size: str) -> None:
    assert bending.needed(NEC, say("size", size)) is None


def test_no_size_no_space_and_no_row_no_guess() -> None:
    unknown = bending.needed(NEC, missing("size", "", "the size"))
    assert unknown is not None
    assert unknown.missing
    with pytest.raises(OutsideTable):
        bending.needed(NEC, say("size", "9"))


@pytest.mark.parametrize(
    ("volts", "accessible", "verdict"),
    [
        (58, None, "pass"), (100, None, "pass"), (101, None, "cannot tell"), (101, True, "fail"), (101, False, "pass"),
        (600, False, "pass"), (601, False, "fail"), (None, False, "cannot tell"),
    ],
)  # fmt: skip
def test_dc_voltage_in_a_dwelling(volts: float | None, accessible: bool | None, verdict: str) -> None:
    voltage = missing("U", "V", "the voltage") if volts is None else say("U", float(volts), "V")
    reach = missing("accessible", "", "whether hands reach") if accessible is None else say("accessible", accessible)
    assert storage.dc_voltage(NEC, "x", voltage, reach).verdict == verdict
