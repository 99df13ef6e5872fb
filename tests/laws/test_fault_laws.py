"""Laws of fault current: more conductor never lets more through."""

import math

from hypothesis import given as draw
from hypothesis import settings
from hypothesis import strategies as st

from standfast import shelf
from standfast.rulebooks.handbook import fault_current as faults
from standfast.rulebooks.iec60909 import peak
from standfast.sheet import Value, given

BOOK = shelf.edition("handbook", "2026")
IEC = shelf.edition("iec60909", "2016")
LOOPS = st.sampled_from(["three_phase", "single_phase_line_line", "single_phase_line_neutral"])


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def at_end(loop: faults.Loop, available: float, length: float, c: float) -> float:
    inputs = of(available, "A"), of(240, "V"), of(c, "ft/ohm"), of(1, "1"), of(length, "ft")
    return faults.along_run(BOOK, loop, *inputs).fault.quantity


@settings(deadline=None, derandomize=True, max_examples=80)
@draw(LOOPS, st.floats(100, 60_000), st.floats(0, 500), st.floats(0, 500), st.floats(300, 30_000))
def test_a_longer_run_never_has_more_fault_current(
    loop: faults.Loop, available: float, length: float, more: float, c: float
) -> None:
    assert at_end(loop, available, length + more, c) <= at_end(loop, available, length, c) * (1 + 1e-12)
    assert at_end(loop, available, length, c) <= available


@settings(deadline=None, derandomize=True, max_examples=80)
@draw(LOOPS, st.floats(100, 60_000), st.floats(1, 300), st.floats(1, 300), st.floats(300, 30_000))
def test_two_runs_end_to_end_are_one_run(
    loop: faults.Loop, available: float, first: float, second: float, c: float
) -> None:
    twice = at_end(loop, at_end(loop, available, first, c), second, c)
    assert math.isclose(twice, at_end(loop, available, first + second, c), rel_tol=1e-9)


@settings(deadline=None, derandomize=True, max_examples=80)
@draw(st.floats(0.1, 50), st.floats(0.1, 50), st.floats(0, 2), st.floats(0, 1), st.floats(1, 200), st.floats(0, 100))
def test_more_cable_never_has_more_fault_current_and_the_peak_stays_in_its_band(
    r: float, x: float, cable_r: float, cable_x: float, length: float, more: float
) -> None:
    def fault(metres: float) -> faults.ChainFault:
        cable = faults.Cable(of(cable_r, "mohm/m"), of(cable_x, "mohm/m"), of(metres, "m"), of(1, "1"))
        return faults.chain(BOOK, of(400, "V"), of(r, "mohm"), of(x, "mohm"), [cable])

    near, far = fault(length), fault(length + more)
    assert far.fault.quantity <= near.fault.quantity * (1 + 1e-12)
    kappa = peak.kappa(IEC, near.r, near.x).quantity
    assert kappa >= 1.02
    assert kappa <= 2.0
