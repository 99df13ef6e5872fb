"""Adapters of the local clock."""

from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

from standfast.design.energy.clock import Window, instants, tariff_day, whole_steps, zone_of
from standfast.proof.energy_series import positive, whole
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method

YEARS = (1900, 2200)
LAST_EPOCH_S = 7.3e9
LEAST_STEP_MIN = 1 / 60


@method("energy.clock.day_steps")
def clock_day_steps(case: Inputs) -> dict[str, Any]:
    """Intervals of a local day."""
    step_min = positive(case, "step_min")
    if step_min < LEAST_STEP_MIN:
        raise BadCase(f"a step of {step_min:g} min is shorter than a second")
    return {"steps": whole_steps(_zone(case), _day(case), step_min)}


@method("energy.clock.tariff_day")
def clock_tariff_day(case: Inputs) -> dict[str, Any]:
    """Readings of a local day under a tariff."""
    names = ("window_from_min", "window_to_min", "window_buy_per_kwh")
    columns = [case.numbers(name) for name in names]
    if len({len(column) for column in columns}) > 1:
        raise BadCase(f"{', '.join(names)} have unlike lengths")
    first, dt_h, readings = case.number("first_start_epoch_s"), positive(case, "dt_h"), case.numbers("readings_kwh")
    if not 0 <= first <= first + len(readings) * dt_h * 3600 <= LAST_EPOCH_S:
        raise BadCase(f"readings from {first:g} s since 1970 begin before it or end after the year {YEARS[1]}")
    found = tariff_day(
        _zone(case),
        first,
        dt_h,
        readings,
        [Window(*row) for row in zip(*columns, strict=True)],
        case.number("buy_else_per_kwh"),
    )
    return {"steps": len(readings), "window_steps": len(found.window_index), **found._asdict()}


@method("energy.clock.labels")
def clock_labels(case: Inputs) -> dict[str, Any]:
    """Readings that carry only local labels."""
    found = instants(_zone(case), _day(case), positive(case, "step_min"), case.numbers("label_min"))
    if found.fault is not None:
        return {"verdict": "fail", "reason": found.fault}
    condition = {"condition": "repeated_hour_taken_in_order"} if found.repeated else {}
    return {"verdict": "pass", "epoch_s": found.epoch_s, **condition}


def _zone(case: Inputs) -> ZoneInfo:
    return zone_of(case.word("zone"))


def _day(case: Inputs) -> date:
    digits = whole(case, "local_date_yyyymmdd")
    if not YEARS[0] <= digits // 10000 <= YEARS[1]:
        raise BadCase(f"{digits} is no date of the years {YEARS[0]} to {YEARS[1]}")
    try:
        return date(digits // 10000, digits // 100 % 100, digits % 100)
    except ValueError as error:
        raise BadCase(f"{digits} is no date: {error}") from error
