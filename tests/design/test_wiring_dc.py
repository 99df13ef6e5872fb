"""The DC circuit between battery and inverter: what is chosen, and what each check says when a sheet changes."""

from functools import cache

import pytest
from dc_job import CABINET, STACK, Changes, asked, planned, task_of

from standfast.design.wiring import dc
from standfast.equipment.read import shipped
from standfast.rulebooks.nfpa70 import sizes
from standfast.sheet import Check
from standfast.shelf import edition


def verdict(ids: dict[str, str], id: str, job: Changes | None = None, **sheets: Changes | None) -> str:
    return asked(ids, job, **sheets)[id].verdict


def test_the_cabinet_has_two_conductors_to_a_pole() -> None:
    found = planned(CABINET)
    # The inverter: 6,700 W / (0.93 × 44.8 V) = 160.8 A; its maker says 172 A. The battery's nameplate: 180 A.
    assert found.drawn.quantity == 172
    assert found.current.quantity == 180
    # 1.25 × 180 A = 225 A: a fuse of 225 A. Lugs to 2/0 carry 175 A at 75 °C, so one conductor is not enough.
    assert found.device.quantity == 225
    assert (found.sets.quantity, found.circuit.conductor.size.word) == (2, "1/0")
    # 2 × 150 A at the terminals; four conductors in the raceway, 0.8: 2 × 170 A × 0.8 = 272 A.
    assert found.circuit.conductor.carried.at_terminations.quantity == 300
    assert found.circuit.conductor.carried.after_factors.quantity == pytest.approx(272)
    # 250.122: up to 300 A, 4 AWG copper, full size in the raceway.
    assert found.circuit.ground.word == "4"
    # 2 × 180 A × 0.061 ohm/kft × 8.8 ft / 1000 = 0.1932 V; of 44.8 V that is 0.431 %.
    assert found.drop.volts.quantity == pytest.approx(0.193248)
    assert found.drop.percent.quantity == pytest.approx(0.43136, abs=1e-5)


def test_the_raceway_of_the_cabinet_holds_five_conductors() -> None:
    # 4 × 0.1855 in2 + 1 × 0.0824 in2 = 0.8244 in2: beyond 40 % of 1-1/2 EMT (0.814 in2), so 2 in.
    tube = planned(CABINET).circuit.raceways[0]
    assert tube.area.quantity == pytest.approx(4 * 0.1855 + 0.0824)
    assert tube.trade_size.word == "2"


def test_the_stack_is_protected_by_its_own_device() -> None:
    found = planned(STACK)
    # 1.25 × 45 A = 56.25 A; the device of the stack is 60 A and decides: 6 AWG carries 65 A at 75 °C.
    assert found.inside
    assert found.device.quantity == 60
    assert (found.sets.quantity, found.circuit.conductor.size.word, found.circuit.ground.word) == (1, "6", "10")


@pytest.mark.parametrize("ids", [CABINET, STACK])
def test_both_systems_pass(ids: dict[str, str]) -> None:
    found = {id: check for id, check in asked(ids).items() if "roof" not in id}
    assert [id for id, check in found.items() if check.open] == []
    assert len(found) > 35


def test_a_disconnect_that_is_not_known_lets_the_lowest_column_decide() -> None:
    # 60 °C: 6 AWG carries 55 A, 4 AWG 70 A.
    assert planned(STACK, dc_disconnect=None).circuit.conductor.size.word == "4"
    found = asked(STACK, dc_disconnect=None)
    assert found["terminal-range/battery-1-dc/dc-disconnect/dc"].verdict == "cannot tell"
    assert found["dc-disconnect-place/battery-1"].verdict == "pass"  # that of the stack itself
    assert found["dc-disconnect-rating/battery-1"].verdict == "not applicable"


