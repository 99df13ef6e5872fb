"""Faults and arcs of direct current: what batteries drive, who feeds back, what stays charged, what an arc can do."""

import math

import pytest
from dc_job import CABINET, STACK, Changes, asked, planned, task_of
from wiring_job import NEC

from standfast.design.wiring import dc, dc_capacitors, dc_fault, dc_partition
from standfast.design.wiring.dc_arc import ArcFlash, flashes
from standfast.faults import OutsideTable
from standfast.rulebooks.handbook import battery_fault
from standfast.rulebooks.nfpa70e import dc_arc
from standfast.sheet import Value, given
from standfast.shelf import edition

HANDBOOK, SAFETY, PAPERS = edition("handbook", "2026"), edition("nfpa70e", "undated"), edition("dc_arcs", "2010")
STATED = 'short_circuit_current = "8.4 kA"\n'
INSIDE = 'internal_resistance = "7.2 mohm"\n'
THREE: Changes = {"quantity = 1": "quantity = 3", 'from = "battery"': 'from = "battery-1"',
                  'to = "fuse"': 'to = "fuse-1"', 'from = "fuse"': 'from = "fuse-1"'}  # fmt: skip


def of(number: float, unit: str) -> Value:
    return given("x", number, unit, "test")


def arcs(ids: dict[str, str], **sheets: Changes | None) -> list[ArcFlash]:
    task = task_of(ids, None, NEC, **sheets)
    return list(flashes(task, SAFETY, PAPERS, dc.plans(task)))


@pytest.mark.parametrize(
    ("id", "role", "change"),
    [
        ("dc-overcurrent-voltage", "dc_overcurrent", {'dc_voltage = "125 V"': 'voltage = "125 V"'}),
        ("dc-interrupting", "dc_overcurrent", {'dc_interrupting = "20 kA"': 'interrupting = "20 kA"'}),
        ("dc-overcurrent-direction", "dc_overcurrent", {"dc_polarised = false": ""}),
        ("dc-overcurrent-series", "dc_overcurrent", {"dc_poles_in_series = 1": ""}),
    ],
)
def test_pitfall_38_marks_for_alternating_current_say_nothing_of_direct_current(
    id: str, role: str, change: Changes
) -> None:
    assert asked(CABINET, **{role: change})[f"{id}/battery-1"].verdict == "cannot tell"


def test_pitfall_38_a_polarised_device_fails_and_so_does_one_with_too_few_poles_for_its_voltage() -> None:
    polarised = asked(CABINET, dc_overcurrent={"dc_polarised = false": "dc_polarised = true"})
    assert polarised["dc-overcurrent-direction/battery-1"].verdict == "fail"
    short = asked(CABINET, dc_overcurrent={"dc_poles_in_series = 1": "dc_poles_in_series = 3"})
    assert short["dc-overcurrent-series/battery-1"].verdict == "fail"


def test_pitfall_39_the_fault_of_a_battery_is_its_voltage_over_everything_in_the_loop() -> None:
    # 57.6 V; 7.2 mohm inside; 2.7 ft twice of 2 × 1/0 at 20 °C: 2 × 4.5 ft × 0.061 × 254.5 / 309.5 = 0.4515 mohm.
    found = planned(CABINET, battery={STATED: ""}).fault.quantity
    assert found == pytest.approx(57.6 / (7.2 + 2 * 4.5 * 0.061 * 254.5 / 309.5))
    # Both stated: the greater counts. Neither: it cannot be told.
    assert planned(CABINET).fault.quantity == 8.4
    assert planned(CABINET, battery={INSIDE: ""}).fault.quantity == 8.4
    neither = asked(CABINET, battery={STATED: "", INSIDE: ""})["dc-interrupting/battery-1"]
    assert neither.verdict == "cannot tell"
    assert "dc.internal_resistance" in neither.reason


def test_pitfall_39_every_other_battery_feeds_back() -> None:
    joined = {"ports = 1": "ports = 3\nports_joined = true"}
    three = planned(CABINET, THREE, inverter=joined)
    assert three.fault.quantity == pytest.approx(2 * 8.4)
    apart = {"ports = 1": "ports = 3\nports_joined = false"}
    assert planned(CABINET, THREE, inverter=apart).fault.quantity == 8.4
    assert planned(CABINET, THREE, inverter={"ports = 1": "ports = 3"}).fault.missing


