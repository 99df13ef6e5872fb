"""How long interruptions last, and which days are major events."""

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from standfast.faults import OutsideTable
from standfast.sheet import Value, simulated, work
from standfast.shelf import Edition

Deviation = Literal["sample", "population"]


class Threshold(NamedTuple):
    """Daily SAIDI above which a day is a major event, and how many days it was drawn from."""

    threshold: Value
    days: int


def mean_interruption(book: Edition, saidi: Value, saifi: Value) -> Value:
    """Mean length of an interruption in min, from minutes and interruptions per customer and year."""
    clause = book.clause("mean_interruption")
    return work("CAIDI", "SAIDI / SAIFI", "min", clause, SAIDI=saidi, SAIFI=saifi)


def threshold(book: Edition, daily_saidi_min: Sequence[float], sigmas: Value, deviation: Deviation) -> Threshold:
    """Threshold of major event days in min; days of zero are left out.

    Args:
        book: IEEE 1366.
        daily_saidi_min: minutes per customer of each day, of five years.
        sigmas: standard deviations above the mean of the logarithms.
        deviation: of a sample (divisor n − 1) or of all there is (divisor n).

    Raises:
        OutsideTable: where too few days are left for a deviation.
    """
    logs = [math.log(each) for each in daily_saidi_min if each > 0]
    free = len(logs) - (1 if deviation == "sample" else 0)
    if free < 1:
        raise OutsideTable(f"{book.clause('threshold')}: {len(logs)} days above zero are too few")
    mean = sum(logs) / len(logs)
    spread = math.sqrt(sum((each - mean) ** 2 for each in logs) / free)
    days = f"natural logarithms of {len(logs)} days above zero"
    alpha = simulated("alpha", mean, "1", f"mean of the {days}")
    beta = simulated("beta", spread, "1", f"standard deviation ({deviation}) of the {days}")
    found = work("T_MED", "exp(alpha + k * beta)", "min", book.clause("threshold"), alpha=alpha, k=sigmas, beta=beta)
    return Threshold(found, len(logs))


def share_above(book: Edition, sigmas: Value) -> Value:
    """Expected share of days above the threshold if the logarithms are normal."""
    clause = book.clause("expected_days")
    share = math.erfc(sigmas.quantity / math.sqrt(2)) / 2
    return simulated("p", share, "1", f"{clause}: upper tail of the normal distribution", sigmas)


def expected_days(book: Edition, share: Value, days: Value) -> Value:
    """Expected number of such days among `days`."""
    return work("n", "p * N", "d", book.clause("expected_days"), p=share, N=days)
