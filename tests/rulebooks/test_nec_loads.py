"""Loads of a dwelling on invented figures; published ones run through proof."""

import pytest

from standfast import shelf
from standfast.faults import OutsideTable
from standfast.rulebooks.nfpa70 import loads
from standfast.sheet import Value, given, missing

BOOK = shelf.edition("nfpa70", "2023")


def va(number: float) -> Value:
    return given("S", number, "VA", "test")


def count(number: float) -> Value:
    return given("n", number, "1", "test")


def test_lighting_demand_steps_down_twice() -> None:
    assert loads.lighting_demand(BOOK, va(3000)).quantity == 3000
    assert loads.lighting_demand(BOOK, va(5000)).quantity == pytest.approx(3000 + 0.35 * 2000)
    assert loads.lighting_demand(BOOK, va(130_000)).quantity == pytest.approx(3000 + 0.35 * 117_000 + 0.25 * 10_000)


def test_area_and_circuits_become_va_by_the_code() -> None:
    area = given("A", 1000.0, "ft2", "test")
    assert loads.lighting(BOOK, area).quantity == 3000
    assert loads.lighting(BOOK, area).clause == ("NEC", "2023", "220.41")
    assert loads.circuits(BOOK, count(3), count(1)).quantity == 6000


def test_four_large_appliances_get_the_factor_three_do_not() -> None:
    four = [va(600), va(700), va(800), va(900)]
    assert loads.fastened_factor(BOOK, four).quantity == 0.75
    assert loads.fastened_factor(BOOK, four[:3]).quantity == 1.0
    assert loads.fastened_demand(BOOK, four, loads.fastened_factor(BOOK, four)).quantity == pytest.approx(2250)


def test_an_appliance_under_the_least_size_is_not_counted_and_not_reduced() -> None:
    pool = [va(600), va(700), va(800), va(100)]
    assert loads.fastened_factor(BOOK, pool).quantity == 1.0
    five = [*pool, va(900)]
    assert loads.fastened_demand(BOOK, five, loads.fastened_factor(BOOK, five)).quantity == pytest.approx(2250 + 100)


def test_a_small_dryer_counts_as_the_least_and_many_dryers_are_refused() -> None:
    assert loads.dryer_demand(BOOK, [va(4200)]).quantity == 5000
    assert loads.dryer_demand(BOOK, [va(5600)]).quantity == 5600
    assert loads.dryer_demand(BOOK, []).quantity == 0
    with pytest.raises(OutsideTable, match="dryers"):
        loads.dryer_demand(BOOK, [va(5000)] * 5)


def test_a_vehicle_supply_has_a_least_load() -> None:
    assert loads.vehicle_supply(BOOK, va(3600)).quantity == 7200
    assert loads.vehicle_supply(BOOK, va(11_500)).quantity == 11_500


def test_the_neutral_is_reduced_above_the_step_only() -> None:
    assert loads.neutral_current(BOOK, given("I_N", 150.0, "A", "test")).quantity == 150
    assert loads.neutral_current(BOOK, given("I_N", 300.0, "A", "test")).quantity == pytest.approx(270)


def test_a_quarter_of_the_largest_motor_is_added_to_a_conductor() -> None:
    currents = [given("I", amps, "A", "test") for amps in (20.0, 8.0)]
    loaded = loads.conductor_load(BOOK, "I_1", currents, given("I_M", 8.0, "A", "test"))
    assert loaded.quantity == 30


@pytest.mark.parametrize(("load_a", "service_a"), [(40.0, 100.0), (100.0, 100.0), (100.1, 110.0), (180.0, 200.0)])
def test_a_service_is_the_next_rating_but_not_under_the_least(load_a: float, service_a: float) -> None:
    assert loads.service_rating(BOOK, given("I", load_a, "A", "test")).quantity == service_a


def hvac(heating: loads.Heating, cooling_va: float) -> float:
    load = loads.optional_new(BOOK, va(6000), va(4500), [], heating, va(cooling_va))
    assert load.total.quantity == pytest.approx(load.demand.quantity + load.hvac.quantity)
    return load.hvac.quantity


def test_only_the_larger_of_heating_and_cooling_counts_each_at_its_factor() -> None:
    assert hvac(loads.Heating("none"), 5000) == 5000
    assert hvac(loads.Heating("central electric", va(10_000)), 5000) == pytest.approx(6500)
    assert hvac(loads.Heating("separate units", va(10_000), units=3), 0) == pytest.approx(6500)
    assert hvac(loads.Heating("separate units", va(10_000), units=4), 0) == pytest.approx(4000)
    assert hvac(loads.Heating("heat pump", va(4000)), 5000) == 5000
    assert hvac(loads.Heating("thermal storage", va(9000)), 5000) == 9000


def test_supplementary_heat_adds_unless_it_is_interlocked() -> None:
    together = loads.Heating("heat pump supplemented", va(4000), va(10_000))
    apart = together._replace(interlocked=True)
    assert hvac(together, 0) == pytest.approx(4000 + 6500)
    assert hvac(apart, 0) == pytest.approx(6500)


def test_the_two_pools_differ_in_their_first_step() -> None:
    new = loads.optional_new(BOOK, va(9000), va(4500), [va(6500)], loads.Heating("none"), va(0))
    existing = loads.optional_existing(BOOK, [va(9000), va(4500), va(6500)])
    assert new.demand.quantity == pytest.approx(10_000 + 0.4 * 10_000)
    assert existing.total.quantity == pytest.approx(8000 + 0.4 * 12_000)


def test_new_heating_or_cooling_counts_in_full_beside_the_pool() -> None:
    load = loads.optional_existing_new_hvac(BOOK, [va(18_000)], va(3000), va(7000))
    assert load.demand.quantity == pytest.approx(12_000)
    assert load.total.quantity == pytest.approx(19_000)


def test_recorded_demand_is_raised_by_a_quarter_and_a_missing_record_stays_missing() -> None:
    new = given("I_new", 30.0, "A", "test")
    assert loads.measured_demand(BOOK, given("I_max", 60.0, "A", "test"), new).quantity == 105
    assert loads.measured_demand(BOOK, missing("I_max", "A", "the record"), new).missing
