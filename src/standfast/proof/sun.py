"""Adapters of the sun: where it stands, and the losses on the way."""

import math
from typing import Any

from standfast import shelf
from standfast.proof.energy_series import whole
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method
from standfast.rulebooks.spa.moment import Moment
from standfast.rulebooks.spa.position import Place, incidence_deg, sun
from standfast.rulebooks.tp62641 import losses
from standfast.sheet import given

YEARS = (-2000, 6000)


@method("pv.solar_position")
def solar_position(case: Inputs) -> dict[str, Any]:
    """Where the sun stands, and how it falls on a surface where the case has one."""
    place = Place(*(case.number(name) for name in Place._fields))
    found = sun(shelf.edition("spa", "2008"), _moment(case), place)
    answers: dict[str, Any] = found._asdict()
    if "slope_deg" in case or "surface_azimuth_deg" in case:
        surface = case.number("slope_deg"), case.number("surface_azimuth_deg")
        answers["incidence_deg"] = incidence_deg(found, *surface)
    return answers


@method("pv.loss_product")
def loss_product(case: Inputs) -> dict[str, Any]:
    """Losses that multiply."""
    each = [given("L", number, "%", "case, losses_pct") for number in case.numbers("losses_pct")]
    return {"loss_pct": losses.system_loss(shelf.edition("tp62641", "2014"), each).quantity}


def _moment(case: Inputs) -> Moment:
    year, month, day = case.number("year"), whole(case, "month"), whole(case, "day")
    if year != math.floor(year) or not YEARS[0] <= year <= YEARS[1] or not 1 <= month <= 12 or not 1 <= day <= 31:
        raise BadCase(f"{year:g}-{month}-{day} is no date of the years {YEARS[0]} to {YEARS[1]}")
    hour, minute, second = case.number("hour"), case.number("minute"), case.number("second")
    if not (0 <= hour <= 24 and 0 <= minute < 60 and 0 <= second < 60):
        raise BadCase(f"{hour:g}:{minute:g}:{second:g} is no time of day")
    return Moment(int(year), month, day, hour, minute, second, case.number("utc_offset_h"), case.number("delta_t_s"))