FAULTY = [
    # voltage windows apart
    ("dc-voltage-low", {"inverter": {'voltage_min = "42 V"': 'voltage_min = "46 V"'}}, "110.3(B)"),
    ("dc-voltage-high", {"inverter": {'voltage_max = "62 V"': 'voltage_max = "56 V"'}}, "110.4"),
    # currents
    ("dc-discharge", {"battery": {'discharge_current = "180 A"': 'discharge_current = "150 A"'}}, "110.3(B)"),
    ("dc-charge", {"battery": {'charge_current = "150 A"': 'charge_current = "100 A"'}}, "110.3(B)"),
    ("dc-fault", {"inverter": {'short_circuit_rating = "20 kA"': 'short_circuit_rating = "5 kA"'}}, "110.10"),
    ("dc-grounding", {"inverter": {'grounding = "ungrounded"': 'grounding = "negative grounded"'}}, "110.3(B)"),
    ("dc-ground-fault", {"inverter": {"fault_detection = true": "fault_detection = false"}}, "250.167"),
    # device
    ("dc-overcurrent-rating", {"battery": {'discharge_current = "180 A"': 'discharge_current = "240 A"'}}, "706.31(B)"),
    ("dc-overcurrent-maker", {"inverter": {'max_overcurrent_device = "250 A"': 'max_overcurrent_device = "200 A"'}},
     "110.3(B)"),
    ("dc-overcurrent-voltage", {"dc_overcurrent": {'dc_voltage = "125 V"': 'dc_voltage = "48 V"'}}, "706.31(C)"),
    ("dc-overcurrent-direction", {"dc_overcurrent": {"dc_polarised = false": "dc_polarised = true"}}, "706.31(C)"),
    ("dc-overcurrent-poles", {"dc_overcurrent": {"poles = 2": "poles = 1"}}, "240.15(A)"),
    ("dc-interrupting", {"dc_overcurrent": {'dc_interrupting = "20 kA"': 'dc_interrupting = "5 kA"'}}, "706.31(C)"),
    ("dc-overcurrent-series", {"dc_overcurrent": {"dc_poles_in_series = 1": "dc_poles_in_series = 4"}}, "706.31(C)"),
    ("dc-overcurrent-limiting", {"dc_overcurrent": {"current_limiting = true": "current_limiting = false"}},
     "706.31(D)"),
    ("dc-precharge", {"battery": {'precharge = "built in"': 'precharge = "none"'}}, "110.3(B)"),
    # disconnect
    ("dc-disconnect-series", {"dc_disconnect": {"dc_poles_in_series = 2": "dc_poles_in_series = 4"}}, "706.31(C)"),
    ("dc-disconnect-rating", {"dc_disconnect": {'ratings = ["250 A"]': 'ratings = ["200 A"]'}}, "706.15(A)"),
    ("dc-disconnect-voltage", {"dc_disconnect": {'dc_voltage = "125 V"': 'dc_voltage = "48 V"'}}, "706.31(C)"),
    ("dc-disconnect-load", {"dc_disconnect": {"load_break = true": "load_break = false"}}, "706.15(A)"),
    ("dc-disconnect-direction", {"dc_disconnect": {"dc_polarised = false": "dc_polarised = true"}}, "706.31(C)"),
    ("dc-disconnect-fault", {"dc_disconnect": {'short_circuit_rating = "20 kA"': 'short_circuit_rating = "5 kA"'}},
     "110.10"),
]  # fmt: skip


@pytest.mark.parametrize(("id", "sheets", "clause"), FAULTY, ids=[each[0] for each in FAULTY])
def test_what_does_not_fit_together_fails_with_its_clause(id: str, sheets: dict[str, Changes], clause: str) -> None:
    found = asked(CABINET, **sheets)[f"{id}/battery-1"]
    assert found.verdict == "fail"
    assert str(found.clause) == f"NEC 2023 {clause}"


