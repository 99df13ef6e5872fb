"""NREL/TP-560-34302: calendar, daily course, symmetry, refraction. The worked example is among the published cases."""

import math

import pytest

from standfast import shelf
from standfast.rulebooks.spa.ephemeris import geocentric
from standfast.rulebooks.spa.moment import Moment, julian_day, times
from standfast.rulebooks.spa.position import Place, Sun, incidence_deg, sun, zenith

BOOK = shelf.edition("spa", "2008")
GREENWICH = Place(51.48, 0.0, 46.0, 1013.0, 10.0, 0.5667)


def at(hour: float, month: int = 6, day: int = 21, place: Place = GREENWICH) -> Sun:
    return sun(BOOK, Moment(2026, month, day, hour, 0, 0, 0, 69), place)


@pytest.mark.parametrize(
    ("date", "day"),
    [
        ((2000, 1, 1.5), 2451545.0),
        ((1999, 1, 1.0), 2451179.5),
        ((1987, 6, 19.5), 2446966.0),
        ((1600, 12, 31.0), 2305812.5),
        ((1582, 10, 15.0), 2299160.5),
        ((1582, 10, 4.0), 2299159.5),
        ((837, 4, 10.3), 2026871.8),
        ((-1000, 7, 12.5), 1356001.0),
        ((-4712, 1, 1.5), 0.0),
    ],
)
def test_julian_days_of_both_calendars(date: tuple[int, int, float], day: float) -> None:
    assert julian_day(*date) == pytest.approx(day, abs=1e-6)


def test_the_sun_stands_highest_in_the_south_at_noon_and_is_gone_at_midnight() -> None:
    noon, midnight = at(12), at(0)
    assert noon.azimuth_deg == pytest.approx(180, abs=2)
    assert noon.zenith_deg == pytest.approx(51.48 - 23.44, abs=0.05)
    assert midnight.zenith_deg > 90
    assert at(6).azimuth_deg < 90 < at(9).azimuth_deg < 180 < at(15).azimuth_deg


def test_declination_and_distance_go_with_the_season() -> None:
    seasons = [geocentric(BOOK, times(Moment(2026, month, 21, 12, 0, 0, 0, 69), 2451545)) for month in (3, 6, 9, 12)]
    spring, summer, autumn, winter = (math.degrees(each.declination) for each in seasons)
    assert summer == pytest.approx(23.44, abs=0.01)
    assert winter == pytest.approx(-23.44, abs=0.01)
    assert max(math.fabs(spring), math.fabs(autumn)) < 1
    assert seasons[3].distance_au < 1 < seasons[1].distance_au


def test_refraction_lifts_a_low_sun_and_none_that_is_down() -> None:
    thin = GREENWICH._replace(pressure_mbar=0.0)
    assert 0.05 < at(4, place=thin).zenith_deg - at(4).zenith_deg < 0.6
    assert at(0, place=thin).zenith_deg == at(0).zenith_deg


def test_incidence() -> None:
    seen = at(10)
    assert incidence_deg(seen, 0, 123) == pytest.approx(seen.zenith_deg)
    assert incidence_deg(seen, seen.zenith_deg, seen.azimuth_deg) == pytest.approx(0, abs=1e-5)
    assert incidence_deg(seen, 90, seen.azimuth_deg + 180) > 90


def test_a_zenith_on_the_sheet_names_its_method_and_place() -> None:
    value = zenith(BOOK, Moment(2026, 6, 21, 12, 0, 0, 0, 69), GREENWICH)
    assert value.quantity == at(12).zenith_deg
    assert "2026-06-21 12:0:0" in value.how
    assert [each.symbol for each in value.inputs] == ["phi", "sigma", "E"]
