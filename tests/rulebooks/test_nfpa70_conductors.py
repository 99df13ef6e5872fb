"""Rules that calculation often gets wrong: ampacity, terminations, devices."""

import pytest

from standfast.faults import NotInEdition, OutsideTable
from standfast.rulebooks.nfpa70 import conductors, overcurrent, sizes, terminations
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")


def say(number: float | str | bool, unit: str = "", symbol: str = "x") -> Value:
    return given(symbol, number, unit, "test")


def ampacity(size: str, column: float, material: str = "cu") -> float:
    return conductors.tabulated(NEC, say(material), say(size), say(column, "°C")).quantity


def test_six_copper_has_the_column_of_its_terminals() -> None:
    assert ampacity("6", 60) == 55
    assert ampacity("6", 75) == 65


def test_aluminium_rows_are_those_of_today() -> None:
    assert [ampacity("8", column, "al") for column in (60, 75, 90)] == [35, 40, 45]
    assert [ampacity("6", column, "al") for column in (60, 75, 90)] == [40, 50, 55]


def test_fourteen_aluminium_is_in_no_row() -> None:
    with pytest.raises(OutsideTable):
        ampacity("14", 75, "al")


@pytest.mark.parametrize(
    ("column", "ambient", "factor"),
    [(90, 40.0, 0.91), (90, 40.1, 0.87), (75, 40.0, 0.88), (75, 40.1, 0.82), (60, 55.0, 0.41), (75, -5.0, 1.20)],
)
def test_ambient_factor_steps_at_the_top_of_each_band(column: float, ambient: float, factor: float) -> None:
    assert conductors.ambient_factor(NEC, say(column, "°C"), say(ambient, "°C")).quantity == factor


@pytest.mark.parametrize(("fahrenheit", "factor"), [(104.0, 0.91), (105.0, 0.87), (86.0, 1.0), (87.0, 0.96)])
def test_fahrenheit_is_converted_before_the_band_is_looked_up(fahrenheit: float, factor: float) -> None:
    ambient = conductors.celsius(NEC, say(fahrenheit, "°F"))
    assert conductors.ambient_factor(NEC, say(90.0, "°C"), ambient).quantity == factor


@pytest.mark.parametrize(("column", "ambient"), [(60, 55.1), (75, 71), (90, 86)])
def test_insulation_may_not_be_used_above_its_last_band(column: float, ambient: float) -> None:
    with pytest.raises(OutsideTable):
        conductors.ambient_factor(NEC, say(column, "°C"), say(ambient, "°C"))


@pytest.mark.parametrize(
    ("count", "factor"), [(1, 1.0), (3, 1.0), (4, 0.8), (6, 0.8), (7, 0.7), (10, 0.5), (41, 0.35), (500, 0.35)]
)
def test_bundling_begins_at_the_fourth_conductor(count: int, factor: float) -> None:
    assert conductors.bundling_factor(NEC, say(float(count), "1")).quantity == factor


def test_roof_adds_33_kelvin_only_below_three_quarters_of_an_inch() -> None:
    ambient, no = say(40.0, "°C"), say(False)
    assert conductors.on_roof(NEC, ambient, say(0.5, "in"), no).quantity == 73
    assert conductors.on_roof(NEC, ambient, say(0.75, "in"), no).quantity == 40
    assert conductors.on_roof(NEC, ambient, say(0.5, "in"), say(True)).quantity == 40


def test_an_unknown_ambient_leaves_the_ampacity_unknown() -> None:
    factor = conductors.ambient_factor(NEC, say(90.0, "°C"), missing("T_amb", "°C", "temperature of the route"))
    assert factor.missing
    assert factor.how == "temperature of the route"


@pytest.mark.parametrize("rating", [90.0, 450.0])
def test_83_percent_is_refused_outside_its_ratings(rating: float) -> None:
    with pytest.raises(OutsideTable, match="100 to 400 A"):
        conductors.dwelling_least(NEC, say(rating, "A"))


def test_parallel_conductors_begin_at_one_nought() -> None:
    found = conductors.smallest(NEC, say(100.0, "A"), say(2.0, "1"), say("cu"), say(75.0, "°C"))
    assert found.size.word == "1/0"
    with pytest.raises(OutsideTable, match="1/0"):
        conductors.of_sets(NEC, say(130.0, "A"), say(2.0, "1"), say("1"))


