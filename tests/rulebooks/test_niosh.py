"""Branches of the lifting equation that no worked example reaches."""

import pytest

from standfast.faults import NotInEdition, OutsideTable
from standfast.rulebooks.niosh import equation, frequency, scope
from standfast.rulebooks.niosh.frequency import Period, Task
from standfast.sheet import Value, chosen, given, missing
from standfast.shelf import edition

BOOK = edition("niosh", "1994")
LOW = chosen("band", "below", "", "test", None)


def v(number: float, unit: str, symbol: str = "x") -> Value:
    return given(symbol, number, unit, "test")


def periods(*minutes: float) -> list[Period]:
    """Lifting, recovery, lifting, … in minutes."""
    return [Period("light" if at % 2 else "lifting", v(each, "min")) for at, each in enumerate(minutes)]


@pytest.mark.parametrize(
    ("multiplier", "value"),
    [
        (equation.horizontal, v(25.01, "in")),
        (equation.horizontal, v(63.5, "cm")),
        (equation.vertical, v(70.5, "in")),
        (equation.travel, v(176, "cm")),
        (equation.asymmetry, v(136, "deg")),
    ],
)
def test_beyond_the_reach_of_the_equation_nothing_may_be_lifted(multiplier: object, value: Value) -> None:
    assert multiplier(BOOK, value).quantity == 0  # type: ignore[operator]


def test_close_to_the_body_and_short_ways_count_as_the_reference() -> None:
    assert equation.horizontal(BOOK, v(3, "in")).quantity == 1
    assert equation.travel(BOOK, v(0, "cm")).quantity == 1


def test_height_counts_the_same_above_and_below_the_knuckles() -> None:
    assert equation.vertical(BOOK, v(20, "in")).quantity == equation.vertical(BOOK, v(40, "in")).quantity


def test_another_unit_is_refused_and_a_negative_height_too() -> None:
    with pytest.raises(NotInEdition):
        equation.horizontal(BOOK, v(300, "mm"))
    with pytest.raises(OutsideTable):
        equation.vertical(BOOK, v(-1, "in"))


def test_a_distance_nobody_measured_stays_missing() -> None:
    unknown = missing("H", "in", "measure how far the hands are out")
    assert equation.horizontal(BOOK, unknown).how == "measure how far the hands are out"
    assert equation.coupling(BOOK, missing("V", "in", "measure the hands"), "good").missing


def test_frequency_counts_from_one_lift_in_five_minutes_to_fifteen_a_minute() -> None:
    rare, least = (frequency.multiplier(BOOK, v(f, "1/min"), "short", LOW).quantity for f in (0.01, 0.2))
    assert rare == least == 1
    assert frequency.multiplier(BOOK, v(16, "1/min"), "short", LOW).quantity == 0
    assert frequency.multiplier(BOOK, v(1.5, "1/min"), "moderate", LOW).quantity == pytest.approx(0.86)


def test_an_unknown_duration_or_grip_is_refused() -> None:
    with pytest.raises(OutsideTable):
        frequency.multiplier(BOOK, v(1, "1/min"), "all day", LOW)
    with pytest.raises(OutsideTable):
        equation.coupling(BOOK, v(30, "in"), "slippery")


def test_where_nothing_may_be_lifted_a_load_has_no_index() -> None:
    with pytest.raises(OutsideTable):
        equation.index(BOOK, v(10, "lb", "L"), v(0, "lb", "RWL"))


def test_too_little_recovery_pools_two_stretches() -> None:
    found = frequency.pooled(BOOK, periods(30, 29, 45))
    assert (found.work_min.quantity, found.word.word) == (75, "moderate")
    assert found.recovery_min.quantity == pytest.approx(22.5)


def test_a_pooled_stretch_asks_for_the_recovery_of_its_own_class() -> None:
    assert frequency.pooled(BOOK, periods(30, 10, 45, 23, 20)).work_min.quantity == 75
    assert frequency.pooled(BOOK, periods(30, 10, 45, 22, 20)).work_min.quantity == 95


def test_stretches_without_rest_between_them_are_one() -> None:
    together = [Period("lifting", v(40, "min")), Period("lifting", v(40, "min"))]
    assert frequency.pooled(BOOK, together).work_min.quantity == 80


def test_more_than_a_working_day_no_lifting_or_another_word_is_refused() -> None:
    for wrong in (periods(500), [Period("light", v(5, "min"))], [Period("carrying", v(5, "min"))]):
        with pytest.raises(OutsideTable):
            frequency.pooled(BOOK, wrong)


def test_one_task_alone_has_its_own_index() -> None:
    task = Task(v(20, "lb"), v(1, "1/min"), v(25, "lb"))
    found = frequency.composite(BOOK, [task], "short", LOW)
    assert found.CLI.quantity == found.STLI[0].quantity == pytest.approx(20 / (25 * 0.94))


def test_the_order_of_tasks_does_not_matter_to_the_composite_index() -> None:
    tasks = [Task(v(load, "lb"), v(f, "1/min"), v(20, "lb")) for load, f in ((12, 2), (30, 1), (7, 3))]
    assert frequency.composite(BOOK, tasks, "long", LOW).CLI.quantity == pytest.approx(
        frequency.composite(BOOK, tasks[::-1], "long", LOW).CLI.quantity
    )


def test_too_many_lifts_together_and_no_task_are_refused() -> None:
    tasks = [Task(v(5, "lb"), v(9, "1/min"), v(20, "lb"))] * 2
    for wrong in (tasks, []):
        with pytest.raises(OutsideTable):
            frequency.composite(BOOK, wrong, "short", LOW)


def test_the_worksheet_rounds_halves_up() -> None:
    assert equation.rounded(BOOK, v(1.25, "1"), 1).quantity == 1.3
    assert equation.rounded(BOOK, v(2.675, "1"), 2).quantity == 2.68


@pytest.mark.parametrize("word", ["stairs", "two persons", "restricted space", "one hand"])
def test_lifts_that_the_manual_leaves_out_fail(word: str) -> None:
    assert scope.within(BOOK, "lifting.scope/x", given("circumstance", word, "", "test")).verdict == "fail"


def test_an_ordinary_lift_is_in_scope() -> None:
    assert scope.within(BOOK, "lifting.scope/x", given("circumstance", "ordinary", "", "test")).verdict == "pass"
