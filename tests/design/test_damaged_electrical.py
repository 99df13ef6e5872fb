"""The demo job with one thing broken at a time: the checks that must turn do, and no other one does."""

import re

import pytest
from damaged_job import DEMO, ROLES, SOUND, Changes, electrical, turned

from standfast.equipment.read import shipped
from standfast.survey.read import read

BATTERY = 'spaces = [10, 12]\nbreaker = "30 A"'
FEEDER = 'spaces = [27, 29]\nbreaker = "60 A"'
FIRST_RUN = 'conductors = { material = "cu",'
RUN_OF_FEEDER = 'id = "backup-feeder"\nfrom = "main"\nto = "backup"\nlength = "7 ft"\nambient = "104 °F"\nwet = false\n'
MAIN_BUS = 'busbar = "200 A"\nmain = "200 A"\nfed_from'
HERE = "battery-1"


def fails(*ids: str) -> dict[str, str]:
    return dict.fromkeys(ids, "fail")


def unknown(*ids: str) -> dict[str, str]:
    return dict.fromkeys(ids, "cannot tell")


def test_the_sound_demo_has_nothing_open() -> None:
    assert [check.id for check in SOUND.values() if check.open] == []
    assert len(SOUND) > 80


ALONE = ("wiring.neutral-bond/island-beside-grid", "wiring.neutral-bond/island")
JOINED = ("wiring.neutral-bond/grid", "wiring.neutral-bond/grid-only", *ALONE)
"""The states in which the battery runs on its own, and all."""
BREAKING = [
    f"wiring.{kind}/{at}"
    for kind, at in (
        ("interrupting-rating", "backup"),
        ("short-circuit-rating", "backup"),
        ("interrupting-rating", "main"),
        ("interrupting-rating", "main/backup-feeder"),
        ("interrupting-rating", "battery-1/breaker"),
        ("short-circuit-rating", "backup/island-switch"),
    )
]
"""Everything near the service that is rated 10 kA; the service disconnect and the main panel stand 22 kA."""
FAR = ["wiring.short-circuit-rating/battery-1/disconnect", "wiring.short-circuit-rating/battery-1"]
"""Rated 10 kA too, behind conductors that leave less than that of 12 kA."""
STRONG = ["wiring.interrupting-rating/service-disconnect", "wiring.short-circuit-rating/main"]

