"""Adapters of the supply: interruptions, the load of a household by the day of the year, weighted efficiency."""

from typing import Any

from standfast import shelf
from standfast.proof.columns import columns
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.bdew import household
from standfast.rulebooks.ieee1366 import interruptions
from standfast.rulebooks.weighting import efficiency
from standfast.sheet import given


@method("reliability.major_event_threshold")
def major_event_threshold(case: Inputs) -> dict[str, Any]:
    """Daily SAIDI above which a day is a major event."""
    book, days = shelf.edition("ieee1366", "2012"), case.numbers("daily_saidi_min")
    sigmas = case.value("sigmas", "k", "1") if "sigmas" in case else book.number("sigmas")
    if min(days, default=-1.0) < 0:
        raise BadCase("daily_saidi_min is a list of minutes of at least 0")
    found = interruptions.threshold(book, days, sigmas, _deviation(case))
    return {"threshold_min": found.threshold.quantity, "days_used": found.days}


@method("reliability.major_event_days")
def major_event_days(case: Inputs) -> dict[str, Any]:
    """Expected share and number of major event days."""
    book = shelf.edition("ieee1366", "2012")
    share = interruptions.share_above(book, case.value("sigmas", "k", "1"))
    found = {"probability": share.quantity}
    if "days_d" in case:
        found["days_per_year"] = interruptions.expected_days(book, share, case.value("days_d", "N", "d")).quantity
    return found


@method("reliability.mean_interruption")
def mean_interruption(case: Inputs) -> dict[str, Any]:
    """Mean length of an interruption."""

    def one(saidi: float, saifi: float) -> float:
        facts = given("SAIDI", saidi, "min", "case, saidi_min"), given("SAIFI", saifi, "1", "case, saifi")
        return interruptions.mean_interruption(shelf.edition("ieee1366", "2012"), *facts).quantity / 60

    return {"mean_h": columns(case, one, "saidi_min", "saifi")}


@method("load.bdew_dynamisation")
def bdew_dynamisation(case: Inputs) -> dict[str, Any]:
    """Factor on a profile by the day of the year."""
    numbers = case.numbers("coefficients")
    if len(numbers) != len(household.POWERS):
        raise BadCase(f"coefficients are {len(household.POWERS)}, from the fourth power down")
    coefficients = [
        given(f"c_{power}", number, f"1/d^{power}" if power else "1", "case, coefficients")
        for power, number in zip(household.POWERS, numbers, strict=True)
    ]

    def one(day: float) -> float:
        day_of_year = given("d", day, "d", "case, day_of_year")
        return household.dynamisation(shelf.edition("bdew", "1999"), coefficients, day_of_year).quantity

    return {"factor": columns(case, one, "day_of_year")}


@method("inverter.efficiency_weights")
def efficiency_weights(case: Inputs) -> dict[str, Any]:
    """Load points and weights."""
    book, weighting = shelf.edition("weighting", "2010"), _weighting(case)
    found = [weight.quantity for weight in efficiency.weights(book, weighting)]
    return {"load_pct": efficiency.load_points(book, weighting), "weights": found}


@method("inverter.weighted_efficiency")
def weighted_efficiency(case: Inputs) -> dict[str, Any]:
    """Weighted efficiency from those at the load points."""
    measured = [given("eta", number, "%", "case, efficiency_pct") for number in case.numbers("efficiency_pct")]
    found = efficiency.weighted_efficiency(shelf.edition("weighting", "2010"), _weighting(case), measured)
    return {"efficiency_pct": found.quantity}


def _deviation(case: Inputs) -> interruptions.Deviation:
    match case.word("deviation"):
        case "sample" | "population" as known:
            return known
        case other:
            raise BadCase(f"the deviation {other!r} is not sample or population")


def _weighting(case: Inputs) -> efficiency.Weighting:
    match case.word("weighting"):
        case "euro" | "cec" as known:
            return known
        case other:
            raise BadCase(f"the weighting {other!r} is not euro or cec")
