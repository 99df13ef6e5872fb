"""Laws of arcs, of discharge and of resistances in parallel."""

from hypothesis import given as draw
from hypothesis import settings
from hypothesis import strategies as st

from standfast import shelf
from standfast.rulebooks.dc_arcs import steady_arc
from standfast.rulebooks.handbook import discharge, field_bus
from standfast.rulebooks.nfpa70e import dc_arc
from standfast.sheet import Value, given

ARCS, E70 = shelf.edition("dc_arcs", "2010"), shelf.edition("nfpa70e", "undated")
HANDBOOK = shelf.edition("handbook", "2026")


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def current(voltage: float, fault: float, gap: float) -> float:
    return steady_arc.arc(ARCS, of(voltage, "V"), of(fault, "A"), of(gap, "mm"), of(1, "s")).current.quantity


@settings(deadline=None, derandomize=True, max_examples=80)
@draw(st.floats(40, 1000), st.floats(200, 30_000), st.floats(1, 60), st.floats(0, 30), st.floats(0, 300))
def test_a_longer_gap_has_less_current_and_a_higher_voltage_more(
    voltage: float, fault: float, gap: float, longer: float, higher: float
) -> None:
    here = current(voltage, fault, gap)
    assert current(voltage, fault, gap + longer) <= here * (1 + 1e-9)
    assert here <= current(voltage + higher, fault, gap) * (1 + 1e-9)
    assert here < fault


@settings(deadline=None, derandomize=True, max_examples=80)
@draw(st.floats(60, 1000), st.floats(500, 30_000), st.floats(1, 40))
def test_the_arc_has_never_more_power_than_the_greatest_of_the_circuit(
    voltage: float, fault: float, gap: float
) -> None:
    found = steady_arc.arc(ARCS, of(voltage, "V"), of(fault, "A"), of(gap, "mm"), of(1, "s"))
    power = 0.0 if found.energy is None else found.energy.quantity
    half = dc_arc.arc_current(E70, of(fault, "A")).quantity
    assert power <= voltage / 2 * half * (1 + 1e-9)


@settings(deadline=None, derandomize=True, max_examples=80)
@draw(st.floats(1, 1000), st.floats(0.01, 1), st.floats(0.01, 1), st.floats(1e3, 1e6), st.floats(1e-6, 1e-2))
def test_times_of_two_steps_of_a_discharge_add(start: float, a: float, b: float, ohm: float, farad: float) -> None:
    def time(high: float, low: float) -> float:
        return discharge.time(HANDBOOK, of(high, "V"), of(ohm, "ohm"), of(farad, "F"), of(low, "V")).quantity

    middle, end = start * a, start * a * b
    assert abs(time(start, middle) + time(middle, end) - time(start, end)) <= 1e-9 * (1 + time(start, end))


@settings(deadline=None, derandomize=True, max_examples=80)
@draw(st.lists(st.floats(1, 1000), min_size=1, max_size=6), st.floats(1, 1000))
def test_one_more_in_parallel_lowers_the_resistance(fitted: list[float], more: float) -> None:
    before = field_bus.in_parallel(HANDBOOK, [of(each, "ohm") for each in fitted]).quantity
    after = field_bus.in_parallel(HANDBOOK, [of(each, "ohm") for each in [*fitted, more]]).quantity
    assert after < before <= min(fitted) * (1 + 1e-12)
