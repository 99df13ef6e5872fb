"""Direct current of batteries and arrays, worked by hand."""

import pytest

from standfast.faults import NotInEdition, OutsideTable
from standfast.rulebooks.nfpa70 import direct_current, parallel, photovoltaics
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

NEC, OLDER = edition("nfpa70", "2023"), edition("nfpa70", "2020")


def say(number: float | str | bool, unit: str = "", symbol: str = "x") -> Value:
    return given(symbol, number, unit, "test")


UNKNOWN = missing("x", "", "a word of the data sheet")


def test_an_inverter_takes_more_at_the_lowest_voltage_and_its_loss_too() -> None:
    # 6,700 W / (0.93 × 44.8 V) = 6,700 / 41.664 = 160.81 A; at 51.2 V without loss it would be 130.9 A only.
    found = direct_current.drawn(NEC, say(6700.0, "W"), say(93.0, "%"), say(44.8, "V"))
    assert found.quantity == pytest.approx(160.81, abs=0.005)
    assert str(found.clause) == "NEC 2023 706.30(A)"


@pytest.mark.parametrize(("device", "least"), [(50.0, 52.5), (60.0, 60.0)])
def test_conductors_of_a_battery_reach_the_rating_of_its_device_too(device: float, least: float) -> None:
    # 1.25 × 42 A = 52.5 A; where the device is larger, the device decides and no next size up is used.
    assert direct_current.ampacity(NEC, say(52.5, "A"), say(device, "A")).quantity == least


@pytest.mark.parametrize(
    ("grounding", "poles"), [("ungrounded", 2), ("negative grounded", 1), ("positive grounded", 1)]
)  # fmt: skip
def test_a_pole_in_each_ungrounded_conductor(grounding: str, poles: int) -> None:
    assert direct_current.ungrounded(NEC, say(grounding)).quantity == poles


@pytest.mark.parametrize(
    ("grounding", "battery", "inverter", "verdict"),
    [
        ("ungrounded", False, True, "pass"),
        ("ungrounded", True, None, "pass"),
        ("ungrounded", False, False, "fail"),
        ("ungrounded", False, None, "cannot tell"),
        ("negative grounded", False, False, "not applicable"),
        (None, True, True, "cannot tell"),
    ],
)
def test_an_ungrounded_system_has_one_detector_and_a_fact_not_known_is_none(
    grounding: str | None, battery: bool, inverter: bool | None, verdict: str
) -> None:
    facts = [UNKNOWN if each is None else say(each) for each in (battery, inverter)]
    stands = UNKNOWN if grounding is None else say(grounding)
    assert direct_current.ground_fault(NEC, "id", "title", stands, facts).verdict == verdict


def test_a_device_is_asked_at_the_charged_voltage() -> None:
    assert direct_current.voltage(NEC, "id", "t", say(58.0, "V"), say(57.6, "V")).verdict == "pass"
    assert direct_current.voltage(NEC, "id", "t", say(48.0, "V"), say(57.6, "V")).verdict == "fail"
    assert direct_current.interrupting(NEC, "id", "t", say(8.4, "kA"), say(10.0, "kA")).verdict == "pass"
    assert direct_current.interrupting(NEC, "id", "t", say(8.4, "kA"), say(5.0, "kA")).verdict == "fail"


def test_every_conductor_of_every_set_counts_for_bundling() -> None:
    assert parallel.counted(NEC, say(2.0, "1"), say(3.0, "1")).quantity == 6


def test_two_sets_carry_twice_and_small_conductors_are_not_joined() -> None:
    found = parallel.tabulated(NEC, say("cu"), say("1/0"), say(75.0, "°C"), say(2.0, "1"))
    assert found.quantity == 2 * 150
    with pytest.raises(OutsideTable, match="from 1/0"):
        parallel.tabulated(NEC, say("cu"), say("1"), say(75.0, "°C"), say(2.0, "1"))


def test_two_sets_have_half_the_resistance() -> None:
    assert parallel.resistance(NEC, say(0.122, "ohm/kft"), say(2.0, "1")).quantity == 0.061