MISSING = [
    ("dc-voltage-low", {"battery": {'voltage_min = "44.8 V"': ""}}, "dc.voltage_min"),
    ("dc-voltage-high", {"inverter": {'voltage_max = "62 V"': ""}}, "dc.voltage_max"),
    ("dc-charge", {"inverter": {'charge_current = "110 A"': ""}}, "dc.charge_current"),
    ("dc-overcurrent-voltage", {"dc_overcurrent": {'dc_voltage = "125 V"': ""}}, "switch.dc_voltage"),
    ("dc-overcurrent-direction", {"dc_overcurrent": {"dc_polarised = false": ""}}, "switch.dc_polarised"),
    ("dc-interrupting", {"battery": {'short_circuit_current = "8.4 kA"\ninternal_resistance = "7.2 mohm"': ""}},
     "dc.short_circuit_current"),
    ("dc-overcurrent-series", {"dc_overcurrent": {"dc_poles_in_series = 1": ""}}, "switch.dc_poles_in_series"),
    ("dc-overcurrent-limiting", {"dc_overcurrent": {"current_limiting = true": ""}}, "switch.current_limiting"),
    ("dc-precharge", {"battery": {'precharge = "built in"': ""}}, "dc.precharge"),
    ("dc-discharge-wait", {"inverter": {'discharge_time = "5 min"': ""}}, "dc.discharge_time"),
    ("dc-discharge-wait", {"inverter": {"capacitance_charged = true": ""}}, "dc.capacitance_charged"),
    ("dc-disconnect-load", {"dc_disconnect": {"load_break = true": ""}}, "switch.load_break"),
    ("dc-overcurrent-rating", {"dc_overcurrent": None}, "equipment.dc_overcurrent"),
    ("dc-terminations", {"dc_overcurrent": None}, "equipment.dc_overcurrent"),
    ("dc-disconnect-rating", {"dc_disconnect": None}, "equipment.dc_disconnect"),
    ("dc-discharge", {"inverter": None}, "equipment.inverter"),
]  # fmt: skip


@pytest.mark.parametrize(("id", "sheets", "word"), MISSING, ids=[f"{each[0]} {each[2]}" for each in MISSING])
def test_a_missing_fact_is_never_a_pass_and_names_its_word(
    id: str, sheets: dict[str, Changes | None], word: str
) -> None:  # fmt: skip
    found = asked(CABINET, **sheets)[f"{id}/battery-1"]
    assert found.verdict == "cannot tell"
    assert word in found.reason


def test_no_route_is_told_and_the_rest_is_asked() -> None:
    elsewhere = {'from = "dc-disconnect"\nto = "inverter"': 'from = "dc-disconnect"\nto = "battery"'}
    found = asked(CABINET, elsewhere)
    assert found["dc-terminations/battery-1"].verdict == "cannot tell"
    assert "routes" in found["dc-terminations/battery-1"].reason
    assert found["dc-voltage-low/battery-1"].verdict == "pass"


def test_how_far_unfused_conductors_run_is_told() -> None:
    found = asked(CABINET)["dc-overcurrent-place/battery-1"]
    assert found.verdict == "pass"
    assert found.demand is not None
    assert (found.demand.quantity, found.demand.unit) == (pytest.approx(5.5), "ft")  # 5 ft and 10 %
    assert "authority judges" in found.condition
    assert asked(STACK)["dc-overcurrent-place/battery-1"].verdict == "not applicable"


@pytest.mark.parametrize(
    ("job", "verdict", "word"),
    [
        ({'to = "fuse"': 'to = "dc-disconnect"'}, "cannot tell", 'the run from battery-1 to "fuse"'),
        ({'length = "5 ft"\nambient = "86 °F"\nwet = false\nraceway = "emt"\nother_current_carrying = 0\n'
          'state = "new"\n\n[[routes]]\nid = "dc-fuse"': '\n[[routes]]\nid = "dc-fuse"'},
         "cannot tell", "routes.dc-battery.length"),
        ({'to = "fuse"': 'to = "dc-disconnect"', 'from = "dc-disconnect"\nto = "inverter"':
          'from = "fuse"\nto = "inverter"'}, "fail", "nothing protects"),
    ],
    ids=["no route to it", "no length", "behind the disconnect"],
)  # fmt: skip
def test_a_fuse_without_place_or_behind_another_device_is_told(job: dict[str, str], verdict: str, word: str) -> None:
    found = asked(CABINET, job)["dc-overcurrent-place/battery-1"]
    assert found.verdict == verdict
    assert word in found.reason


def test_two_batteries_on_one_port_fail() -> None:
    assert verdict(CABINET, "dc-ports/inverter-1", {"quantity = 1": "quantity = 2"}) == "fail"


def test_a_run_that_two_batteries_share_is_not_passed() -> None:
    second = """[[routes]]
id = "dc-second"
from = "battery-2"
to = "dc-disconnect"
length = "9 ft"

[[routes]]
id = "dc-battery"
from = "battery-1"
"""
    two = {"quantity = 1": "quantity = 2", '[[routes]]\nid = "dc-battery"\nfrom = "battery"\n': second}
    found = asked(CABINET, two)["dc-shared/battery-1"]
    assert found.verdict == "cannot tell"
    assert "routes.dc-inverter" in found.reason