def test_pitfall_40_other_batteries_on_the_same_busbar_ask_for_a_device_at_that_end_too() -> None:
    def verdict(ports: str) -> str:
        return asked(CABINET, THREE, inverter={"ports = 1": f"ports = 3\n{ports}"})["dc-fed-back/battery-1"].verdict

    assert verdict("ports_joined = true") == "fail"
    assert verdict("ports_joined = false") == "pass"
    assert verdict("") == "cannot tell"
    assert asked(CABINET)["dc-fed-back/battery-1"].verdict == "not applicable"


def test_pitfall_40_the_device_is_at_the_end_of_the_battery() -> None:
    found = asked(CABINET)["dc-overcurrent-place/battery-1"]
    assert (found.verdict, found.demand is not None and found.demand.unit) == ("pass", "ft")


def test_pitfall_41_the_charged_battery_decides_the_voltage_of_every_device() -> None:
    between = {'dc_voltage = "125 V"': 'dc_voltage = "52 V"'}  # above 51.2 V, below 57.6 V
    assert asked(CABINET, dc_overcurrent=between)["dc-overcurrent-voltage/battery-1"].verdict == "fail"
    assert asked(CABINET, dc_disconnect=between)["dc-disconnect-voltage/battery-1"].verdict == "fail"


def test_pitfall_42_both_conductors_count_for_the_drop() -> None:
    found = planned(CABINET).drop
    assert found.volts.quantity == pytest.approx(2 * 180 * 0.061 * 8.8 / 1000)
    assert found.percent.quantity == pytest.approx(100 * found.volts.quantity / 44.8)


def test_pitfall_43_an_ungrounded_battery_has_its_ground_faults_detected() -> None:
    assert asked(CABINET)["dc-ground-fault/battery-1"].verdict == "pass"
    blind = {"fault_detection = true": "fault_detection = false"}
    assert asked(CABINET, inverter=blind)["dc-ground-fault/battery-1"].verdict == "fail"


def test_pitfall_44_a_disconnect_breaks_under_load_at_its_voltage_in_every_pole() -> None:
    found = asked(CABINET)
    for word in ("load", "voltage", "poles", "series", "direction", "fault"):
        assert found[f"dc-disconnect-{word}/battery-1"].verdict == "pass", word


def test_capacitors_are_charged_softly_or_by_hand_or_it_fails() -> None:
    by_hand = asked(CABINET, battery={'precharge = "built in"': 'precharge = "by hand"'})["dc-precharge/battery-1"]
    assert by_hand.verdict == "pass"
    assert "each time" in by_hand.condition
    neither = asked(CABINET, battery={'precharge = "built in"': 'precharge = "none"'})["dc-precharge/battery-1"]
    assert neither.verdict == "fail"


def test_the_longest_wait_of_both_counts() -> None:
    waits = asked(CABINET)["dc-discharge-wait/battery-1"]
    assert "wait 5 min" in waits.condition
    both: Changes = {"capacitance_charged = false": 'capacitance_charged = true\ndischarge_time = "8 min"'}
    longest = dc_capacitors.wait(task_of(CABINET, battery=both))
    assert longest is not None
    assert longest.quantity == 480
    none = asked(CABINET, inverter={"capacitance_charged = true": "capacitance_charged = false"})
    assert none["dc-discharge-wait/battery-1"].verdict == "not applicable"


ROOMS = """
[[rooms]]
id = "garage"
kind = "attached garage"
[[rooms]]
id = "hall"
kind = "hall"
[[walls]]
id = "east"
room = "garage"
length = "10 ft"
[[walls]]
id = "north"
room = "hall"
length = "10 ft"
[[walls.obstacles]]
id = "inverter"
kind = "inverter"
left = "1 ft"
bottom = "4 ft"
width = "1 ft"
height = "2 ft"
state = "new"
"""
WALLED: Changes = {"[tolerances]": f"{ROOMS}\n[tolerances]"}


