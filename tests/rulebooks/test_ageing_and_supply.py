"""Ageing laws with the constants of their papers, cycle counting, interruptions, profiles, weightings, losses."""

import math

import pytest

from standfast import shelf
from standfast.faults import BadFormula, OutsideTable
from standfast.rulebooks.astm_e1049.rainflow import full_cycles, rainflow, reversals
from standfast.rulebooks.bdew import household
from standfast.rulebooks.ieee1366 import interruptions
from standfast.rulebooks.naumann import ageing as lfp
from standfast.rulebooks.schmalstieg import ageing as nmc
from standfast.rulebooks.tp62641 import losses
from standfast.rulebooks.weighting import efficiency
from standfast.sheet import Value, given

YEAR_S = 365 * 86400


def fact(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def test_iron_phosphate_with_the_constants_of_the_papers() -> None:
    book = shelf.edition("naumann", "2018")
    by = lfp.published_calendar(book)
    loss = lfp.calendar_loss(book, fact(25, "°C"), fact(0.5, "1"), fact(YEAR_S, "s"), by)
    assert loss.quantity == pytest.approx(4.252, abs=5e-4)
    warmer = lfp.calendar_loss(book, fact(35, "°C"), fact(0.5, "1"), fact(YEAR_S, "s"), by)
    fuller = lfp.calendar_loss(book, fact(25, "°C"), fact(1.0, "1"), fact(YEAR_S, "s"), by)
    assert loss.quantity < min(warmer.quantity, fuller.quantity)
    book = shelf.edition("naumann", "2020")
    cycled = lfp.cycle_loss(book, fact(0.5, "1"), fact(0.8, "1"), fact(2500, "1"), lfp.published_cycle(book))
    assert cycled.quantity == pytest.approx(7.231, abs=5e-4)


def test_nickel_manganese_cobalt_with_the_constants_of_the_paper() -> None:
    book = shelf.edition("schmalstieg", "2014")
    at_rest = fact(25, "°C"), fact(3.699, "V"), fact(365, "d")
    assert nmc.calendar_loss(book, *at_rest, nmc.published_calendar(book)).quantity == pytest.approx(2.39, abs=5e-3)
    in_use = fact(3.667, "V"), fact(0.8, "1"), fact(2000, "A h")
    assert nmc.cycle_loss(book, *in_use, nmc.published_cycle(book)).quantity == pytest.approx(17.999, abs=5e-4)


def test_cycles_of_a_battery() -> None:
    swings = [(each.swing, each.cycles) for each in rainflow([0, 10, 5, 10, 0, 0, 10, 0])]
    assert swings == [(5, 1.0), (10, 2.0)]
    usable = fact(10, "kWh")
    assert full_cycles(shelf.edition("astm_e1049", "1985"), [0, 10, 5, 10, 0], usable).quantity == pytest.approx(1.5)
    assert reversals([1, 1, 2, 3, 3, 2]) == [1, 3, 2]
    assert rainflow([]) == rainflow([4, 4]) == []


def test_ranges_that_differ_by_rounding_are_one() -> None:
    assert [each.cycles for each in rainflow([0.0, 0.3, 0.0, 0.1 + 0.2, 0.0])] == [2.0]


def test_threshold_of_major_event_days() -> None:
    book = shelf.edition("ieee1366", "2012")
    two = interruptions.threshold(book, [1.0, 0.0, math.e], book.number("sigmas"), "population")
    assert two.days == 2
    assert two.threshold.quantity == pytest.approx(math.exp(0.5 + 2.5 * 0.5))
    with pytest.raises(OutsideTable, match="too few"):
        interruptions.threshold(book, [0.0, 3.0], book.number("sigmas"), "sample")
    assert interruptions.share_above(book, fact(0, "1")).quantity == 0.5
    with pytest.raises(BadFormula):
        interruptions.mean_interruption(book, fact(100, "min"), fact(0, "1"))


def test_household_profile_is_higher_in_winter() -> None:
    book = shelf.edition("bdew", "1999")
    factors = [
        household.dynamisation(book, household.published(book), fact(day, "d")).quantity for day in range(1, 366)
    ]
    assert factors[0] == pytest.approx(1.242, abs=1e-3)
    assert sum(factors) / 365 == pytest.approx(1.0045, abs=1e-4)
    assert min(factors) == pytest.approx(factors[195], abs=0.02)


@pytest.mark.parametrize("weighting", ["euro", "cec"])
def test_weights_add_to_one(weighting: efficiency.Weighting) -> None:
    book = shelf.edition("weighting", "2010")
    assert sum(each.quantity for each in efficiency.weights(book, weighting)) == pytest.approx(1)
    even = [fact(93, "%")] * len(efficiency.load_points(book, weighting))
    assert efficiency.weighted_efficiency(book, weighting, even).quantity == pytest.approx(93)
    with pytest.raises(OutsideTable, match="per cent of the load"):
        efficiency.weighted_efficiency(book, weighting, even[1:])


def test_losses_of_the_manual() -> None:
    book = shelf.edition("tp62641", "2014")
    assert losses.system_loss(book, losses.published(book)).quantity == pytest.approx(14.0757, abs=1e-4)
    assert losses.system_loss(book, []).quantity == 0
    assert losses.system_loss(book, [fact(100, "%"), fact(5, "%")]).quantity == 100
