"""Laws of loads: more load never asks for less."""

from hypothesis import given as draw
from hypothesis import settings
from hypothesis import strategies as st

from standfast import shelf
from standfast.rulebooks.nfpa70 import cooking, loads, motors
from standfast.rulebooks.nfpa70.cooking import Appliances
from standfast.sheet import Value, given

BOOK = shelf.edition("nfpa70", "2023")
VA = st.integers(0, 60_000)
LISTS = st.lists(VA, min_size=1, max_size=8)


def va(number: float) -> Value:
    return given("S", number, "VA", "test")


def service(load: Value) -> float:
    return loads.service_rating(BOOK, loads.line_current(load, given("U", 240.0, "V", "test"))).quantity


@settings(deadline=None, derandomize=True, max_examples=60)
@draw(LISTS, VA)
def test_one_more_load_never_lowers_a_pool_or_the_service(pool: list[int], more: int) -> None:
    before = loads.optional_existing(BOOK, [va(each) for each in pool])
    after = loads.optional_existing(BOOK, [va(each) for each in [*pool, more]])
    assert after.total.quantity >= before.total.quantity
    assert service(after.total) >= service(before.total)


@settings(deadline=None, derandomize=True, max_examples=60)
@draw(VA, VA)
def test_more_lighting_never_lowers_its_demand_and_demand_never_exceeds_load(load: int, more: int) -> None:
    before, after = (loads.lighting_demand(BOOK, va(each)).quantity for each in (load, load + more))
    assert before <= after + 1e-9
    assert before <= load + 1e-9


@settings(deadline=None, derandomize=True, max_examples=60)
@draw(LISTS, VA, VA, st.integers(1, 9))
def test_more_cooling_or_heat_never_lowers_a_new_dwelling(pool: list[int], cool: int, heat: int, units: int) -> None:
    def total(cooling: float, heating: float) -> float:
        kind = loads.Heating("separate units", va(heating), units=units)
        lists = [va(each) for each in pool]
        return loads.optional_new(BOOK, va(6000), va(4500), lists, kind, va(cooling)).total.quantity

    assert total(cool + 1000, heat) >= total(cool, heat)
    assert total(cool, heat + 1000) >= total(cool, heat)


@settings(deadline=None, derandomize=True, max_examples=60)
@draw(st.integers(1, 80), st.floats(1.8, 27.0))
def test_one_more_range_of_the_same_rating_never_lowers_the_greatest_demand(count: int, rating: float) -> None:
    power = given("P", rating, "kW", "test")
    before, after = (cooking.maximum_demand(BOOK, [Appliances(n, power)]).quantity for n in (count, count + 1))
    assert after >= before - 1e-9


@settings(deadline=None, derandomize=True, max_examples=60)
@draw(st.floats(0.5, 400), st.floats(0, 100), st.sampled_from(motors.PROTECTIONS))
def test_a_larger_motor_never_has_a_smaller_device(current: float, more: float, protection: str) -> None:
    amps = [given("I", each, "A", "test") for each in (current, current + more)]
    small, large = (motors.device(BOOK, each, protection).quantity for each in amps)
    assert large >= small
    assert small >= current
