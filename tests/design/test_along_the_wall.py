"""Lengths of routes that follow the walls: across and up, round a corner, over a door, and what must be known."""

import pytest
from choice_job import Change, base

from standfast.design.siting.layout import Unit
from standfast.design.siting.placed import PlacedUnit
from standfast.design.siting.solid import Solid, Span
from standfast.design.wiring import along
from standfast.sheet import Value, given
from standfast.survey.read import Survey

INCH = 254
FT = 12 * INCH


def unit(wall: str = "garage-east", left: int = 120 * INCH, bottom: int = 20 * INCH) -> PlacedUnit:
    """A unit of 24 × 41 in at a place in tenths of a millimetre."""
    solid = Solid(Span(left, left + 24 * INCH), Span(0, 1905), Span(bottom, bottom + 41 * INCH))
    where = given("x", left / 10, "mm", "test"), given("y", bottom / 10, "mm", "test")
    nowhere = given("none", 0.0, "mm", "test")
    return PlacedUnit("battery-1", wall, *where, nowhere, Unit("battery-1", solid), nowhere, nowhere)


def length(job: Survey, at: PlacedUnit, route: str = "battery-run") -> Value:
    """The length of a route."""
    return along.lengths(job, [at])[route]


def test_across_and_up_and_the_ends_by_hand() -> None:
    # The disconnect's middle is 106 + 4 = 110 in along and 54 + 6 = 60 in up; the unit's 132 in and 40-1/2 in.
    found = length(base(), unit())
    assert found.quantity == pytest.approx((22 + 19.5) / 12 + 2) and found.kind == "measured"
    assert "between the middles of battery and disconnect" in found.how and "and 2 ft for bends" in found.how


def test_round_the_corner_the_walls_are_laid_flat() -> None:
    # The north wall is 252 in long and ends where the east wall begins; the unit's middle is 52 in before the corner.
    found = length(base(), unit("garage-north", 188 * INCH))
    assert found.quantity == pytest.approx((52 + 110 + 19.5) / 12 + 2)


def door(*changes: Change) -> list[Change]:
    """A door in the east wall between the disconnect and the unit."""
    word = {"id": "gap", "kind": "door", "left": "115 in", "bottom": "0 in", "width": "4 in", "height": "80 in"}
    return [(("walls", 0, "openings"), []), (("walls", 0, "openings", 0), word), *changes]


def test_a_run_goes_over_a_door_between_its_ends() -> None:
    found = length(base(*door()), unit())
    assert found.quantity == pytest.approx((22 + (80 - 60) + (80 - 40.5)) / 12 + 2)


def test_no_run_goes_where_a_door_leaves_no_wall() -> None:
    found = length(base(*door((("walls", 0, "openings", 0, "height"), "9 ft"))), unit())
    assert found.missing and "routes.battery-run.length" in found.how


def test_a_low_opening_is_passed_at_the_height_of_an_end() -> None:
    found = length(base(*door((("walls", 0, "openings", 0, "height"), "50 in"))), unit())
    assert found.quantity == pytest.approx((22 + 19.5) / 12 + 2)


def test_between_two_panels_the_unit_plays_no_part() -> None:
    job = base((("routes", 2, "length"), None), (("routes", 2, "along"), "wall"), (("routes", 2, "extra"), "0 in"))
    # Middles: main panel 48-1/4 in along and 60 in up, backup panel 83-1/4 in and 60 in.
    assert length(job, unit(), "backup-feeder").quantity == pytest.approx(35 / 12, abs=1e-4)


def test_a_length_that_is_written_goes_first() -> None:
    assert along.lengths(base((("routes", 0, "length"), "6 ft")), [unit()]) == {}


@pytest.mark.parametrize(
    ("change", "asked"),
    [
        ((("routes", 0, "extra"), None), "routes.battery-run.extra"),
        ((("walls", 0, "obstacles", 3), None), "an obstacle that is disconnect"),
        ((("walls", 1, "end"), None), "routes.battery-run.length"),
    ],
)
def test_what_is_not_known_is_asked_for(change: Change, asked: str) -> None:
    found = length(base(change), unit("garage-north", 188 * INCH))
    assert found.missing and asked in found.how
