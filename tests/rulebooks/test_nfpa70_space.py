"""Rules that calculation often gets wrong: raceways, boxes, working space."""

import pytest

from standfast.faults import OutsideTable
from standfast.rulebooks.nfpa70 import boxes, raceways, working_space
from standfast.sheet import Value, given
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")


def say(number: float | str, unit: str = "", symbol: str = "x") -> Value:
    return given(symbol, number, unit, "test")


def group(number: float, size: str, insulation: str = "thhn") -> raceways.Group:
    return raceways.Group(say(number, "1"), say(size), say(insulation))


def test_the_limit_comes_from_the_full_area_not_from_the_rounded_column() -> None:
    # 0.5984 in2 hold 11.803 conductors of 0.0507 in2, which Note 7 makes 12; the rounded 0.598 in2 hold 11.795.
    assert raceways.most_equal(NEC, say("emt"), say("1-1/4"), say("6"), say("thhn")).quantity == 12


@pytest.mark.parametrize(("number", "share"), [(1.0, 0.53), (2.0, 0.31), (3.0, 0.40), (9.0, 0.40)])
def test_the_share_goes_by_the_number_of_conductors(number: float, share: float) -> None:
    found = raceways.fill(NEC, say("emt"), say("1"), [group(number, "10")])
    assert found.limit.quantity == pytest.approx(share * 0.864)


def test_ground_counts_as_a_conductor_of_its_own_size() -> None:
    found = raceways.fill(NEC, say("emt"), say("3/4"), [group(2.0, "6"), group(1.0, "10")])
    assert found.area.quantity == pytest.approx(2 * 0.0507 + 0.0211)
    assert found.limit.quantity == pytest.approx(0.4 * 0.533)


def test_one_big_conductor_in_a_small_raceway() -> None:
    assert raceways.most_equal(NEC, say("emt"), say("1/2"), say("6"), say("thhn")).quantity == 2
    assert raceways.most_equal(NEC, say("emt"), say("1/2"), say("4"), say("thhn")).quantity == 1
    assert raceways.most_equal(NEC, say("emt"), say("1/2"), say("500"), say("thhn")).quantity == 0


def test_a_nipple_takes_sixty_per_cent() -> None:
    assert raceways.nipple_limit(NEC, say("emt"), say("1")).quantity == pytest.approx(0.6 * 0.864)


def counted(size: str, number: float) -> boxes.Counted:
    return boxes.Counted(say(size), say(number, "1"))


def test_the_fifth_ground_counts_a_quarter() -> None:
    four = boxes.least_volume(NEC, [], [counted("12", 4.0)], [], False)
    six = boxes.least_volume(NEC, [], [counted("12", 6.0)], [], False)
    assert (four.quantity, six.quantity) == (2.25, 2.25 * 1.5)


def test_a_device_counts_the_conductors_on_it_not_the_largest_of_the_box() -> None:
    found = boxes.least_volume(NEC, [counted("12", 2.0)], [], [counted("14", 1.0)], False)
    assert found.quantity == 2 * 2.25 + 2 * 2.0


def test_clamps_count_once_as_the_largest() -> None:
    found = boxes.least_volume(NEC, [counted("14", 2.0)], [counted("10", 1.0)], [], True)
    assert found.quantity == 2 * 2.0 + 2.5 + 2.5


def test_no_volume_is_held_above_six() -> None:
    with pytest.raises(OutsideTable):
        boxes.least_volume(NEC, [counted("4", 1.0)], [], [], False)


@pytest.mark.parametrize(
    ("volts", "condition", "depth"),
    [(120.0, 1.0, 3.0), (150.0, 3.0, 3.0), (151.0, 2.0, 3.5), (400.0, 2.0, 3.5), (400.0, 3.0, 4.0), (1000.0, 3.0, 5.0)],
)
def test_working_depth_goes_by_volts_to_ground_and_what_faces(volts: float, condition: float, depth: float) -> None:
    assert working_space.least(NEC, say(volts, "V"), say(condition, "1")).depth.quantity == depth


def test_above_1000_volts_there_is_no_row() -> None:
    with pytest.raises(OutsideTable):
        working_space.least(NEC, say(1001.0, "V"), say(1.0, "1"))
