"""Circuits of the invented terraced house under BS 7671: current, voltage, loops, devices, sources."""

import pytest
from terrace_job import BARE, TEXT, Swap, built, checks, circuit

from standfast.sheet import Check

SECTIONS = TEXT.partition("sections = [\n")[2].partition("]\n")[0]
"""The pieces of the run between isolator and board, as the demo has them."""


def sections(*rows: str) -> Swap:
    return SECTIONS, "".join(f"    {{ {row} }},\n" for row in rows)


def armoured(area: str) -> Swap:
    """The area of the cable between the isolator and the board, stated."""
    cable = 'cable = "90 °C thermosetting, armoured"\n'
    return f"{cable}mechanical", f'{cable}area = "{area}"\nmechanical'


def verdict(found: dict[str, Check], id: str) -> str:
    return found[id].verdict


def test_the_demo_passes_whatever_is_worked_out() -> None:
    found = checks()
    assert len(found) > 30
    assert {each.id: each.reason for each in found.values() if each.open} == {}


def test_every_check_names_a_clause_and_what_was_compared() -> None:
    for each in checks().values():
        assert each.clause.clause, each.id
        assert each.verdict == "not applicable" or each.demand is not None, each.id


def test_an_unstated_fact_is_never_a_pass() -> None:
    for gone, id in (
        ('loop_impedance = "0.21 ohm"\n', "wiring.disconnection/battery-1"),
        ('fault_current = "2.1 kA"\n', "wiring.breaking-capacity/battery-1"),
        ("own_electrode = true\n", "wiring.own-electrode"),
        ('electrode_resistance = "86 ohm"\n', "wiring.electrode-resistance"),
        ('approval = "invented-G99-2026-007"\n', "wiring.grid-notification"),
    ):
        assert checks((gone, ""))[id].verdict == "cannot tell", id


def test_an_earthing_that_nobody_stated_leaves_the_joints_untold_wherever_the_grid_is() -> None:
    told = checks(('earthing = "TN-C-S"\n', ""))
    bonds = {id: each.verdict for id, each in told.items() if id.startswith("wiring.neutral-bond/")}
    assert bonds.pop("wiring.neutral-bond/island") == "pass"
    assert set(bonds.values()) == {"cannot tell"}


# Pitfall 9: the worst place of a run, and factors of different places
def test_factors_of_different_places_are_not_multiplied() -> None:
    rest = 'length = "6 m", method = "C", in_insulation = "0 mm"'
    hot = f'id = "hot", {rest}, ambient = "45 °C", circuits_together = 1'
    crowd = (
        'id = "crowd", length = "6 m", method = "C", ambient = "30 °C", circuits_together = 4, in_insulation = "0 mm"'
    )
    both = f'id = "both", {rest}, ambient = "45 °C", circuits_together = 4'
    apart = circuit(built(sections(hot, crowd), armoured("10 mm2")))
    at_once = circuit(built(sections(both), armoured("10 mm2")))
    assert apart.I_z.quantity == pytest.approx(67 * 0.65)
    assert at_once.I_z.quantity == pytest.approx(67 * 0.79 * 0.65)


def test_the_reference_method_is_that_of_the_worst_section() -> None:
    free = 'id = "free", length = "6 m", method = "E", circuits_together = 1, in_insulation = "0 mm"'
    clipped = 'id = "clipped", length = "1 m", method = "C", circuits_together = 1, in_insulation = "0 mm"'
    found = circuit(built(sections(free, clipped)))
    assert found.method.word == "C"
    assert found.I_t.quantity == 49


INSULATED = {"0 mm": 1, "30 mm": 0.88, "60 mm": 0.78, "200 mm": 0.63, "350 mm": 0.51, "401 mm": 0.5, "2 m": 0.5}


@pytest.mark.parametrize(("length", "factor"), INSULATED.items())
def test_thermal_insulation_by_its_length(length: str, factor: float) -> None:
    row = f'id = "one", length = "6 m", method = "C", circuits_together = 1, in_insulation = "{length}"'
    assert circuit(built(sections(row))).factors["insulation"].quantity == factor


def test_circuits_that_are_hardly_loaded_do_not_count_for_grouping() -> None:
    row = 'id = "one", length = "6 m", method = "C", circuits_together = 4, circuits_light = {}, in_insulation = "0 mm"'
    factors = [circuit(built(sections(row.format(light)))).factors["grouping"].quantity for light in (0, 2, 3)]
    assert factors == [0.65, 0.8, 1]
    assert circuit(built(sections(row.format(4)))).I_z.missing


