"""Residual current devices of BS 7671: blinding, selectivity, tripping on the current of a source."""

import pytest

from standfast.rulebooks.bs7671 import residual
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

BS = edition("bs7671", "2018-a2")


def say(symbol: str, number: float | str | bool, unit: str = "") -> Value:
    return given(symbol, number, unit, "a test")


LOST = missing("lost", "", "read the sheet")


@pytest.mark.parametrize(
    ("device", "asked", "verdict"),
    [("A", "B", "fail"), ("F", "B", "fail"), ("B", "B", "pass"), ("A", "A", "not applicable"),
     ("A", "none", "not applicable")],
)  # fmt: skip
def test_pitfall_64_smooth_direct_current_blinds_what_it_passes_upstream(
    device: str, asked: str, verdict: str
) -> None:  # fmt: skip
    assert residual.upstream(BS, "x", "x", say("type", device), say("asked", asked)).verdict == verdict
    assert residual.upstream(BS, "x", "x", say("type", device), LOST).verdict == "cannot tell"
    assert residual.upstream(BS, "x", "x", LOST, say("asked", "B")).verdict == "cannot tell"


@pytest.mark.parametrize(
    ("above", "delayed", "below", "verdict"),
    [(100.0, True, 30.0, "pass"), (90.0, True, 30.0, "pass"), (80.0, True, 30.0, "fail"), (100.0, False, 30.0, "fail"),
     (300.0, None, 30.0, "cannot tell")],
)  # fmt: skip
def test_only_the_device_nearer_to_the_fault_trips(
    above: float, delayed: bool | None, below: float, verdict: str
) -> None:
    said = LOST if delayed is None else say("delayed", delayed)
    found = residual.selective(BS, "x", "x", say("I_above", above, "mA"), said, say("I_below", below, "mA"))
    assert found.verdict == verdict


@pytest.mark.parametrize(("amps", "verdict"), [(0.15, "pass"), (0.149, "fail")])
def test_a_source_drives_five_times_the_rated_residual_current(amps: float, verdict: str) -> None:
    assert residual.trips(BS, "x", "x", say("I_dn", 0.03, "A"), say("I_f", amps, "A")).verdict == verdict
