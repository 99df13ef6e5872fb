"""Laws of fault currents: a longer way never carries more, and the greatest is never below the least."""

from hypothesis import given as draw
from hypothesis import settings
from hypothesis import strategies as st

from standfast import shelf
from standfast.rulebooks.handbook import fault_path as path
from standfast.rulebooks.handbook.fault_path import Impedance
from standfast.sheet import Value, given

BOOK = shelf.edition("handbook", "2026")
RATIO, FEET, OHM = st.floats(0, 20), st.floats(0, 500), st.floats(0.01, 4)


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def run(r: float, x: float, feet: float, sets: float = 1) -> Impedance:
    return path.of_conductor(BOOK, of(r, "ohm/kft"), of(x, "ohm/kft"), of(feet, "ft"), of(sets, "1"))


def current(source: Impedance, *pieces: Impedance) -> float:
    return path.in_loop(BOOK, of(240, "V"), path.in_series(BOOK, [source, *pieces])).quantity


@settings(deadline=None, derandomize=True, max_examples=60)
@draw(st.floats(0.2, 60), RATIO, OHM, st.floats(0, 0.2), FEET, st.floats(0, 300))
def test_a_longer_run_never_carries_more(
    kiloamp: float, q: float, r: float, x: float, feet: float, more: float
) -> None:
    source = path.of_current(BOOK, of(240, "V"), of(kiloamp, "kA"), of(q, "1"))
    near, far = current(source, run(r, x, feet)), current(source, run(r, x, feet + more))
    assert far <= near * (1 + 1e-12)
    assert near <= kiloamp * (1 + 1e-9)
    assert current(source, run(r, x, feet, 2)) >= near * (1 - 1e-12)


@settings(deadline=None, derandomize=True, max_examples=60)
@draw(st.floats(5, 500), st.floats(0.5, 8), RATIO, st.floats(0, 0.3), st.floats(0, 60), FEET)
def test_the_greatest_is_never_below_the_least(
    kva: float, z: float, q: float, tolerance: float, warmer: float, feet: float
) -> None:
    def at(factor: float, celsius: float, length: float) -> float:
        facts = of(kva, "kVA"), of(240, "V"), of(z, "%"), of(factor, "1"), of(q, "1")
        r = path.at_temperature(BOOK, "cu", of(1, "ohm/kft"), of(75, "°C"), of(celsius, "°C")).quantity
        return current(path.of_transformer(BOOK, *facts), run(r, 0.05, length))

    assert at(1 - tolerance, 20, feet * 0.9) >= at(1 + tolerance, 20 + warmer, feet * 1.1) * (1 - 1e-12)


@settings(deadline=None, derandomize=True, max_examples=60)
@draw(st.floats(5, 500), st.floats(0.5, 8), RATIO)
def test_the_half_winding_stays_between_its_limits(kva: float, z: float, q: float) -> None:
    facts = of(kva, "kVA"), of(240, "V"), of(z, "%"), of(1, "1"), of(q, "1")
    winding = path.of_transformer(BOOK, *facts)
    half = path.in_loop(BOOK, of(120, "V"), path.half_winding(BOOK, winding)).quantity
    whole = path.in_loop(BOOK, of(240, "V"), winding).quantity
    assert 4 / 3 * (1 - 1e-9) <= half / whole <= BOOK.number("half_winding_bound").quantity * (1 + 1e-9)