def test_general_wiring_never_takes_sizes_below_fourteen() -> None:
    assert conductors.smallest(NEC, say(1.0, "A"), say(1.0, "1"), say("cu"), say(90.0, "°C")).size.word == "14"
    assert conductors.smallest(NEC, say(1.0, "A"), say(1.0, "1"), say("al"), say(90.0, "°C")).size.word == "12"


def test_sizes_are_words_in_order_not_numbers() -> None:
    assert sizes.not_smaller(NEC, "1", "2")
    assert sizes.not_smaller(NEC, "1/0", "1")
    assert sizes.not_smaller(NEC, "250", "4/0")
    assert not sizes.not_smaller(NEC, "14", "12")
    with pytest.raises(OutsideTable, match="not a conductor"):
        sizes.not_smaller(NEC, "7", "12")


def test_the_lower_end_decides_the_column() -> None:
    rating = say(40.0, "A")
    ends = [terminations.end(NEC, rating, say(75.0, "°C")), terminations.end(NEC, rating, say("not marked"))]
    assert terminations.lowest(NEC, ends).quantity == 60


def test_no_mark_means_75_degrees_only_above_100_amperes() -> None:
    assert terminations.end(NEC, say(100.0, "A"), say("not marked")).quantity == 60
    assert terminations.end(NEC, say(110.0, "A"), say("not marked")).quantity == 75


def test_an_unknown_mark_is_taken_as_the_lowest_column_and_says_so() -> None:
    found = terminations.end(NEC, say(40.0, "A"), missing("T_mark", "°C", "mark in panels.main.terminals"))
    assert (found.quantity, found.kind, found.bounding) == (60, "assumed", True)
    assert "panels.main.terminals" in found.how


@pytest.mark.parametrize("current", [120.0, 180.0, 375.0])
def test_these_are_no_standard_ratings(current: float) -> None:
    assert overcurrent.next_standard(NEC, say(current, "A")).quantity > current


def test_ten_amperes_are_standard_since_this_edition() -> None:
    assert overcurrent.next_standard(NEC, say(8.0, "A")).quantity == 10


def device(ampacity: float, round_up: bool, material: str = "", size: str = "") -> float:
    known = (say(material), say(size)) if size else (None, None)
    return overcurrent.largest(NEC, say(ampacity, "A"), say(round_up), *known).quantity


@pytest.mark.parametrize(
    ("ampacity", "round_up", "rating"),
    [(380, True, 400), (380, False, 350), (700, True, 700), (790, True, 800), (810, True, 800), (1199, True, 1000)],
)
def test_next_size_up_only_between_ratings_and_to_800_amperes(ampacity: float, round_up: bool, rating: float) -> None:
    assert device(ampacity, round_up) == rating


@pytest.mark.parametrize(
    ("material", "size", "rating"), [("cu", "14", 15), ("cu", "12", 20), ("cu", "10", 30), ("al", "12", 15)]
)
def test_small_conductors_have_their_own_limit_whatever_the_column(material: str, size: str, rating: float) -> None:
    assert device(40, True, material, size) == rating


def test_the_limit_of_small_conductors_does_not_replace_their_ampacity() -> None:
    assert device(17.5, False, "cu", "10") == 15


def test_nothing_is_rounded_down_below_the_smallest_rating() -> None:
    with pytest.raises(OutsideTable):
        device(9.0, False)


def test_continuous_load_counts_once_at_125_percent() -> None:
    found = overcurrent.continuous(NEC, say(32.0, "A"), say(10.0, "A"))
    assert (found.needed.quantity, found.rating.quantity) == (50, 50)


def test_an_unmarked_breaker_has_five_kiloamperes() -> None:
    unknown = overcurrent.marked_interrupting(NEC, missing("I_cu", "kA", "rating on the breaker"))
    assert (unknown.quantity, unknown.bounding) == (5, True)
    check = overcurrent.interrupting(NEC, "device", "Interrupting rating", say(4.0, "kA", "I_f"), unknown)
    assert check.verdict == "pass"
    assert overcurrent.interrupting(NEC, "d", "t", say(6.0, "kA", "I_f"), unknown).verdict == "cannot tell"


def test_nothing_is_borrowed_from_another_edition() -> None:
    with pytest.raises(NotInEdition):
        edition("nfpa70", "2011")
