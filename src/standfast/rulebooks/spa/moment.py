"""Time as the algorithm counts it."""

import math
from typing import NamedTuple

DAY_S = 86400
CENTURY_D = 36525
GREGORIAN_D = 2299161
"""Julian day of the first day of the Gregorian calendar, 15 October 1582."""


class Moment(NamedTuple):
    """A calendar date and local standard time, hours ahead of UT, and terrestrial time less UT."""

    year: int
    month: int
    day: int
    hour: float
    minute: float
    second: float
    utc_offset_h: float
    delta_t_s: float


class Times(NamedTuple):
    """Days since the epoch, and centuries since it in UT; centuries in terrestrial time."""

    days: float
    century: float
    ephemeris_century: float


def times(moment: Moment, epoch_d: float) -> Times:
    """The counts of time of a moment (clause 3.1)."""
    hours = moment.hour - moment.utc_offset_h + moment.minute / 60 + moment.second / 3600
    days = julian_day(moment.year, moment.month, moment.day + hours / 24) - epoch_d
    return Times(days, days / CENTURY_D, (days + moment.delta_t_s / DAY_S) / CENTURY_D)


def julian_day(year: int, month: int, day: float) -> float:
    """Julian day of a calendar date, Julian before 15 October 1582, Gregorian from then on; `day` with its fraction."""
    if month < 3:
        year, month = year - 1, month + 12
    found = math.floor(365.25 * (year + 4716)) + math.floor(30.6001 * (month + 1)) + day - 1524.5
    century = math.floor(year / 100)
    gregorian = found + 2 - century + math.floor(century / 4)
    return gregorian if gregorian >= GREGORIAN_D - 0.5 else found