def test_lugs_of_an_inverter_are_shared_by_its_ports() -> None:
    found = asked(CABINET, inverter={"ports = 1": "ports = 2"})["dc-lugs/battery-1/inverter"]
    assert found.limit is not None
    assert found.limit.quantity == 1  # four lugs, two ports, plus and minus


def test_lugs_of_plus_and_minus_may_stand_apart_in_the_sheet() -> None:
    whole = 'name = "Battery plus, battery minus: two lugs each"\nuse = "dc"'
    part = 'use = "dc"\ncount = 2\n[[terminals]]\nid = "dc-minus"\nuse = "dc"'
    apart = {whole: part, 'bending_space = "8 in"\ncount = 4': 'bending_space = "8 in"\ncount = 2'}
    found = asked(CABINET, battery=apart)["dc-lugs/battery-1/battery"]
    assert found.limit is not None
    assert found.limit.quantity == 2


def test_a_battery_and_an_inverter_of_two_worlds_fail_with_their_clauses() -> None:
    found = asked({**STACK, "inverter": "demo-inverter-48"})
    failing = {id: str(check.clause) for id, check in found.items() if check.verdict == "fail" and "battery" in id}
    assert failing["dc-voltage-high/battery-1"] == "NEC 2023 110.4"  # 270 V on a port for 62 V
    assert failing["dc-discharge/battery-1"] == "NEC 2023 110.3(B)"  # 172 A of a battery that gives 45 A
    assert failing["dc-charge/battery-1"] == "NEC 2023 110.3(B)"
    assert "dc-overcurrent-rating/battery-1" in failing


@cache
def whole(battery: str) -> dict[str, Check]:
    """Every check of the system of a battery as it is."""
    return asked(next(ids for ids in (CABINET, STACK) if ids["battery"] == battery))


def facts(id: str) -> list[str]:
    """The lines of a sheet that state what the DC circuit needs."""
    blocks = [
        block for block in shipped()[id].split("\n\n") if "[dc]" in block or "[switch]" in block or '"dc"' in block
    ]
    lines = [line for block in blocks for line in block.splitlines() if "=" in line]
    return [line for line in dict.fromkeys(lines) if not line.startswith(("id =", "use =", "#"))]


@pytest.mark.parametrize(
    ("ids", "role", "line"),
    [(ids, role, line) for ids in (CABINET, STACK) for role, id in ids.items() for line in facts(id)],
)
def test_no_fact_that_is_taken_out_turns_a_check_into_a_pass(ids: dict[str, str], role: str, line: str) -> None:
    before, after = whole(ids["battery"]), asked(ids, None, **{role: {f"{line}\n": ""}})
    for id, check in after.items():
        if check.verdict == "pass":
            assert before[id].verdict == "pass" or before[id].verdict == "not applicable"
        assert check.verdict != "fail" or before[id].verdict == "fail", (id, check.reason)


def test_a_second_device_is_not_passed_over() -> None:
    found = asked({**STACK, "dc_overcurrent": "demo-fuse-250"})["dc-overcurrent-second/battery-1"]
    assert found.verdict == "cannot tell"
    assert "equipment.dc_overcurrent" in found.reason


def test_a_battery_of_direct_current_asks_for_an_inverter() -> None:
    without = {'inverter = "the-inverter"\n': ""}
    found = list(dc.checks(task_of(CABINET, without, inverter=None), "battery-1"))
    assert [(each.id, each.verdict) for each in found] == [("wiring.dc-inverter/battery-1", "cannot tell")]
    assert "equipment.inverter" in found[0].reason


def test_one_set_where_the_terminals_take_it() -> None:
    large = {'wire_max = "2/0"': 'wire_max = "4/0"'}
    found = planned(CABINET, battery=large, inverter=large)
    # 4/0 copper carries 230 A at 75 °C: at least 225 A.
    assert (found.sets.quantity, found.circuit.conductor.size.word) == (1, "4/0")