@pytest.mark.parametrize(
    ("job", "wall", "seen", "verdict"),
    [
        (WALLED, "north", None, "not applicable"),
        (WALLED, "east", True, "pass"),
        (WALLED, "east", False, "fail"),
        (WALLED, "east", None, "cannot tell"),
        ({"[tolerances]": ROOMS.replace('room = "garage"\n', "") + "\n[tolerances]"}, "east", True, "cannot tell"),
        ({}, "east", True, "cannot tell"),
    ],
)
def test_conductors_that_leave_the_room_have_a_disconnect_in_sight(
    job: Changes, wall: str, seen: bool | None, verdict: str
) -> None:
    sight = None if seen is None else given("in_sight", seen, "", "test")
    (found,) = dc_partition.checks(task_of(CABINET, job), "battery-1", wall, sight)
    assert found.verdict == verdict
    assert found.clause.clause == "706.15(D)"
    inside = task_of(CABINET, job, NEC, battery={"disconnect_inside = false": "disconnect_inside = true"})
    (own,) = dc_partition.checks(inside, "battery-1", wall, sight)
    assert own.verdict == ("pass" if job is WALLED and wall == "east" else verdict)


def test_a_battery_without_a_place_is_told_elsewhere() -> None:
    assert list(dc_partition.checks(task_of(CABINET, WALLED), "battery-1", "", None)) == []


def test_a_battery_has_a_resistance() -> None:
    with pytest.raises(OutsideTable):
        battery_fault.current(HANDBOOK, of(57.6, "V"), of(0, "mohm"), of(1, "mohm"))
    assert battery_fault.fed_back(HANDBOOK, of(4, "kA"), of(3, "1")).quantity == 8


def test_arcs_are_told_before_and_beyond_the_device() -> None:
    before, beyond = arcs(CABINET)
    # 3 × 0.01 × 57.6 V × 4200 A × 2 s / (45.7 cm)² = 6.950 cal/cm2; a twentieth of a second: 0.174.
    assert before.energy.quantity == pytest.approx(3 * 0.01 * 57.6 * 4200 * 2 / 45.7**2)
    assert before.boundary.quantity == pytest.approx(math.sqrt(3 * 0.01 * 57.6 * 4200 * 2 / 1.2))
    assert "category 2" in before.clothing.word
    assert beyond.energy.quantity == pytest.approx(before.energy.quantity / 40)
    assert "no arc-rated clothing" in beyond.clothing.word


def test_a_device_that_may_not_see_the_arc_clears_nothing() -> None:
    # Half of what flows at the inverter is 3.8 kA: a fuse that is sure from 4 kA is not counted.
    slow = {'dc_clearing_current = "2 kA"': 'dc_clearing_current = "4 kA"'}
    assert arcs(CABINET, dc_overcurrent=slow)[1].time.quantity == 2
    unsaid = {'dc_clearing_time = "50 ms"\n': ""}
    assert arcs(CABINET, dc_overcurrent=unsaid)[1].time.quantity == 2


def test_beyond_its_device_an_arc_is_fed_by_every_battery_on_the_busbar() -> None:
    joined = {"ports = 1": "ports = 3\nports_joined = true"}
    task = task_of(CABINET, THREE, NEC, inverter=joined)
    found = list(flashes(task, SAFETY, PAPERS, dc.plans(task)))
    assert [round(each.fault.quantity, 6) for each in found[:2]] == [8.4, 25.2]
    apart = task_of(CABINET, THREE, NEC, inverter={"ports = 1": "ports = 3\nports_joined = false"})
    assert [each.fault.quantity for each in flashes(apart, SAFETY, PAPERS, dc.plans(apart))][:2] == [8.4, 8.4]


def test_a_battery_with_its_own_device_has_one_place_outside() -> None:
    (only,) = arcs(STACK)
    assert only.time.quantity == 2
    assert only.energy.quantity == pytest.approx(3 * 0.01 * 270 * 1600 * 2 / 45.7**2)


def test_beyond_every_category_there_is_no_clothing() -> None:
    strong = arcs(STACK, battery={'short_circuit_current = "3.2 kA"': 'short_circuit_current = "20 kA"'})[0]
    assert strong.energy.quantity > 40
    assert strong.clothing.missing
    with pytest.raises(OutsideTable):
        dc_arc.band(SAFETY, strong.energy)


def test_a_fault_that_is_not_known_leaves_its_arc_unknown() -> None:
    found = arcs(CABINET, battery={STATED: "", INSIDE: ""})[0]
    assert found.energy.missing
    assert found.clothing.missing


def test_cold_leads_are_below_hot_ones() -> None:
    task = task_of(CABINET)
    leads = dc_fault.Leads(given("material", "cu", "", "test"), given("size", "1/0", "", "test"), of(1, "1"))
    cold, hot = (dc_fault.both(task, leads, of(10, "ft"), hot=hot).quantity for hot in (False, True))
    assert hot == pytest.approx(cold * 309.5 / 254.5)
