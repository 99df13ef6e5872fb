"""NEC 2023: one bond of neutral and ground, bending space at terminals, DC voltage of storage in dwellings."""

import pytest

from standfast.faults import OutsideTable
from standfast.rulebooks.nfpa70 import bending, bonding, storage
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")


def say(symbol: str, number: float | str | bool, unit: str = "") -> Value:
    return given(symbol, number, unit, "a test")


def places(*joined: bool) -> list[Value]:
    return [say(f"bond_{number}", each) for number, each in enumerate(joined)]


@pytest.mark.parametrize(
    ("joined", "verdict"),
    [((True, False, False), "pass"), ((False, False), "fail"), ((True, False, True), "fail"), ((), "fail")],
)
def test_neutral_and_ground_are_joined_exactly_once(joined: tuple[bool, ...], verdict: str) -> None:
    for separate, clause in ((False, "250.24 and 250.142(B)"), (True, "250.30(A)(1)")):
        found = bonding.one_bond(NEC, "x", "x", places(*joined), separate=separate)
        assert (found.verdict, found.clause.clause) == (verdict, clause)


def test_a_place_that_nobody_looked_into_is_never_counted_as_none() -> None:
    lost = missing("bond_panel", "", "look into the panel")
    found = bonding.one_bond(NEC, "x", "x", [*places(True), lost], separate=False)
    assert (found.verdict, found.reason) == ("cannot tell", "look into the panel")


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