JOB_DAMAGES: list[tuple[str, Changes, dict[str, str]]] = [
    ("breaker of 25 A", ((BATTERY, BATTERY.replace("30", "25")),), fails(f"wiring.device-rating/{HERE}")),
    (
        "breaker of 33 A",
        ((BATTERY, BATTERY.replace("30", "33")),),
        fails(*(f"wiring.device-{each}/{HERE}" for each in ("standard", "made", "maker-maximum"))),
    ),
    (
        "12 AWG forced",
        ((FIRST_RUN, 'conductors = { size = "12", material = "cu",'),),
        fails(f"wiring.conductor-terminations/{HERE}", f"wiring.conductor-protection/{HERE}"),
    ),
    (
        "aluminium on terminals for copper",
        ((FIRST_RUN, 'conductors = { material = "al",'),) * 2,  # both runs of the circuit
        fails(*(f"wiring.terminal-metal/{HERE}/battery/{use}" for use in ("line", "ground", "neutral"))),
    ),
    ("12 kA available", (('fault_current = "9.4 kA"', 'fault_current = "12 kA"'),), fails(*BREAKING)),
    ("no fault current", (('fault_current = "9.4 kA"\n', ""),), unknown(*BREAKING, *FAR, *STRONG)),
    (
        "busbar of 100 A behind 200 A",
        ((MAIN_BUS, MAIN_BUS.replace("200", "100", 1)),),
        fails("wiring.panel-protection/main", "wiring.source-busbar/main"),
    ),
    (
        "source at the end of the main",
        (('source_position = "opposite end"', 'source_position = "same end"'),),
        fails("wiring.source-busbar/main"),
    ),
    (
        "nobody said at which end",
        (('source_position = "opposite end"\n', ""),),
        unknown("wiring.source-busbar/main"),
    ),
    (
        "another source of 16 A on the main panel",
        (('id = "dryer"\nname = "Dryer"', 'id = "sun"\nname = "Solar array"\nsource_output = "16 A"'),),
        fails("wiring.source-busbar/main"),
    ),
    (
        "9 current-carrying conductors: 40 A × 0.91 × 0.7 still carries 24 A, but the raceway is shared",
        (("other_current_carrying = 0", "other_current_carrying = 7"),),
        unknown(f"wiring.raceway-fill/{HERE}/battery-run"),
    ),
    (
        "no room in the new panel",
        (("spaces = 12\nfree_spaces = 4", "spaces = 7\nfree_spaces = 0"),),
        fails("wiring.panel-spaces/backup"),
    ),
    (
        "a service of 100 A that charging overloads",
        (('service = "200 A"\nmain = "200 A"', 'service = "100 A"\nmain = "100 A"'),),
        fails("load.service"),
    ),
    (
        "a motor that starts with 150 A",
        (('locked_rotor = "38 A"', 'locked_rotor = "150 A"'),),
        fails("backup.motor-start", "backup.motors-together"),
    ),
    (
        "a feeder of 40 A",
        ((FEEDER, FEEDER.replace("60", "40")),),
        fails("wiring.feeder-load/backup"),
    ),
    (
        "a feeder breaker that its family has not",
        ((FEEDER, FEEDER.replace("60", "70")),),
        fails("wiring.device-made/backup-feeder"),
    ),
    (
        "a panel too narrow for 6 AWG",
        (('bending_space = "3-1/2 in"', 'bending_space = "1 in"'),),
        fails("wiring.bending-space/backup-feeder/main"),
    ),
    (
        "neutral and ground joined in the new panel too",
        (("neutral_bonded = false", "neutral_bonded = true"),),
        fails(*JOINED),
    ),
    (
        "neutral and ground joined outdoors and in the main panel",
        (('_mark = "not service equipment"', '_mark = "service disconnect"'),),
        fails(*JOINED),
    ),
    (
        "nobody looked for the bond",
        (("neutral_bonded = true\n", ""),),
        unknown(*JOINED),
    ),
    (
        "no place for the emergency shutdown",
        (('kind = "emergency shutdown"', 'kind = "tree"'),),
        unknown(f"wiring.emergency-shutdown-place/{HERE}"),
    ),
    (
        "a backed-up circuit on the wrong side of the island switch",
        (('load = "1440 VA"\nphases = "line to neutral"\nbacked_up = false',
          'load = "1440 VA"\nphases = "line to neutral"\nbacked_up = true'),),
        fails("wiring.backed-up-side/backup", "backup.capacity", "backup.line/1"),
    ),
    (
        "a load that nobody knows",
        (('load = "700 VA"\n', ""),),
        unknown(
            "wiring.feeder-load/backup", "wiring.neutral-load/backup", "wiring.branch-device/refrigerator",
            "backup.capacity", "backup.largest-load", "backup.line/1",
        ),
    ),
    (
        "a limit of charging that no listing backs",
        (("[loads]\n", '[loads]\ncharging_limit = "160 A"\n'),),
        fails("load.charging-control"),
    ),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "expected"), [each[1:] for each in JOB_DAMAGES], ids=[e[0] for e in JOB_DAMAGES])
def test_a_damaged_job_turns_what_it_must(changes: Changes, expected: dict[str, str]) -> None:
    found = turned(changes)
    assert {id: verdict for id, verdict in found.items() if verdict in ("fail", "cannot tell")} == expected
    after = electrical(changes)
    assert all(after[id].reason for id, verdict in expected.items() if verdict == "cannot tell")