def test_too_few_lugs_leave_no_way() -> None:
    single = {'count = 4\n\n[[terminals]]\nid = "ground"': 'count = 2\n\n[[terminals]]\nid = "ground"'}
    found = asked(CABINET, battery=single)
    # One lug to a pole: 4/0 carries the current and no lug takes it.
    assert found["terminal-range/battery-1-dc/battery/dc"].verdict == "fail"
    assert found["dc-lugs/battery-1/battery"].verdict == "pass"


def test_sets_that_the_job_fixes_are_judged_by_the_same_rules() -> None:
    three = {'raceway = "emt"\nother_current_carrying = 0\nstate = "new"\n\n[[routes]]\nid = "dc-inverter"':
             'raceway = "emt"\nother_current_carrying = 0\nstate = "new"\n'
             'conductors = { size = "2", sets = 3 }\n\n[[routes]]\nid = "dc-inverter"'}  # fmt: skip
    found = asked(CABINET, three)
    assert found["dc-parallel/battery-1"].verdict == "fail"  # 2 AWG is below 1/0
    assert found["dc-lugs/battery-1/battery"].verdict == "fail"  # three conductors, two lugs
    assert found["dc-ampacity/battery-1"].verdict == "cannot tell"
    assert "1/0" in found["dc-ampacity/battery-1"].reason


def test_a_size_that_the_job_fixes_is_run_as_often_as_it_takes() -> None:
    fixed = {'length = "5 ft"': 'length = "5 ft"\nconductors = { size = "2/0" }'}
    found = planned(CABINET, fixed)
    # 2/0 carries 175 A at 75 °C: 225 A take two.
    assert (found.sets.quantity, found.circuit.conductor.size.word) == (2, "2/0")
    large = {'wire_max = "2/0"': 'wire_max = "4/0"'}
    once = {'length = "5 ft"': 'length = "5 ft"\nconductors = { size = "4/0" }'}
    assert planned(CABINET, once, battery=large, inverter=large).sets.quantity == 1
    small = {'length = "5 ft"': 'length = "5 ft"\nconductors = { size = "2" }'}
    # 2 AWG may not be joined in parallel: one, which does not carry the current.
    assert planned(CABINET, small).sets.quantity == 1
    assert verdict(CABINET, "dc-terminations/battery-1", small) == "fail"


def test_a_long_run_takes_larger_conductors_and_a_larger_ground() -> None:
    far = {'length = "5 ft"': 'length = "60 ft"'}
    found = planned(STACK, far)
    # 6 AWG: 2 × 45 A × 0.491 × 69.3 ft / 1000 = 3.06 V, 1.49 % of 206 V: still within 2 %.
    assert found.circuit.conductor.size.word == "6"
    further = planned(STACK, {'length = "5 ft"': 'length = "100 ft"'})
    # 6 AWG at 113.3 ft: 5.007 V, 2.43 %. 4 AWG: 2 × 45 × 0.308 × 113.3 / 1000 = 3.141 V, 1.52 %.
    assert further.circuit.conductor.size.word == "4"
    assert further.drop.percent.quantity == pytest.approx(100 * 2 * 45 * 0.308 * 113.3 / 1000 / 206)
    # The ground grows with it: 10,380 × 41,740 / 26,240 = 16,511 circular mils, one more than 8 AWG has: 6 AWG.
    assert further.circuit.ground.word == "6"


def test_the_lowest_voltage_of_the_battery_decides_not_that_of_the_inverter() -> None:
    silent = {'discharge_current = "172 A"': ""}
    # 6,700 / (0.93 × 44.8) = 160.8 A; at the 42 V of the inverter's window it would be 171.5 A.
    assert planned(CABINET, inverter=silent).drawn.quantity == pytest.approx(160.81, abs=0.005)


def test_under_an_edition_that_lacks_the_rules_nothing_passes_over_in_silence() -> None:
    task = task_of(CABINET, nec=edition("nfpa70", "2020"))
    found = {each.id: each for each in dc.checks(task, "battery-1")}
    assert found["wiring.unstated-dc-overcurrent/battery-1"].verdict == "cannot tell"
    assert found["wiring.dc-voltage-high/battery-1"].verdict == "pass"


def test_sizes_are_not_below_1_0_in_parallel() -> None:
    found = planned(CABINET)
    assert sizes.not_smaller(edition("nfpa70", "2023"), found.circuit.conductor.size.word, "1/0")
