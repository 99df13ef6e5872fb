"""The apparent place of the sun as seen from the middle of the earth."""

import math
from functools import cache
from typing import NamedTuple

from standfast.rulebooks.spa.moment import Times
from standfast.shelf import Edition

ARCSEC = 3600
Terms = list[tuple[float, ...]]


class Geocentric(NamedTuple):
    """Right ascension, declination and sidereal time at Greenwich in radians; distance in astronomical units."""

    right_ascension: float
    declination: float
    sidereal: float
    distance_au: float


class Ephemeris(NamedTuple):
    """The tables of an edition, ready to be summed."""

    earth: dict[str, list[Terms]]
    nutation: Terms
    powers: dict[str, list[float]]
    sidereal_per_day: float
    aberration: float


@cache
def ephemeris(book: Edition) -> Ephemeris:
    """Read the tables of an edition once."""
    series: dict[str, Terms] = {}
    for row in book.table("earth").rows:
        series.setdefault(str(row["series"]), []).append(tuple(float(row[name]) for name in "ABC"))
    earth = {letter: [series[name] for name in sorted(series) if name[0] == letter] for letter in "LBR"}
    names = ("Y0", "Y1", "Y2", "Y3", "Y4", "a", "b", "c", "d")
    nutation = [tuple(float(row[name]) for name in names) for row in book.table("nutation").rows]
    powers: dict[str, list[float]] = {}
    for row in book.table("powers").rows:
        powers.setdefault(str(row["quantity"]), []).append(float(row["coefficient"]) / float(row["divisor"]))
    per_day, aberration = book.number("sidereal_per_day").quantity, book.number("aberration").quantity
    return Ephemeris(earth, nutation, powers, per_day, aberration)


def geocentric(book: Edition, times: Times) -> Geocentric:
    """Where the sun appears (clauses 3.2 to 3.10)."""
    tables = ephemeris(book)
    millennium = times.ephemeris_century / 10
    longitude, latitude, distance = (_place(tables.earth[letter], millennium) for letter in "LBR")
    in_longitude, in_obliquity = _nutation(tables, times.ephemeris_century)
    obliquity = math.radians(_power(tables.powers["obliquity"], millennium / 10) / ARCSEC) + in_obliquity
    aberration = math.radians(tables.aberration / ARCSEC) / distance
    seen, beta = longitude + math.pi + in_longitude - aberration, -latitude
    sin_e, cos_e = math.sin(obliquity), math.cos(obliquity)
    ascension = math.atan2(math.sin(seen) * cos_e - math.tan(beta) * sin_e, math.cos(seen))
    declination = math.asin(math.sin(beta) * cos_e + math.cos(beta) * sin_e * math.sin(seen))
    turned = _power(tables.powers["sidereal"], times.century) + tables.sidereal_per_day * times.days
    sidereal = math.radians(turned % 360) + in_longitude * cos_e
    return Geocentric(ascension, declination, sidereal, distance)


def _place(series: list[Terms], millennium: float) -> float:
    """A coordinate of the earth, in radians or astronomical units."""
    sums = [sum(a * math.cos(b + c * millennium) for a, b, c in terms) for terms in series]
    return _power(sums, millennium) / 1e8


def _nutation(tables: Ephemeris, century: float) -> tuple[float, float]:
    """Nutation in longitude and in obliquity, in radians."""
    x = [math.radians(_power(tables.powers[f"X{number}"], century)) for number in range(5)]
    longitude = obliquity = 0.0
    for y0, y1, y2, y3, y4, a, b, c, d in tables.nutation:
        angle = y0 * x[0] + y1 * x[1] + y2 * x[2] + y3 * x[3] + y4 * x[4]
        longitude += (a + b * century) * math.sin(angle)
        obliquity += (c + d * century) * math.cos(angle)
    return math.radians(longitude / 1e4 / ARCSEC), math.radians(obliquity / 1e4 / ARCSEC)


def _power(coefficients: list[float], at: float) -> float:
    found = 0.0
    for coefficient in reversed(coefficients):
        found = found * at + coefficient
    return found
