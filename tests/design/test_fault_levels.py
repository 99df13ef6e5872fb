"""Fault currents along a house: what lowers them, what is added, and what devices make of them."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_wiring import FED, FIRST_ROUTE, SPACE
from wiring_job import check, wired

from standfast.design.wiring.whole import Wiring
from standfast.sheet import Check

STATED = 'fault_current = "9 kA"\nfault_x_over_r = 1.5\nleast_fault_current = "6 kA"\n'
POLE = 'transformer = { rating = "25 kVA", impedance = "1.5 %", x_over_r = 1.5 }\n'
KNOWN = POLE.replace(" }", ', primary_fault = "200000 kVA" }')
RAISED = {'fault_current = "9 kA"': 'fault_current = "14 kA"'}
SUN = '[[panels.circuits]]\nid = "sun"\nname = "Sun"\nbreaker = "20 A"\npoles = 2\nsource_output = "16 A"\n'
SIDE = """
[[panels]]
id = "side"
name = "Panel of the workshop"
state = "existing"
busbar = "100 A"
main = "60 A"
fed_from = "main"
feed = "end"
spaces = 4
free_spaces = 4
short_circuit_rating = "10 kA"
breaker_interrupting = "10 kA"
terminals = "75 °C"
neutral_bonded = false
circuits = []

[[routes]]
id = "side-feeder"
from = "main"
to = "side"
length = "20 ft"
ambient = "86 °F"
wet = false
raceway = "pvc-40"
conductors = { size = "4", material = "cu", insulation = "thhn", ground = "8" }
other_current_carrying = 0
state = "existing"