SHEET_DAMAGES: list[tuple[str, dict[str, Changes | None], dict[str, str]]] = [
    (
        "an island switch that opens the neutral and a unit without a bond",
        {"island_switch": (("neutral_switched = false", "neutral_switched = true"),)},
        fails(*ALONE) | unknown("wiring.island-bonding-jumper", "wiring.island-electrode-conductor"),
    ),
    (
        "a bond of the unit beside that of the service",
        {"battery": (('neutral_bond = "none"', 'neutral_bond = "while the grid is away"'),)},
        fails(*ALONE),
    ),
    (
        "the two together are right",
        {
            "island_switch": (("neutral_switched = false", "neutral_switched = true"),),
            "battery": (('neutral_bond = "none"', 'neutral_bond = "while the grid is away"'),),
        },
        unknown("wiring.island-electrode-conductor"),
    ),
    (
        "an island switch of 50 A",
        {"island_switch": (('ratings = ["100 A"]', 'ratings = ["50 A"]'),)},
        fails("wiring.island-switch-rating/backup"),
    ),
    (
        "an island switch for another unit",
        {"island_switch": (('with = "demo-wall-10"', 'with = "other-unit"'),)},
        fails("wiring.island-switch-listing/backup"),
    ),
    (
        "cells at 400 V, and nobody said whether hands can reach them",
        {"battery": (('dc_voltage_max = "58 V"', 'dc_voltage_max = "400 V"'),)},
        unknown(f"wiring.dc-voltage/{HERE}"),
    ),
    (
        "cells at 400 V out of reach",
        {"battery": (('"58 V"', '"400 V"\nlive_parts_accessible = false'),)},
        {},
    ),
    (
        "cells at 650 V",
        {"battery": (('"58 V"', '"650 V"\nlive_parts_accessible = false'),)},
        fails(f"wiring.dc-voltage/{HERE}"),
    ),
    (
        "a breaker marked line and load",
        {"breaker": (("backfeed = true", "backfeed = false"),)},
        fails(f"wiring.device-backfeed/{HERE}", "wiring.device-backfeed/backup-feeder"),
    ),
    (
        "a plug-in breaker without a fastener",
        {"breaker": (('held = "plug-in with fastener"', 'held = "plug-in"'),)},
        fails(f"wiring.device-held/{HERE}"),
    ),
    (
        "a listing that names no pair",
        {"battery": (('with = "demo-wall-10"\n', ""),)},
        unknown(f"wiring.listing-pair/{HERE}"),
    ),
    (
        "no current for motors stated: the peak power carries no start of 38 A beside the rest",
        {"battery": (('motor_start_current = "60 A"\n', ""),)},
        fails("backup.motor-start", "backup.motors-together") | unknown(f"wiring.start-drop/{HERE}"),
    ),
    (
        "no fault contribution",
        {"battery": (('fault_contribution = "45 A"\n', ""),)},
        unknown(*BREAKING, *FAR, *STRONG),
    ),
]


@pytest.mark.parametrize(("sheets", "expected"), [e[1:] for e in SHEET_DAMAGES], ids=[e[0] for e in SHEET_DAMAGES])
def test_a_damaged_sheet_turns_what_it_must(sheets: dict[str, Changes | None], expected: dict[str, str]) -> None:
    found = turned((), **sheets)
    assert {id: verdict for id, verdict in found.items() if verdict in ("fail", "cannot tell")} == expected


def test_above_10_ka_a_panelboard_is_marked_with_its_enclosure() -> None:
    strong = electrical((('fault_current = "9.4 kA"', 'fault_current = "12 kA"'),))["wiring.short-circuit-rating/main"]
    assert (strong.verdict, strong.clause.clause) == ("pass", "408.6")
    assert "408.38" in strong.condition
    assert SOUND["wiring.short-circuit-rating/main"].condition == ""


def test_a_source_on_the_island_needs_the_word_of_the_units_maker() -> None:
    sun: Changes = (
        ('id = "network"\nname = "Network and alarms"', 'id = "sun"\nname = "Sun"\nsource_output = "12 A"'),
    )
    check = "wiring.sources-on-island/backup"
    assert turned(sun)[check] == "cannot tell"
    for most, verdict in (("16 A", "pass"), ("10 A", "fail")):
        said = (("[electrical]\n", f'[electrical]\nother_sources_max = "{most}"\n'),)
        assert turned(sun, battery=said)[check] == verdict


def test_hot_terminals_and_a_hot_room_ask_for_copper_and_pass() -> None:
    cold = electrical(
        (('terminals = "75 °C"\nbending_space = "3-1/2 in"', 'terminals = "60 °C"\nbending_space = "4 in"'),)
    )
    carried = cold["wiring.conductor-terminations/backup-feeder"].demand
    assert carried is not None
    assert carried.quantity == 70  # 4 AWG in the 60 °C column; 6 AWG carries 55 A there
    hot = electrical((('ambient = "104 °F"', 'ambient = "60 °C"'),))["wiring.conductor-ampacity/battery-1"].demand
    assert hot is not None
    assert hot.quantity == pytest.approx(40 * 0.71)


