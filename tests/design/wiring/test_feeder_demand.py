"""A feeder whose connected loads are over: the demand passes it, what no method undercuts fails it."""

import pytest
from fed_house import CHOSEN

from standfast.design.wiring.material import SheetFile
from standfast.design.wiring.whole import wire
from standfast.equipment.read import find
from standfast.foreman.demo import job_text
from standfast.sheet import Check
from standfast.shelf import edition
from standfast.survey.read import read

NEC, HANDBOOK = edition("nfpa70", "2023"), edition("handbook", "2026")
MAIN = 'busbar = "200 A"\nmain = "150 A"'
WORKSHOP_NEUTRAL = 'ground = "10", neutral = "6"'


@pytest.fixture(scope="module")
def sheets() -> dict[str, SheetFile]:
    found = {role: find(id).sheet for role, id in CHOSEN.items()}
    return {role: sheet for role, sheet in found.items() if sheet is not None}


def found(sheets: dict[str, SheetFile], id: str, *changes: tuple[str, str]) -> Check:
    text = job_text("many-sources")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    survey, faults = read(text)
    assert survey is not None and not faults, faults
    return next(each for each in wire(NEC, HANDBOOK, survey, sheets).checks if each.id == f"wiring.{id}")


def test_the_demand_of_the_house_panel_is_that_worked_by_hand(sheets: dict[str, SheetFile]) -> None:
    """On line 1: charging 26.25 A; 1850 ft2, two kitchen circuits and the laundry 5467.5 VA after Table 220.45; range
    8 kW, dryer 5 kVA; water heater, refrigerator, furnace, network, garage door; a quarter of what lasts and of the
    largest motor. 198 A are connected, so that the smaller of 200 A and the panel's 150 A is not held by the sum."""
    check = found(sheets, "feeder-load/main")
    both = 26.25 + (5467.5 + 8000 + 5000) / 240
    plain = (300 + 700 + 850 + 200 + 900) / 120
    more = 0.25 * (300 + 850 + 200 + 4 * 300 + 400) / 120 + 0.25 * 900 / 120
    assert check.verdict == "pass"
    assert check.demand is not None and check.limit is not None
    assert check.demand.quantity == pytest.approx(both + plain + more)
    assert check.limit.quantity == 150
    assert "I_main" in check.limit.how


@pytest.mark.parametrize(("rating", "verdict"), [("60 A", "fail"), ("125 A", "cannot tell"), ("150 A", "pass")])
def test_the_main_of_the_panel_counts_where_it_is_smaller(
    sheets: dict[str, SheetFile], rating: str, verdict: str
) -> None:
    assert found(sheets, "feeder-load/main", (MAIN, MAIN.replace("150 A", rating))).verdict == verdict


def test_a_sum_of_connected_loads_fails_nothing(sheets: dict[str, SheetFile]) -> None:
    words = [(f'use = "{use}"\n', "") for use in ("general", "small appliance", "laundry")]
    check = found(sheets, "feeder-load/main", *words)
    assert check.verdict == "cannot tell"
    assert "Add use" in check.reason


def test_a_panel_whose_main_nobody_knows(sheets: dict[str, SheetFile]) -> None:
    check = found(sheets, "feeder-load/main", (MAIN, 'busbar = "200 A"'))
    assert check.verdict == "cannot tell"
    assert "panels.main.main" in check.reason


def test_what_charges_a_vehicle_counts_as_continuous_whatever_is_said(sheets: dict[str, SheetFile]) -> None:
    """The bench is made a charger of a vehicle."""
    car = (
        '[loads.heating]',
        '[[loads.appliances]]\nid = "bench"\nkind = "vehicle charger"\nrating = "1500 VA"\nphases = "line to neutral"\n'
        'state = "existing"\n\n[loads.heating]',
    )  # fmt: skip
    plain, charged = found(sheets, "feeder-load/workshop"), found(sheets, "feeder-load/workshop", car)
    assert plain.demand is not None and charged.demand is not None
    assert charged.demand.quantity - plain.demand.quantity == pytest.approx(0.25 * 1500 / 120)


def test_range_and_dryer_load_the_neutral_at_a_share(sheets: dict[str, SheetFile]) -> None:
    """Their nameplates of 12 and 5 kVA are 70.8 A; 30 % of it is off, before the step at 200 A."""
    check = found(sheets, "neutral-load/main")
    whole = found(sheets, "neutral-load/main", ('id = "range"\nkind = "cooking"', 'id = "oven"\nkind = "cooking"'),
                  ('id = "dryer"\nkind', 'id = "tumbler"\nkind'))  # fmt: skip
    assert check.demand is not None and whole.demand is not None
    assert whole.demand.quantity - check.demand.quantity == pytest.approx(0.3 * 17000 / 240)


def test_a_neutral_that_is_over_by_the_connected_loads_passes_by_the_demand(sheets: dict[str, SheetFile]) -> None:
    smaller = ('ground = "4", neutral = "300"', 'ground = "4", neutral = "1/0"')
    check = found(sheets, "neutral-load/main", smaller)
    assert (check.verdict, check.reason) == ("pass", "by the demand of Article 220 Part III")
    assert found(sheets, "neutral-load/main", (smaller[0], 'ground = "4", neutral = "none"')).verdict == "fail"