def test_voltage_of_a_string_in_the_cold_by_the_coefficient_of_its_maker() -> None:
    # 9 × 40 V × (1 + 0.27 % × (25 − (−15)) / 100) = 360 × 1.108 = 398.88 V.
    cold = photovoltaics.by_coefficient(NEC, say(40.0, "V"), say(9.0, "1"), say(0.27, "%"), say(-15.0, "°C"))
    assert cold.quantity == pytest.approx(398.88)
    # Above 25 °C nothing is taken off.
    warm = photovoltaics.by_coefficient(NEC, say(40.0, "V"), say(9.0, "1"), say(0.27, "%"), say(30.0, "°C"))
    assert warm.quantity == 360


@pytest.mark.parametrize(
    ("coldest", "factor"),
    [(24.0, 1.02), (20.0, 1.02), (19.0, 1.04), (7.0, 1.08), (5.0, 1.08), (4.9, 1.10), (-5.0, 1.12), (-5.1, 1.14),
     (-6.0, 1.14), (-35.5, 1.25), (-40.0, 1.25)],
)  # fmt: skip
def test_voltage_in_the_cold_by_the_table_takes_the_colder_band(coldest: float, factor: float) -> None:
    found = photovoltaics.by_table(NEC, say(40.0, "V"), say(10.0, "1"), say(coldest, "°C"))
    assert found.quantity == pytest.approx(400 * factor)


def test_colder_than_the_table_goes_is_refused() -> None:
    with pytest.raises(OutsideTable):
        photovoltaics.by_table(NEC, say(40.0, "V"), say(10.0, "1"), say(-40.5, "°C"))


def test_both_factors_of_an_array_make_156_per_cent() -> None:
    # 1.25 × 2 × 11 A = 27.5 A; 1.25 × 27.5 A = 34.375 A = 1.5625 × 22 A.
    greatest = photovoltaics.current(NEC, say(11.0, "A"), say(2.0, "1"))
    assert greatest.quantity == 27.5
    assert photovoltaics.ampacity(NEC, greatest).quantity == 34.375 == 1.5625 * 22


@pytest.mark.parametrize(("strings", "verdict"), [(1.0, "pass"), (2.0, "pass"), (3.0, "fail")])
def test_three_strings_need_fuses(strings: float, verdict: str) -> None:
    assert photovoltaics.unfused(NEC, "id", "t", say(strings, "1")).verdict == verdict


@pytest.mark.parametrize(
    ("volts", "detects", "verdict"),
    [(79.0, False, "not applicable"), (80.0, False, "fail"), (80.0, True, "pass"), (None, True, "cannot tell")],
)
def test_arcs_are_watched_from_80_volts(volts: float | None, detects: bool, verdict: str) -> None:
    voltage = UNKNOWN if volts is None else say(volts, "V")
    assert photovoltaics.arc_fault(NEC, "id", "t", voltage, say(detects)).verdict == verdict


@pytest.mark.parametrize(
    ("volts", "amps", "verdict"),
    [(30.0, 8.0, "not applicable"), (30.0, 8.1, "fail"), (30.1, 8.0, "fail")],
)
def test_ground_faults_are_watched_above_30_volts_or_8_amperes(volts: float, amps: float, verdict: str) -> None:
    found = photovoltaics.ground_fault(NEC, "id", "t", say(volts, "V"), say(amps, "A"), say(False))
    assert found.verdict == verdict


@pytest.mark.parametrize(("volts", "verdict"), [(600.0, "pass"), (600.5, "fail")])
def test_an_array_of_a_dwelling_keeps_to_600_volts(volts: float, verdict: str) -> None:
    assert photovoltaics.dwelling_voltage(NEC, "id", "t", say(volts, "V")).verdict == verdict


def test_the_older_edition_lends_nothing_that_was_not_seen_for_it() -> None:
    assert photovoltaics.dwelling_voltage(OLDER, "id", "t", say(600.0, "V")).verdict == "pass"
    with pytest.raises(NotInEdition):
        photovoltaics.by_table(OLDER, say(40.0, "V"), say(10.0, "1"), say(0.0, "°C"))
    with pytest.raises(NotInEdition):
        photovoltaics.unfused(OLDER, "id", "t", say(1.0, "1"))
