"""Guideline weights by zone and for teams."""

import pytest

from standfast.faults import OutsideTable
from standfast.rulebooks.indg143 import guideline
from standfast.sheet import Value, given, missing
from standfast.shelf import edition

BOOK = edition("indg143", "2020")
MEN = given("people", "men", "", "test")


def mm(number: float) -> Value:
    return given("x", number, "mm", "test")


def one(people: Value, low: float, high: float, out: float = 300) -> float:
    return guideline.one_person(BOOK, people, mm(out), mm(low), mm(high)).quantity


def test_the_worst_zone_on_the_way_counts() -> None:
    assert one(MEN, 800, 1000) == 25
    assert one(MEN, 800, 1200) == 20
    assert one(MEN, 100, 1000) == 10
    assert one(MEN, 800, 1000, out=600) == 15


def test_an_unknown_crew_counts_as_the_weaker_one() -> None:
    unknown = guideline.people_unknown(BOOK)
    assert unknown.bounding
    for low, high in ((800, 1000), (100, 1500), (300, 700)):
        assert one(unknown, low, high) < one(MEN, low, high)


def test_two_lift_two_thirds_of_their_sum_and_three_a_half() -> None:
    m = given("m_one", 25.0, "kg", "test")
    weights = [guideline.team(BOOK, m, given("n", float(n), "1", "test")).quantity for n in (1, 2, 3)]
    assert weights == pytest.approx([25, 100 / 3, 37.5])
    for wrong in (0.0, 5.0):
        with pytest.raises(OutsideTable):
            guideline.team(BOOK, m, given("n", wrong, "1", "test"))


def test_unknown_heights_stay_unknown() -> None:
    assert guideline.one_person(BOOK, MEN, mm(300), missing("V", "mm", "measure"), mm(900)).missing
    assert guideline.team(BOOK, mm(1), missing("n", "1", "count the crew")).missing