def test_cables_for_90_degrees_are_taken_at_what_terminals_bear() -> None:
    row = 'id = "one", length = "6 m", method = "C", circuits_together = 1, in_insulation = "0 mm"'
    assert circuit(built(sections(row))).I_t.quantity == 49


def test_a_device_larger_than_the_cable_carries_fails() -> None:
    swap = ('area = "10 mm2"', 'area = "4 mm2"')
    found = checks(swap)["wiring.cable-current/backup-feeder"]
    assert found.verdict == "fail"
    assert found.limit is not None
    assert found.limit.quantity == 37


def test_a_cable_that_its_table_does_not_hold_is_not_guessed() -> None:
    found = checks(('area = "10 mm2"', 'area = "11 mm2"'))
    assert verdict(found, "wiring.cable-current/backup-feeder") == "cannot tell"


def test_flat_cable_in_trunking_has_no_row() -> None:
    found = checks(('area = "10 mm2"\nmethod = "C"', 'area = "10 mm2"\nmethod = "B"'))
    assert verdict(found, "wiring.cable-current/backup-feeder") == "cannot tell"


# Pitfall 46: voltage rise of the inverter
def test_voltage_rises_from_the_origin_along_the_feeder_too() -> None:
    found = built()
    assert circuit(found).rise is not None
    far, near = circuit(found).rise, circuit(found, "backup-feeder").rise
    assert far is not None
    assert near is not None
    assert far.quantity > near.quantity > 0


def test_a_long_run_grows_until_the_rise_is_kept() -> None:
    short = circuit(built()).area.quantity
    longer = circuit(built(('length = "14 m"', 'length = "40 m"')))
    assert longer.area.quantity > short
    assert longer.rise is not None
    assert longer.rise.quantity <= 2


def test_a_stated_area_that_lets_the_voltage_rise_fails() -> None:
    found = checks(('length = "14 m"', 'length = "60 m"'), armoured("6 mm2"))
    assert verdict(found, "wiring.voltage-rise/battery-1") == "fail"


# 551.7.2
def test_an_assembly_too_small_for_its_sources_fails() -> None:
    found = checks(('service = "80 A"', 'service = "100 A"'))["wiring.assembly-rating/main"]
    assert found.verdict == "fail"
    assert found.limit is not None
    assert found.limit.quantity == pytest.approx(100 + 16 + 21.7)


def test_a_source_that_is_there_counts_and_one_more_never_asks_for_less() -> None:
    with_pv = built().assemblies["main"].quantity
    row = ', source_output = "16 A"'
    without = built((row, "")).assemblies["main"].quantity
    assert with_pv == pytest.approx(without + 16)


# Pitfall 65
def test_a_residual_device_fed_backwards_has_to_be_made_for_it() -> None:
    one_way = ("bidirectional = true }, source_output", "bidirectional = false }, source_output")
    assert verdict(checks(one_way), "wiring.residual-direction/main/pv") == "fail"
    assert verdict(checks(of_sheets=(("backfeed = true\nspaces", "backfeed = false\nspaces"),)),
                   "wiring.residual-direction/battery-1") == "fail"  # fmt: skip
    unsaid = checks(of_sheets=(("backfeed = true\nspaces", "spaces"),))
    assert verdict(unsaid, "wiring.residual-direction/battery-1") == "cannot tell"


def test_the_clause_on_direction_is_of_the_amendment_from_2024_on() -> None:
    id = "wiring.residual-direction/battery-1"
    assert checks()[id].clause.clause == "530.3.201"
    assert checks(codes="uk-2022")[id].clause.clause != "530.3.201"


# Pitfall 64
@pytest.mark.parametrize(("asked", "there", "told"), [
    ("A", "A", "pass"), ("A", "F", "pass"), ("B", "B", "pass"),
    ("B", "A", "fail"), ("F", "A", "fail"), ("A", "AC", "fail"),
])  # fmt: skip
def test_the_type_of_residual_device_that_the_inverter_asks(asked: str, there: str, told: str) -> None:
    found = checks(of_sheets=(('residual_device = "A"', f'residual_device = "{asked}"'),
                              ('residual = "A"', f'residual = "{there}"')))  # fmt: skip
    assert verdict(found, "wiring.residual-type/battery-1") == told


