"""Cooking demand and motors on invented figures."""

import pytest

from standfast import shelf
from standfast.faults import NotInEdition, OutsideTable
from standfast.rulebooks.nfpa70 import cooking, motors
from standfast.rulebooks.nfpa70.cooking import Appliances
from standfast.sheet import Value, given

BOOK = shelf.edition("nfpa70", "2023")


def kw(number: float) -> Value:
    return given("P", number, "kW", "test")


def column_c(*groups: tuple[int, float]) -> float:
    return cooking.maximum_demand(BOOK, [Appliances(n, kw(rating)) for n, rating in groups]).quantity


def test_column_c_up_to_its_rating() -> None:
    assert column_c((1, 9.0)) == 8
    assert column_c((5, 12.0)) == 20


@pytest.mark.parametrize(("rating", "steps"), [(12.4, 0), (12.5, 1), (13.0, 1), (13.6, 2), (27.0, 15)])
def test_a_major_fraction_above_the_rating_counts_as_a_whole(rating: float, steps: int) -> None:
    assert column_c((1, rating)) == pytest.approx(8 * (1 + 0.05 * steps))


def test_unequal_ranges_are_averaged_with_small_ones_counted_at_the_column() -> None:
    assert column_c((1, 9.0), (1, 16.0)) == pytest.approx(11 * 1.10)


def test_a_mean_that_is_a_half_but_for_rounding_counts_as_a_half() -> None:
    assert column_c((1, 13.3), (1, 13.7), (1, 13.5)) == pytest.approx(14 * 1.10)


def test_many_ranges_go_by_the_formula_of_their_row() -> None:
    assert column_c((30, 10.0)) == 45
    assert column_c((40, 10.0)) == 55
    assert column_c((48, 10.0)) == pytest.approx(25 + 0.75 * 48)


def test_percentage_columns_each_take_their_own_number() -> None:
    mixed = [Appliances(2, kw(3.0)), Appliances(1, kw(6.0))]
    assert cooking.percentage_demand(BOOK, mixed).quantity == pytest.approx(0.75 * 6 + 0.80 * 6)
    many = [Appliances(70, kw(5.0))]
    assert cooking.percentage_demand(BOOK, many).quantity == pytest.approx(0.16 * 350)


def test_ratings_beyond_the_notes_are_refused() -> None:
    with pytest.raises(OutsideTable):
        column_c((1, 27.5))
    with pytest.raises(OutsideTable):
        cooking.percentage_demand(BOOK, [Appliances(1, kw(9.0))])
    with pytest.raises(OutsideTable):
        cooking.percentage_demand(BOOK, [])


def test_a_range_never_counts_for_more_than_its_nameplate() -> None:
    assert cooking.standard_demand(BOOK, [kw(5.0)]).quantity == 5
    assert cooking.standard_demand(BOOK, [kw(11.0)]).quantity == 8


def test_the_neutral_of_a_range_is_reduced() -> None:
    assert cooking.neutral(BOOK, kw(8.0)).quantity == pytest.approx(5.6)


def test_motor_circuit() -> None:
    current = given("I", 12.0, "A", "test")
    assert motors.conductor(BOOK, current).quantity == 15
    assert motors.device(BOOK, current, "inverse time breaker").quantity == 30
    assert motors.device(BOOK, current, "dual element fuse").quantity == 25
    with pytest.raises(OutsideTable):
        motors.device(BOOK, current, "a fuse")


def test_motor_tables() -> None:
    hp, volts = given("hp", "1-1/2", "", "test"), given("U", 230.0, "V", "test")
    full = motors.full_load(BOOK, hp, volts)
    assert full.quantity == 10
    assert motors.locked_rotor_table(BOOK, hp, volts).quantity == 60
    guess = motors.locked_rotor_from_full_load(BOOK, full)
    assert guess.quantity == 60
    assert any(value.seen == "common practice" for value in guess.trail())


def test_code_letter_ranges_and_the_letter_without_an_end() -> None:
    power, volts = given("P", 2.0, "hp", "test"), given("U", 230.0, "V", "test")
    middle = motors.locked_rotor_per_hp(BOOK, "j", "middle")
    assert motors.locked_rotor(BOOK, middle, power, volts, False).quantity == pytest.approx(7545 * 2 / 230)
    assert motors.locked_rotor_per_hp(BOOK, "v", "low").quantity == 22_400
    with pytest.raises(NotInEdition):
        motors.locked_rotor_per_hp(BOOK, "v", "high")
    with pytest.raises(OutsideTable):
        motors.locked_rotor_per_hp(BOOK, "i", "low")
