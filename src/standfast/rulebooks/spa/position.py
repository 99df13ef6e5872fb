"""Where the sun stands over a place, and how it falls on a tilted surface."""

import math
from typing import NamedTuple

from standfast.rulebooks.spa.ephemeris import Geocentric, geocentric
from standfast.rulebooks.spa.moment import Moment, times
from standfast.sheet import Value, given, simulated
from standfast.shelf import Edition


class Place(NamedTuple):
    """Where the observer is, and the air there.

    Attributes:
        latitude_deg: north positive.
        longitude_deg: east positive.
        elevation_m: above the sea.
        pressure_mbar: mean air pressure of the year.
        temperature_c: mean air temperature of the year.
        refraction_deg: refraction at sunrise and sunset.
    """

    latitude_deg: float
    longitude_deg: float
    elevation_m: float
    pressure_mbar: float
    temperature_c: float
    refraction_deg: float


class Sun(NamedTuple):
    """Zenith angle with refraction, and azimuth clockwise from north, in degrees."""

    zenith_deg: float
    azimuth_deg: float


def sun(book: Edition, moment: Moment, place: Place) -> Sun:
    """Where the sun stands (clauses 3.11 to 3.14).

    Args:
        book: NREL/TP-560-34302.
        moment: local standard time.
        place: of the observer.
    """
    seen = geocentric(book, times(moment, book.number("epoch").quantity))
    declination, hour = _topocentric(book, seen, place)
    phi = math.radians(place.latitude_deg)
    sin_elevation = math.sin(phi) * math.sin(declination) + math.cos(phi) * math.cos(declination) * math.cos(hour)
    elevation = math.degrees(math.asin(max(-1.0, min(1.0, sin_elevation))))
    from_south = math.atan2(math.sin(hour), math.cos(hour) * math.sin(phi) - math.tan(declination) * math.cos(phi))
    zenith = 90 - elevation - _refraction(book, elevation, place)
    return Sun(zenith, (math.degrees(from_south) + 180) % 360)


def incidence_deg(sun: Sun, slope_deg: float, surface_azimuth_deg: float) -> float:
    """Angle between the sun and the normal of a surface (clause 3.15).

    Args:
        sun: where the sun stands.
        slope_deg: of the surface, from horizontal.
        surface_azimuth_deg: clockwise from north.
    """
    zenith, slope = math.radians(sun.zenith_deg), math.radians(slope_deg)
    turn = math.radians(sun.azimuth_deg - surface_azimuth_deg)
    cosine = math.cos(zenith) * math.cos(slope) + math.sin(slope) * math.sin(zenith) * math.cos(turn)
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


def zenith(book: Edition, moment: Moment, place: Place) -> Value:
    """Zenith angle in degrees with refraction, as a value of the sheet."""
    text = "{:04d}-{:02d}-{:02d} {:g}:{:g}:{:g} local standard time".format(*moment[:6])
    site = [
        given("phi", place.latitude_deg, "deg", "site"),
        given("sigma", place.longitude_deg, "deg", "site"),
        given("E", place.elevation_m, "m", "site"),
    ]
    method = f"{book.clause('position')}, at {text}"
    return simulated("theta", sun(book, moment, place).zenith_deg, "deg", method, *site)


def _topocentric(book: Edition, seen: Geocentric, place: Place) -> tuple[float, float]:
    """Declination and hour angle from the surface of the earth, in radians."""
    phi = math.radians(place.latitude_deg)
    flat, radius = book.number("flattening").quantity, book.number("earth_radius").quantity
    parallax = math.radians(book.number("parallax").quantity / 3600) / seen.distance_au
    hour = seen.sidereal + math.radians(place.longitude_deg) - seen.right_ascension
    u = math.atan(flat * math.tan(phi))
    x = math.cos(u) + place.elevation_m / radius * math.cos(phi)
    y = flat * math.sin(u) + place.elevation_m / radius * math.sin(phi)
    across = math.cos(seen.declination) - x * math.sin(parallax) * math.cos(hour)
    shift = math.atan2(-x * math.sin(parallax) * math.sin(hour), across)
    up = (math.sin(seen.declination) - y * math.sin(parallax)) * math.cos(shift)
    return math.atan2(up, across), hour - shift


def _refraction(book: Edition, elevation_deg: float, place: Place) -> float:
    """Correction of the elevation in degrees; none while the whole sun is below the horizon."""
    if elevation_deg < -(book.number("sun_radius").quantity + place.refraction_deg):
        return 0.0
    pressure = place.pressure_mbar / book.number("refraction_pressure").quantity
    warm = book.number("celsius_zero").quantity + place.temperature_c
    bent = elevation_deg + book.number("refraction_term").quantity / (
        elevation_deg + book.number("refraction_shift").quantity
    )
    factor = book.number("refraction_factor").quantity / 60
    return pressure * book.number("refraction_temperature").quantity / warm * factor / math.tan(math.radians(bent))
