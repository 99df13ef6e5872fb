"""Laws of the DC circuit: what may never happen, whatever the numbers."""

from dc_job import CABINET, STACK, planned
from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.rulebooks.nfpa70 import direct_current, sizes
from standfast.sheet import Value
from standfast.sheet import given as say
from standfast.shelf import edition

NEC = edition("nfpa70", "2023")
SYSTEMS = st.sampled_from([CABINET, STACK])


def copper(length_ft: float, ids: dict[str, str], current_a: float) -> tuple[float, float]:
    """Circular mils of all sets, and sets, of a run of a length and a battery of a nameplate current."""
    now = {"demo-cabinet-48": "180 A", "demo-stack-15": "45 A"}[ids["battery"]]
    found = planned(ids, {'length = "5 ft"': f'length = "{length_ft:.2f} ft"'},
                    battery={f'discharge_current = "{now}"': f'discharge_current = "{current_a:.1f} A"'})  # fmt: skip
    size = found.circuit.conductor.size
    if size.missing:
        return float("inf"), found.sets.quantity
    return found.sets.quantity * sizes.area(NEC, size).quantity, found.sets.quantity


@settings(max_examples=40, deadline=None)
@given(SYSTEMS, st.floats(1, 400), st.floats(0, 200))
def test_a_longer_run_never_has_less_copper(ids: dict[str, str], length_ft: float, more_ft: float) -> None:
    now = 180.0 if ids is CABINET else 45.0
    assert copper(length_ft + more_ft, ids, now)[0] >= copper(length_ft, ids, now)[0]


@settings(max_examples=40, deadline=None)
@given(SYSTEMS, st.floats(1, 300), st.floats(10, 199))
def test_conductors_in_parallel_are_never_below_1_0(ids: dict[str, str], length_ft: float, current_a: float) -> None:
    area, number = copper(length_ft, ids, current_a)
    least = sizes.area(NEC, NEC.number("smallest_parallel")).quantity
    assert number == 1 or area >= number * least


@given(st.floats(100, 20_000), st.floats(70, 100), st.floats(20, 500), st.floats(0.1, 400))
def test_a_lower_battery_voltage_never_asks_less_current(
    power_w: float, share: float, volts: float, more: float
) -> None:  # fmt: skip
    def drawn(voltage: float) -> float:
        facts: list[Value] = [say("P", power_w, "W", "t"), say("e", share, "%", "t"), say("U", voltage, "V", "t")]
        return direct_current.drawn(NEC, *facts).quantity

    assert drawn(volts) >= drawn(volts + more)
