"""Residual current devices of BS 7671 in a row: blinding and selectivity."""

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
    [(0.1, True, 0.03, "pass"), (0.09, True, 0.03, "pass"), (0.08, True, 0.03, "fail"), (0.1, False, 0.03, "fail"),
     (0.3, None, 0.03, "cannot tell")],
)  # fmt: skip
def test_only_the_device_nearer_to_the_fault_trips(
    above: float, delayed: bool | None, below: float, verdict: str
) -> None:
    said = LOST if delayed is None else say("delayed", delayed)
    found = residual.selective(BS, "x", "x", say("I_above", above, "A"), said, say("I_below", below, "A"))
    assert found.verdict == verdict
