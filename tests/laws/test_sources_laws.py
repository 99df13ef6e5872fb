"""Laws of busbars and feeders: a source more never makes less do, and turns no failure into a pass."""

from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.rulebooks.nfpa70 import busbars, feeders
from standfast.sheet import Check, Value
from standfast.sheet import given as stated
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")
AMPS = st.integers(1, 400)
OUTPUTS = st.lists(st.integers(1, 100), max_size=5)
BETTER = {"fail": 0, "pass": 1}


def amps(number: float) -> Value:
    return stated("I", float(number), "A", "test")


def options(bus: int, main: int, outputs: list[int], devices: list[int], setting: int) -> list[Check]:
    values = [amps(each) for each in outputs]
    both = busbars.with_main(NEC, amps(main), busbars.sources_125(NEC, values))
    ends = stated("ends", True, "", "test")
    carried = busbars.controlled(NEC, amps(setting), values)
    return [
        busbars.option_1(NEC, "1", both, amps(bus)),
        busbars.option_2(NEC, "2", both, amps(bus), ends),
        busbars.option_3(NEC, "3", busbars.devices(NEC, [amps(each) for each in devices]), amps(bus), amps(main)),
        busbars.option_4(NEC, "4", both, amps(bus), ends),
        busbars.power_control(NEC, "13", carried, amps(bus)),
    ]


@settings(max_examples=150)
@given(AMPS, AMPS, OUTPUTS, OUTPUTS, AMPS, st.integers(1, 100))
def test_a_source_more_turns_no_failure_of_a_busbar_into_a_pass(bus, main, outputs, devices, setting, more) -> None:  # type: ignore[no-untyped-def]
    before = options(bus, main, outputs, devices, setting)
    after = options(bus, main, [*outputs, more], [*devices, more], setting)
    assert all(BETTER[new.verdict] <= BETTER[old.verdict] for old, new in zip(before, after, strict=True))


@settings(max_examples=150)
@given(AMPS, OUTPUTS, st.integers(1, 100), st.sampled_from([10, 25]))
def test_a_source_more_lowers_no_rating_that_a_feeder_or_a_tap_needs(main, outputs, more, rule) -> None:  # type: ignore[no-untyped-def]
    few, many = ([amps(each) for each in found] for found in (outputs, [*outputs, more]))
    assert (
        feeders.needed_beyond_source(NEC, amps(main), many).quantity
        >= feeders.needed_beyond_source(NEC, amps(main), few).quantity
    )
    taps = [feeders.tap(NEC, amps(main), busbars.sources_125(NEC, found), rule).quantity for found in (few, many)]
    assert taps[1] >= taps[0]


@settings(max_examples=150)
@given(AMPS, AMPS, OUTPUTS, OUTPUTS, AMPS)
def test_a_larger_busbar_turns_no_pass_into_a_failure(bus, main, outputs, devices, setting) -> None:  # type: ignore[no-untyped-def]
    small, large = (options(each, main, outputs, devices, setting) for each in (bus, bus + 25))
    assert all(BETTER[new.verdict] >= BETTER[old.verdict] for old, new in zip(small, large, strict=True))