"""
WORKSHOP = SPACE | {FIRST_ROUTE: SIDE + FIRST_ROUTE}


def kiloamp(wiring: Wiring, at: str) -> float:
    return wiring.levels[at].greatest.quantity


def test_pitfall_30_greatest_for_what_breaks_least_for_what_trips() -> None:
    found = wired(FED)
    levels = list(found.levels.values())
    assert [each.at for each in levels] == [
        "service-disconnect", "main", "backup", "battery-1/disconnect", "battery-1/inverter",
    ]  # fmt: skip
    greatest, least = [each.greatest.quantity for each in levels], [each.least.quantity for each in levels]
    assert greatest == sorted(greatest, reverse=True)
    assert least == sorted(least, reverse=True)
    assert all(low < high for low, high in zip(least, greatest, strict=True))
    assert check(found, "interrupting-rating/backup").demand == found.levels["backup"].greatest
    trips = check(found, "fault-trips/battery-1")
    assert trips.demand == found.levels["battery-1/inverter"].least
    assert (trips.limit is not None and trips.limit.quantity, trips.clause.clause) == (0.3, "250.4(A)(5)")


def test_pitfall_30_an_unmarked_breaker_breaks_5_ka() -> None:
    unmarked = {'breaker_interrupting = "10 kA"\n': ""}
    weak = {'fault_current = "9 kA"': 'fault_current = "4 kA"', '"6 kA"': '"3 kA"'}
    assert check(wired({**unmarked, **weak}), "interrupting-rating/main").verdict == "pass"
    assert check(wired(unmarked), "interrupting-rating/main").verdict == "cannot tell"


def test_least_by_hand() -> None:
    # 120 V / 6 kA at 1.5: 11.094 + j 16.641; 10 AWG and its ground, 39.6 ft, at 75 °C: 39.6 × 2 × (1.2 + j 0.063).
    r, x = 20 / math.sqrt(3.25) + 39.6 * 2.4, 30 / math.sqrt(3.25) + 39.6 * 0.126
    assert wired().levels["battery-1/inverter"].least.quantity == pytest.approx(120 / math.hypot(r, x))


def test_without_a_ratio_the_greatest_is_not_diminished_and_the_least_adds_magnitudes() -> None:
    bare = {"fault_x_over_r = 1.5\n": ""}
    found = wired(bare)
    assert kiloamp(found, "battery-1/inverter") == pytest.approx(9.045)
    stands = check(found, "short-circuit-rating/battery-1")
    assert stands.verdict == "pass"
    assert ["supply.fault_x_over_r" in each.how for each in stands.assumptions()] == [True]
    r = 20 + 39.6 * 2 * math.hypot(1.2, 0.063)
    assert found.levels["battery-1/inverter"].least.quantity == pytest.approx(120 / r)
    # A bound may pass a check and never fail one: what fails by it cannot be told.
    weak = wired(bare, battery={'rating = "10 kA"': 'rating = "5 kA"'})
    assert check(weak, "short-circuit-rating/battery-1").verdict == "cannot tell"


def test_a_conductor_that_is_not_known_takes_nothing_off() -> None:
    found = wired({'length = "30 ft"\n': ""})
    assert kiloamp(found, "battery-1/disconnect") == pytest.approx(9.045)
    assert check(found, "fault-trips/battery-1").verdict == "cannot tell"
    assert "routes.disconnect-run.length" in check(found, "fault-trips/battery-1").reason


def test_a_transformer_with_its_ratio_is_worked_out_in_both_loops() -> None:
    found = wired({STATED: POLE}).levels["service-disconnect"]
    assert found.line_line.quantity == pytest.approx(25 / 0.24 / 0.0135 / 1000)
    r, x = 1.5 / 4 / math.sqrt(3.25), 1.2 / 4 * 1.5 / math.sqrt(3.25)
    assert found.line_neutral.quantity == pytest.approx(found.line_line.quantity / 2 / math.hypot(r, x))
    assert found.least.missing
    assert "supply.transformer.primary_fault" in found.least.how


def test_a_transformer_behind_a_known_grid_has_a_least_current_too() -> None:
    wire = 'conductors = { size = "4/0", material = "al", sets = 1 }'
    served = {wire: wire.replace(" }", ', length = "60 ft", raceway = "pvc-40" }')}
    found = wired({STATED: KNOWN, **served})
    here = found.levels["service-disconnect"]
    assert here.least.quantity < here.line_line.quantity < wired({STATED: POLE}).levels["main"].line_line.quantity
    assert check(found, "fault-trips/battery-1").verdict == "pass"


@pytest.mark.parametrize(
    ("pole", "word"),
    [(POLE.replace("1.5 %", "0 %"), "no such transformer"), (POLE.replace("1.5 %", "150 %"), "is none"),
     (POLE.replace("25 kVA", "0 kVA"), "no such transformer")],
)  # fmt: skip
def test_an_impossible_transformer_is_told_and_nothing_falls_over(pole: str, word: str) -> None:
    found = check(wired({STATED: pole}), "interrupting-rating/main")
    assert found.verdict == "cannot tell"
    assert word in found.reason


def test_a_grid_that_drives_nothing_is_none() -> None:
    found = check(wired({'fault_current = "9 kA"': 'fault_current = "0 A"'}), "interrupting-rating/main")
    assert found.verdict == "cannot tell"
    assert "supply.fault_current" in found.reason


def test_what_feeds_a_panel_is_told_before_its_least_current() -> None:
    found = wired({'fed_from = "utility"\n': ""})
    assert found.levels["main"].least.missing
    assert "panels.main.fed_from" in found.levels["main"].least.how
    assert kiloamp(found, "main") == pytest.approx(9.045)


def test_three_phases_count_the_fault_of_all_of_them() -> None:
    wye = {'"120/240 V single-phase"\nvoltage = "240 V"': '"120/208 V three-phase"\nvoltage = "208 V"'}
    found = wired(wye).levels["battery-1/inverter"]
    phase = 208 / math.sqrt(3) / 9
    r, x = phase / math.sqrt(3.25) + 32.4 * 1.2 * 254.5 / 309.5, 1.5 * phase / math.sqrt(3.25) + 32.4 * 0.063
    assert found.line_line.quantity == pytest.approx(208 / math.sqrt(3) / math.hypot(r, x))
    assert found.line_neutral.quantity < found.line_line.quantity


def test_an_unknown_system_is_never_a_pass() -> None:
    found = wired({'system = "120/240 V single-phase"\n': "", "fault_x_over_r = 1.5\n": ""})
    assert check(found, "fault-trips/battery-1").verdict == "cannot tell"


def test_panels_off_the_way_of_the_source_are_asked_too() -> None:
    found = wired(WORKSHOP)
    assert 0.045 < kiloamp(found, "side") < kiloamp(found, "main")
    assert check(found, "interrupting-rating/side").verdict == "pass"
    weak = wired({**WORKSHOP, 'breaker_interrupting = "10 kA"\nterminals = "75 °C"\nneutral_bonded = false':
                  'breaker_interrupting = "3 kA"\nterminals = "75 °C"\nneutral_bonded = false'})  # fmt: skip
    assert check(weak, "interrupting-rating/side").verdict == "fail"


def test_a_generator_that_can_join_the_grid_adds_to_the_fault() -> None:
    generator = '[[generators]]\nid = "set"\noutput = "30 A"\nconnection = "fixed"\nfault_contribution = "200 A"\n'
    joined = {FIRST_ROUTE: f"{generator}interlocked = false\n\n{FIRST_ROUTE}"}
    apart = {FIRST_ROUTE: f"{generator}interlocked = true\n\n{FIRST_ROUTE}"}
    unsaid = {FIRST_ROUTE: f"{generator}\n{FIRST_ROUTE}"}
    assert kiloamp(wired(joined), "main") == pytest.approx(9.245)
    assert kiloamp(wired(apart), "main") == pytest.approx(9.045)
    assert wired(unsaid).levels["main"].greatest.missing


LABEL = 'breaker_interrupting = "10 kA"\nseries_label = ["main M"]\nseries_rating = "22 kA"'


def series(extra: dict[str, str]) -> Check:
    return check(wired(RAISED | extra), "interrupting-rating/side")


def side(interrupting: str, more: str = "", circuits: str = "[]") -> dict[str, str]:
    """The workshop panel with breakers of a rating, and words about its label."""
    old = 'breaker_interrupting = "10 kA"'
    text = SIDE.replace(old, f'breaker_interrupting = "{interrupting}"\n{more}').replace("= []", f"= {circuits}")
    return SPACE | {FIRST_ROUTE: text + FIRST_ROUTE}


SERIES = 'series_label = ["main M"]\nseries_rating = "22 kA"'


def test_pitfall_34_a_series_rating_holds_as_the_label_states_it() -> None:
    assert series(side("5 kA")).verdict == "fail"
    found = series(side("5 kA", SERIES))
    assert (found.verdict, found.clause.clause) == ("pass", "240.86")
    assert "main M" in found.condition
    assert series(side("5 kA", SERIES.replace("22 kA", "5 kA"))).verdict == "fail"
    assert series(side("5 kA", 'series_label = ["main M"]')).verdict == "cannot tell"


def test_pitfall_34_a_battery_on_the_busbar_ends_every_series_rating() -> None:
    found = check(wired(RAISED | {'breaker_interrupting = "10 kA"': LABEL}), "interrupting-rating/main")
    assert (found.verdict, found.clause.clause) == ("fail", "240.86")
    assert "battery 1 on its busbar drives current into it" in found.reason
    new = check(wired(RAISED | {'breaker_interrupting = "10 kA"': LABEL}), "interrupting-rating/battery-1/breaker")
    assert (new.verdict, new.clause.clause) == ("fail", "240.86")


def test_pitfall_34_motors_between_both_devices_count() -> None:
    def motor(amps: int) -> str:
        return (
            '[{ id = "saw", breaker = "20 A", poles = 2, state = "existing", spaces = [1, 2], '
            f'motor = {{ full_load = "{amps} A" }} }}]'
        )

    full = {"spaces = 4\nfree_spaces = 4": "spaces = 4\nfree_spaces = 2"}
    small = {key: value.replace(*next(iter(full.items()))) for key, value in side("5 kA", SERIES, motor(40)).items()}
    large = {key: value.replace(*next(iter(full.items()))) for key, value in side("5 kA", SERIES, motor(60)).items()}
    assert series(small).verdict == "pass"
    assert series(large).verdict == "fail"
    unsaid = {key: value.replace(', motor = { full_load = "40 A" }', "") for key, value in small.items()}
    assert series(unsaid).verdict == "cannot tell"


def test_a_slash_rating_is_for_its_lower_voltage_to_ground() -> None:
    slash = {'voltage = "240 V"': 'voltage = "240 V"\nvoltage_to_ground = "120 V"'}
    grounded = {'voltage = "240 V"\nservice': 'voltage = "240 V"\nvoltage_to_ground = "120 V"\nservice'}
    high = {'voltage = "240 V"\nservice': 'voltage = "240 V"\nvoltage_to_ground = "240 V"\nservice'}
    assert check(wired(grounded, breaker=slash), "device-slash/battery-1").verdict == "pass"
    assert check(wired(high, breaker=slash), "device-slash/battery-1").verdict == "fail"
    assert check(wired(None, breaker=slash), "device-slash/battery-1").verdict == "cannot tell"


def test_what_a_breaker_lets_through_is_compared_where_its_maker_states_it() -> None:
    def said(energy: str) -> dict[str, str]:
        return {"instantaneous = 10": f'instantaneous = 10\nlet_through = "{energy}"'}

    # 10 AWG: 5.26 mm2; (226 × 5.26)² × ln(384.5 / 309.5) = 306,600 A²s.
    held = check(wired(None, breaker=said("300000 A²s")), "let-through/battery-1/line")
    assert (held.verdict, held.demand is not None and round(held.demand.quantity, -2)) == ("pass", 306600)
    assert check(wired(None, breaker=said("310000 A²s")), "let-through/battery-1/ground").verdict == "fail"
    assert not [each.id for each in wired().checks if "let-through" in each.id]


def test_a_breaker_that_may_not_trip_at_once_fails() -> None:
    slow = {"instantaneous = 10": "instantaneous = 40"}
    assert check(wired(None, breaker=slow), "fault-trips/battery-1").verdict == "fail"
    assert check(wired(None, breaker={"instantaneous = 10\n": ""}), "fault-trips/battery-1").verdict == "cannot tell"


@settings(deadline=None, derandomize=True, max_examples=12)
@given(st.integers(1, 200), st.integers(0, 150), st.integers(1, 40))
def test_a_longer_run_never_carries_more_and_a_source_never_takes_any_away(feet: int, more: int, amps: int) -> None:
    def at(length: int, extra: dict[str, str]) -> Wiring:
        fixed = {"conductors = { material": 'conductors = { size = "8", material'}  # else a long run is made larger
        return wired({'length = "30 ft"': f'length = "{length} ft"', **fixed, **extra})

    near, far = at(feet, {}), at(feet + more, {})
    sun = at(feet, {FIRST_ROUTE: f'{SUN.replace("16", str(amps))}state = "existing"\n\n{FIRST_ROUTE}'})
    for place in near.levels:
        assert kiloamp(far, place) <= kiloamp(near, place) * (1 + 1e-12)
        assert kiloamp(sun, place) > kiloamp(near, place)
        assert near.levels[place].least.quantity <= near.levels[place].greatest.quantity
