"""Power control, generators and connections ahead of the service: the small functions of the book."""

import pytest

from standfast.rulebooks.nfpa70 import busbars, service_side, standby
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

NEC, OLD = edition("nfpa70", "2023"), edition("nfpa70", "2020")


def amps(number: float) -> Value:
    return given("I", number, "A", "test")


def word(text: str) -> Value:
    return given("size", text, "", "test")


@pytest.mark.parametrize(("setting", "others", "carried"), [(160, [], 200), (100, [16], 145), (0, [32, 8], 50)])
def test_a_setting_counts_as_continuous_and_what_it_does_not_hold_at_125_percent(
    setting: float, others: list[float], carried: float
) -> None:  # fmt: skip
    assert busbars.controlled(NEC, amps(setting), [amps(each) for each in others]).quantity == carried


def test_the_setting_is_within_the_busbar() -> None:
    carried = busbars.controlled(NEC, amps(160), [])
    assert busbars.power_control(NEC, "x", carried, amps(200)).verdict == "pass"
    assert busbars.power_control(NEC, "x", carried, amps(199)).verdict == "fail"
    unset = busbars.controlled(NEC, missing("I", "A", "the setting"), [])
    assert busbars.power_control(NEC, "x", unset, amps(200)).verdict == "cannot tell"


def test_conductors_of_a_generator() -> None:
    assert standby.generator_conductors(NEC, amps(100)).quantity == pytest.approx(115)
    assert standby.conductors(NEC, "x", amps(115), amps(100)).verdict == "pass"
    assert standby.conductors(NEC, "x", amps(114), amps(100)).verdict == "fail"
    assert standby.automatic(NEC, "x", amps(50), amps(51)).verdict == "fail"


@pytest.mark.parametrize(
    ("size", "metal", "verdict"),
    [("6", "cu", "pass"), ("8", "cu", "fail"), ("4", "al", "pass"), ("6", "al", "fail"), ("1/0", "al", "pass")],
)  # fmt: skip
def test_least_size_ahead_of_the_service(size: str, metal: str, verdict: str) -> None:
    assert service_side.least_size(NEC, "x", word(size), word(metal)).verdict == verdict
    assert service_side.least_size(NEC, "x", word(size), missing("metal", "", "metal")).verdict == "cannot tell"


def test_an_edition_states_a_length_or_none() -> None:
    far, near = given("L", 10.1, "ft", "test"), given("L", 10.0, "ft", "test")
    assert service_side.length(OLD, "x", near).verdict == "pass"
    assert service_side.length(OLD, "x", far).verdict == "fail"
    assert service_side.length(NEC, "x", far).verdict == "not applicable"
    assert service_side.length(edition("nfpa70", "2026"), "x", far).verdict == "fail"