# Pitfalls 60 and 61
def test_loop_impedance_is_taken_warm_once_and_a_cold_reading_is_put_to_the_lower_limit_once() -> None:
    found = built()
    feeder = circuit(found, "backup-feeder")
    assert feeder.r_12.quantity == pytest.approx((1.83 + 4.61) * 1.2 * 2.2 / 1000)
    assert feeder.loop.grid.quantity == pytest.approx(0.21 + feeder.r_12.quantity)
    kitchen = checks()["wiring.disconnection/backup/kitchen"]
    assert kitchen.limit is not None
    assert kitchen.limit.quantity == pytest.approx(0.8 * 230 * 0.95 / (5 * 20))
    assert kitchen.demand is not None
    assert kitchen.demand.quantity == 0.62


def test_a_loop_that_is_too_high_for_the_breaker_rests_on_the_residual_device_and_says_so() -> None:
    swap = ('loop = "0.62 ohm"', 'loop = "3.0 ohm"')
    found = checks(swap)["wiring.disconnection/backup/kitchen"]
    assert (found.verdict, bool(found.condition)) == ("pass", True)
    assert checks(swap, BARE)["wiring.disconnection/backup/kitchen"].verdict == "fail"


# Pitfall 62
def test_the_protective_conductor_is_judged_by_what_the_breaker_lets_through() -> None:
    found = checks()["wiring.protective-conductor/battery-1"]
    assert found.verdict == "pass"
    assert found.limit is not None
    assert found.limit.quantity == pytest.approx(45000**0.5 / 143)


def test_a_bound_on_the_energy_let_through_may_pass_and_never_fails() -> None:
    small = ('area = "10 mm2"', 'area = "6 mm2"')
    assert verdict(checks(small), "wiring.protective-conductor/backup-feeder") == "cannot tell"


def test_a_breaker_that_cannot_break_the_fault_fails() -> None:
    found = checks(('fault_current = "2.1 kA"', 'fault_current = "7 kA"'))
    assert verdict(found, "wiring.breaking-capacity/battery-1") == "fail"


def test_a_breaker_above_what_the_maker_allows_fails() -> None:
    found = checks(of_sheets=(('max_overcurrent_device = "32 A"', 'max_overcurrent_device = "25 A"'),))
    assert verdict(found, "wiring.device-maker-maximum/battery-1") == "fail"


def test_an_isolator_that_cannot_be_locked_fails() -> None:
    found = checks(of_sheets=(("lockable_open = true", "lockable_open = false"),))
    assert verdict(found, "wiring.isolation/battery-1") == "fail"


# Bad input: cannot tell, never a crash and never a pass of what hangs on it
BAD = {
    "a reading of nothing": (('loop = "0.62 ohm", r1_r2 = "0.38 ohm"', 'loop = "0 ohm", r1_r2 = "0 ohm"'), None),
    "a supply without impedance": (('loop_impedance = "0.21 ohm"', 'loop_impedance = "0 ohm"'), None),
    "a feeder without a rating": (
        ('breaker = "40 A", poles = 2', 'breaker = "0 A", poles = 2'), "wiring.disconnection/backup-feeder",
    ),
    "a panel that nothing feeds": (('fed_from = "main"\n', ""), "wiring.disconnection/feed of backup"),
    "a fuse in place of a breaker": (
        ('device = "breaker", curve = "B", state = "new"', 'device = "fuse", state = "new"'),
        "wiring.disconnection/backup-feeder",
    ),
    "two cables in one circuit": (
        ('cable = "90 °C thermosetting, armoured"\nmethod', 'cable = "70 °C thermoplastic, multicore"\nmethod'),
        "wiring.cable-current/battery-1",
    ),
    "air hotter than any table": (
        ('ambient = "30 °C"\nwet = false', 'ambient = "75 °C"\nwet = false'), "wiring.cable-current/backup-feeder",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("swap", "id"), BAD.values(), ids=BAD)
def test_bad_input_is_told_and_never_crashes(swap: Swap, id: str | None) -> None:
    found = checks(swap)
    assert len(found) > 30
    assert id is None or found[id].verdict == "cannot tell"


def test_an_inverter_that_drives_nothing_leaves_its_loops_open() -> None:
    found = built(of_sheets=(('island_fault_current = "45 A"', 'island_fault_current = "0 A"'),))
    assert all(each.loop.island is not None and each.loop.island.missing for each in found.finals)


def test_a_plain_breaker_where_the_maker_asks_for_a_residual_device_fails() -> None:
    device = 'device = "{}", source_output = "21.7 A"'
    found = checks((device.format("breaker with residual current device"), device.format("breaker")))
    assert found["wiring.residual-type/battery-1"].verdict == "fail"
    assert found["wiring.residual-direction/battery-1"].verdict == "not applicable"
