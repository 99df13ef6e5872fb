"""Local days, tariffs and labels where clocks change."""

from datetime import date

import pytest

from standfast.design.energy.clock import Window, day_seconds, instants, tariff_day, whole_steps, zone_of
from standfast.faults import Unanswered

BERLIN = zone_of("Europe/Berlin")
AUTUMN, SPRING = date(2026, 10, 25), date(2026, 3, 29)


@pytest.mark.parametrize(
    ("zone", "day", "hours"),
    [
        ("America/Sao_Paulo", date(2018, 11, 4), 23),
        ("America/Sao_Paulo", date(2018, 2, 17), 25),
        ("Atlantic/Azores", date(2026, 10, 25), 25),
        ("Australia/Lord_Howe", date(2026, 4, 5), 24.5),
        ("Pacific/Apia", date(2011, 12, 30), 0),
        ("America/Phoenix", date(2026, 3, 8), 24),
    ],
    ids=["jumps over midnight", "back over midnight", "back to midnight", "half an hour", "no such day", "never"],
)
def test_length_of_a_local_day(zone: str, day: date, hours: float) -> None:
    assert day_seconds(zone_of(zone), day) == hours * 3600


def test_only_whole_intervals_count() -> None:
    assert whole_steps(zone_of("Australia/Lord_Howe"), date(2026, 4, 5), 60) == 24
    assert whole_steps(zone_of("Australia/Lord_Howe"), date(2026, 4, 5), 15) == 98


@pytest.mark.parametrize("name", ["Europe/Nowhere", "", "../etc/passwd", "America", "Europe/Berlin\0"])
def test_a_zone_that_is_not_there_is_refused(name: str) -> None:
    with pytest.raises(Unanswered, match="time zone"):
        zone_of(name)


@pytest.mark.parametrize(
    ("day", "step_min", "labels", "fault", "repeated"),
    [
        (AUTUMN, 60, [0, 60, 120, 120, 180], None, True),
        (AUTUMN, 60, [0, 60, 120], None, False),
        (AUTUMN, 60, [120, 120, 120], "label_repeated", False),
        (AUTUMN, 30, [120, 120], "gap_at_clock_change", False),
        (AUTUMN, 60, [60, 60, 120], "label_repeated", False),
        (SPRING, 60, [60, 180], None, False),
        (SPRING, 60, [60, 120, 120], "label_does_not_exist", False),
        (SPRING, 60, [0, 120], "label_does_not_exist", False),
        (SPRING, 60, [1440], "label_does_not_exist", False),
        (SPRING, 60, [-60], "label_does_not_exist", False),
        (SPRING, 60, [60, 0], "gap_at_clock_change", False),
        (SPRING, 15, [], None, False),
    ],
)
def test_labels(day: date, step_min: float, labels: list[float], fault: str | None, repeated: bool) -> None:
    found = instants(BERLIN, day, step_min, labels)
    assert found.fault == fault
    assert found.repeated == repeated
    assert len(found.epoch_s) == (0 if fault else len(labels))


def test_a_window_may_reach_over_midnight_and_the_first_one_counts() -> None:
    windows = [Window(1380, 60, 0.1), Window(0, 120, 0.2)]
    found = tariff_day(BERLIN, 1774738800, 0.5, [1.0] * 46, windows, 0.3)
    assert found.window_index == [0, 1, 2, 3, 44, 45]
    assert found.bill == pytest.approx(4 * 0.1 + 2 * 0.2 + 40 * 0.3)
    assert found.window_kwh == pytest.approx(6.0)
