"""Carriage of batteries, a firm's store, photographs by date, selective residual current devices."""

from typing import Any

import pytest

from standfast import shelf
from standfast.faults import OutsideTable
from standfast.rulebooks.bs7671 import earth_fault
from standfast.rulebooks.cer import photographs
from standfast.rulebooks.cfr49 import lithium
from standfast.rulebooks.ifc import lithium_store
from standfast.sheet import Value, given, missing

CFR = shelf.edition("cfr49", "2024")
IFC = shelf.edition("ifc", "2021-wa")
CER = shelf.edition("cer", "2026")
BS = shelf.edition("bs7671", "2018-a2")
UNITS = {"mass": "kg"}


def battery(**facts: Any) -> lithium.Battery:
    """A sound battery of unknown mass and casing, by road for another use; None makes a fact missing."""
    known = {"damaged": False, "purpose": "reuse", "mode": "road", "mass": None, "strong_casing": None} | facts
    return lithium.Battery(**{name: fact(name, known[name]) for name in lithium.Battery._fields})


def fact(name: str, number: Any) -> Value:
    unit = UNITS.get(name, "")
    return missing(name, unit, f"give {name}") if number is None else given(name, number, unit, "test")


@pytest.mark.parametrize("mode", ["road", "sea", "air"])
@pytest.mark.parametrize("purpose", ["recycling", "disposal", "reuse"])
def test_a_damaged_battery_has_no_relief_whatever_it_is_sent_for(purpose: str, mode: str) -> None:
    asked = battery(damaged=True, purpose=purpose, mode=mode, mass=40.0, strong_casing=True)
    assert not lithium.relief(CFR, asked).yes
    assert lithium.tested_packaging(CFR, asked).yes
    assert lithium.paragraph(CFR, asked).word == lithium.DAMAGED
    assert lithium.may_go(CFR, asked).allowed.yes == (mode != "air")


def test_relief_is_for_the_road_and_for_waste() -> None:
    assert lithium.relief(CFR, battery(purpose="recycling")).yes
    assert not lithium.relief(CFR, battery(purpose="recycling", mode="sea")).yes
    assert not lithium.relief(CFR, battery(purpose="reuse")).yes


def test_an_unknown_state_is_never_a_sound_one() -> None:
    asked = battery(damaged=None, purpose="recycling")
    answers = [lithium.relief(CFR, asked), lithium.paragraph(CFR, asked), lithium.tested_packaging(CFR, asked)]
    assert all(answer.missing for answer in [*answers, lithium.may_go(CFR, asked).allowed])


def test_packaging_of_a_sound_battery() -> None:
    least = CFR.number("large_battery_mass").quantity
    assert not lithium.tested_packaging(CFR, battery(mass=least, strong_casing=True)).yes
    assert lithium.tested_packaging(CFR, battery(mass=least - 0.1, strong_casing=True)).yes
    assert lithium.tested_packaging(CFR, battery(mass=least, strong_casing=False)).yes
    assert lithium.tested_packaging(CFR, battery(mass=least)).missing
    assert lithium.tested_packaging(CFR, battery(mass=least, strong_casing=True, mode="air")).yes


def test_by_air_a_sound_battery_goes_up_to_a_mass_and_only_on_a_condition() -> None:
    limit = CFR.number("cargo_aircraft_mass").quantity
    for mass, allowed in ((None, True), (limit, True), (limit + 0.1, False)):
        goes = lithium.may_go(CFR, battery(mode="air", mass=mass))
        assert goes.allowed.yes == allowed
        assert bool(goes.condition) == allowed
    assert lithium.may_go(CFR, battery()).condition == ""


def test_a_store_needs_a_permit_above_its_limit_only() -> None:
    limit = IFC.number("lithium_permit_volume").quantity
    assert [lithium_store.permit_required(IFC, given("V", v, "ft3", "t")).yes for v in (limit, limit + 0.01)] == [
        False,
        True,
    ]
    assert lithium_store.permit_required(IFC, missing("V", "ft3", "measure the store")).missing


@pytest.mark.parametrize(("energy", "retail", "left_out"), [(200, True, True), (200, False, False), (400, True, False)])
def test_only_small_batteries_in_retail_packaging_are_left_out(energy: float, retail: bool, left_out: bool) -> None:
    packed = given("retail", retail, "", "test")
    assert lithium_store.exempt(IFC, given("E", energy, "Wh", "test"), packed).yes == left_out
    assert lithium_store.exempt(IFC, missing("E", "Wh", "read the label"), packed).missing


def test_photographs_from_the_day_on() -> None:
    dates = ("2020-12-31", CER.number("photo_rule_from").word, "2030-01-01")
    assert [photographs.required(CER, given("d", day, "", "test")).yes for day in dates] == [False, True, True]
    assert photographs.required(CER, missing("d", "", "give the date")).missing


def test_a_selective_device_has_a_least_time_and_a_plain_one_has_none() -> None:
    for multiple in (1, 2, 3, 5):
        n = given("n", multiple, "1", "test")
        least = earth_fault.least_tripping_time(BS, "s_type", n)
        assert least is not None
        assert 0 < least.quantity < earth_fault.longest_tripping_time(BS, "s_type", n).quantity
        assert earth_fault.least_tripping_time(BS, "general", n) is None
    with pytest.raises(OutsideTable):
        earth_fault.least_tripping_time(BS, "s_type", given("n", 6, "1", "test"))
