"""Laws of circuits in square millimetres: nothing gets smaller where more is asked of it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from terrace_job import TEXT, built, checks, circuit

FEW = settings(max_examples=12)
PIECE = (
    '{{ id = "one", length = "14 m", method = "C", ambient = "{} °C", circuits_together = {}, '
    'in_insulation = "{} mm" }},\n'
)
ROUTE = 'length = "14 m"\nambient = "30 °C"'


def route(metres: int = 14, ambient: int = 30, together: int = 1, insulated: int = 0) -> tuple[tuple[str, str], ...]:
    """The run between isolator and board as one piece of these conditions."""
    sections = TEXT.partition("sections = [\n")[2].partition("]\n")[0]
    return (sections, PIECE.format(ambient, together, insulated)), (ROUTE, ROUTE.replace("14 m", f"{metres} m"))


@FEW
@given(st.integers(1, 60), st.integers(0, 30))
def test_a_longer_run_never_has_a_smaller_cable_or_rises_less(metres: int, more: int) -> None:
    short, long = (circuit(built(*route(metres=each))) for each in (metres, metres + more))
    assert long.area.missing or short.area.quantity <= long.area.quantity
    assert long.length.quantity >= short.length.quantity
    if not long.area.missing:
        far, near = (each.r_12.quantity / each.length.quantity for each in (long, short))
        assert far <= near + 1e-9


@FEW
@given(st.integers(10, 55), st.integers(0, 20))
def test_hotter_air_never_lets_a_smaller_cable_do(ambient: int, more: int) -> None:
    cool, hot = (circuit(built(*route(ambient=min(each, 60)))) for each in (ambient, ambient + more))
    assert hot.factors["ambient"].quantity <= cool.factors["ambient"].quantity
    assert hot.area.missing or cool.area.quantity <= hot.area.quantity


@FEW
@given(st.integers(1, 12), st.integers(0, 8), st.sampled_from([0, 40, 120, 300, 600]))
def test_more_neighbours_never_let_a_smaller_cable_do(together: int, more: int, insulated: int) -> None:
    few, many = (circuit(built(*route(together=each, insulated=insulated))) for each in (together, together + more))
    assert many.factors["grouping"].quantity <= few.factors["grouping"].quantity
    assert many.area.missing or few.area.quantity <= many.area.quantity


@FEW
@given(st.sampled_from([6, 10, 13, 16, 20]), st.integers(1, 20))
def test_a_greater_source_never_asks_for_a_smaller_assembly_or_device(amps: int, more: int) -> None:
    unsaid, rated = ('source_output = "21.7 A", ', ""), 'output_current = "21.7 A"'
    small, great = (built(unsaid, of_sheets=((rated, f'output_current = "{each} A"'),)) for each in (amps, amps + more))
    assert small.assemblies["main"].quantity < great.assemblies["main"].quantity
    assert circuit(small).I_b.quantity <= circuit(great).I_b.quantity
    assert small.notification is not None
    assert great.notification is not None
    assert small.notification.current.quantity < great.notification.current.quantity


@FEW
@given(st.floats(0.05, 0.8), st.floats(0.01, 1))
def test_a_higher_loop_never_trips_better(ohm: float, more: float) -> None:
    def disconnects(external: float) -> bool:
        swap = ('loop_impedance = "0.21 ohm"', f'loop_impedance = "{external:.4f} ohm"')
        return checks(swap)["wiring.disconnection/backup-feeder"].verdict == "pass"

    assert disconnects(ohm) or not disconnects(ohm + more)


@pytest.mark.parametrize("area", [4, 6, 16])
def test_what_the_job_states_is_kept_whatever_comes_of_it(area: int) -> None:
    found = built(('area = "10 mm2"', f'area = "{area} mm2"'))
    assert circuit(found, "backup-feeder").area.quantity == area