def test_a_long_way_fails_on_both_changes_of_voltage() -> None:
    found = turned((('length = "6 ft"', 'length = "200 ft"'),))
    assert {id for id, verdict in found.items() if verdict == "fail"} == {
        "wiring.voltage-drop/battery-1",
        "wiring.voltage-rise/battery-1",
    }


def test_without_a_disconnect_its_place_cannot_be_told_and_nothing_breaks() -> None:
    found = turned((), disconnect=None)
    assert found["wiring.storage-disconnect/battery-1"] == "cannot tell"
    assert found["wiring.disconnect-rating/battery-1"] == "cannot tell"
    assert "fail" not in found.values()


@pytest.mark.parametrize("role", [role for role in ROLES if role != "battery"])
def test_without_one_piece_of_equipment_nothing_passes_that_it_decides(role: str) -> None:
    found = turned((), **{role: None})
    assert "cannot tell" in found.values()
    assert set(found.values()) <= {"cannot tell", "gone"}


def test_an_existing_feeder_is_judged_as_surveyed() -> None:
    stated = f'{RUN_OF_FEEDER}raceway = "emt"\nconductors = {{ material = "cu",'
    old = 'other_current_carrying = 0\nstate = "new"\n\n# What the invented utility agreed to'
    state = (old, old.replace("new", "existing"))
    small = turned(((stated, stated.replace("{ material", '{ size = "8", material')), state))
    assert small["wiring.conductor-protection/backup-feeder"] == "fail"
    large = turned(
        ((stated, stated.replace("{ material", '{ size = "4", ground = "10", neutral = "4", material')), state)
    )
    assert set(large.values()) == {"gone"}
    unsaid = turned((state,))
    assert unsaid["wiring.conductor-protection/backup-feeder"] == "cannot tell"
    assert unsaid["wiring.source-feeder/backup"] == "cannot tell"


def test_a_circuit_beyond_the_switch_is_carried_whether_it_was_meant_or_not() -> None:
    kitchen = 'load = "1500 VA"\ncontinuous = "0 VA"\nphases = "line to neutral"\nserves = ["kitchen"]\n'
    kitchen += 'extended = "4 ft"\nsplice = {{ where = "in the panel that it came from" }}\n'
    kitchen += "arc_fault = false\nbacked_up = {}"
    unmarked = ((kitchen.format("true"), kitchen.format("false")),)
    automatic = electrical(unmarked)["backup.capacity"].demand
    manual = electrical((*unmarked, ('transfer = "automatic"', 'transfer = "manual"')))["backup.capacity"].demand
    assert automatic is not None and manual is not None
    assert automatic.quantity == pytest.approx(4750 / 240)
    assert manual.quantity == pytest.approx(3250 / 240)


KEEP = re.compile(
    r"^\s*(#|\[|schema|id|kind|invented|maker|name|date|adoption|from|to|at|standard|\]|\{|holes|contents|not)"
)


@pytest.mark.parametrize("role", list(ROLES))
def test_no_fact_of_a_sheet_that_is_missing_makes_a_pass(role: str) -> None:
    lines = dict.fromkeys(shipped()[ROLES[role]].split("[body]")[0].split("\n"))
    for line in lines:
        if line and not KEEP.match(line):
            found = turned((), **{role: ((f"{line}\n", ""),)})
            assert "pass" not in found.values(), line
            assert "fail" not in found.values() or line.startswith("motor_start_current"), line


def test_no_electrical_fact_of_the_job_that_is_missing_makes_a_pass() -> None:
    part = DEMO[DEMO.index("[supply]") : DEMO.index('[[panels.circuits]]\nid = "range"')]
    for line in part.split("\n"):
        if line and not KEEP.match(line) and read(DEMO.replace(f"{line}\n", "", 1)).survey is not None:
            found = turned(((f"{line}\n", ""),))
            assert "fail" not in found.values(), line
            passing = {id for id, verdict in found.items() if verdict == "pass"}
            assert passing <= {"wiring.emergency-disconnect"}, line
