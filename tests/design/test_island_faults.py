"""The demo house on its battery alone: what ends a fault, protection of people, the voltage while a motor starts."""

import pytest
from damaged_job import DEMO, HANDBOOK, NEC, SOUND, Changes, electrical, turned

from standfast.design.wiring import neutral_fed
from standfast.design.wiring.material import Material
from standfast.equipment.read import read as read_sheet
from standfast.equipment.read import shipped
from standfast.survey.read import read

FRIDGE = 'id = "refrigerator"\n'
BATTERY = 'id = "battery"\nname = "Battery"\nfeeds = "battery"\n'
STOPS = "wiring.island-fault/backup"


def sheet(*changes: tuple[str, str]) -> dict[str, Changes | None]:
    return {"battery": changes}


def test_pitfall_35_breakers_that_the_inverter_cannot_trip_leave_it_to_its_stop() -> None:
    found = SOUND[STOPS]
    assert found.verdict == "pass"
    assert found.demand is not None
    assert (found.demand.symbol, found.demand.quantity) == ("t_stop", 0.2)
    assert "it drives about 45 A" in found.condition
    assert "6 of 6 breakers here trip at once only from 150 A on" in found.condition


@pytest.mark.parametrize(
    ("time", "verdict"), [('"0.8 s"', "pass"), ('"0.81 s"', "fail"), ('"3 s"', "fail"), ('"not known"', "cannot tell")]
)
def test_pitfall_35_a_stop_that_takes_too_long_ends_nothing(time: str, verdict: str) -> None:
    slow = sheet(('island_fault_time = "0.2 s"', f"island_fault_time = {time}"))
    assert electrical((), **slow)[STOPS].verdict == verdict


def test_pitfall_35_a_source_that_trips_every_breaker_needs_no_stop() -> None:
    strong = sheet(('island_fault_current = "45 A"\nisland_fault_time = "0.2 s"', 'island_fault_current = "200 A"'))
    found = electrical((), **strong)[STOPS]
    assert (found.verdict, found.condition) == ("pass", "")
    assert found.limit is not None and found.limit.quantity == 200  # ten times the 20 A of the largest breaker
    nearly = sheet(('island_fault_current = "45 A"\nisland_fault_time = "0.2 s"', 'island_fault_current = "199 A"'))
    assert electrical((), **nearly)[STOPS].verdict == "cannot tell"


def test_pitfall_35_a_current_that_no_sheet_states_never_trips_a_breaker() -> None:
    silent = sheet(('island_fault_current = "45 A"\n', ""))
    found = electrical((), **silent)[STOPS]
    assert found.verdict == "pass"
    assert found.demand is not None and found.demand.symbol == "t_stop"
    assert "26.4 A" in found.condition  # 1.1 times its rated 24 A
    both = sheet(('island_fault_current = "45 A"\nisland_fault_time = "0.2 s"\n', ""))
    assert electrical((), **both)[STOPS].verdict == "cannot tell"


def test_a_breaker_that_nobody_read_leaves_it_open() -> None:
    assert electrical((('spaces = [1]\nbreaker = "20 A"', "spaces = [1]"),))[STOPS].verdict == "cannot tell"


def test_pitfall_66_protection_trips_only_where_the_neutral_is_joined_once() -> None:
    kitchen = ((FRIDGE, f"{FRIDGE}ground_fault = true\n"),)
    assert "wiring.ground-fault-trip" not in SOUND
    assert electrical(kitchen)["wiring.ground-fault-trip"].verdict == "pass"
    lone = {"island_switch": (("neutral_switched = false", "neutral_switched = true"),)}
    assert electrical(kitchen, **lone)["wiring.ground-fault-trip"].verdict == "fail"
    unsaid = {"island_switch": (("neutral_switched = false\n", ""),)}
    found = electrical(kitchen, **unsaid)["wiring.ground-fault-trip"]
    assert found.verdict == "cannot tell"
    assert "switch.neutral_switched" in found.reason


@pytest.mark.parametrize(
    ("words", "verdict"),
    [
        ("ground_fault = true\n", "cannot tell"),
        ("ground_fault = true\nresidual = { bidirectional = true }\n", "pass"),
        ("ground_fault = true\nresidual = { bidirectional = false }\n", "fail"),
        ("residual = { rated = '30 mA' }\n", "cannot tell"),
    ],
)
def test_pitfall_66_a_source_behind_such_a_device_needs_one_that_may_be_fed_from_there(
    words: str, verdict: str
) -> None:
    words = words.replace("'", '"')
    own = electrical(((BATTERY, BATTERY + words),))
    assert own["wiring.ground-fault-backfeed/battery"].verdict == verdict
    feeder = 'feeds = "backup"\n'
    through = electrical(((feeder, feeder + words),))
    assert through["wiring.ground-fault-backfeed/backup-feeder"].verdict == verdict


def test_pitfall_66_a_device_that_no_source_stands_behind_is_not_asked() -> None:
    dryer = electrical((('id = "dryer"\n', 'id = "dryer"\nground_fault = true\n'),))
    assert not [id for id in dryer if id.startswith("wiring.ground-fault-backfeed")]


def test_pitfall_47_the_start_falls_by_the_locked_rotor_current() -> None:
    found = SOUND["wiring.start-drop/battery-1"]
    assert found.verdict == "pass"
    assert found.demand is not None
    greatest = next(value for value in found.values() if value.symbol == "I_LR_furnace")
    assert greatest.quantity == 38
    far = turned((('to = "disconnect"\nlength = "6 ft"', 'to = "disconnect"\nlength = "906 ft"'),))
    assert far["wiring.start-drop/battery-1"] == "fail"


def test_pitfall_47_a_source_that_states_no_start_leaves_its_own_drop_open() -> None:
    found = electrical((), **sheet(('motor_start_current = "60 A"\n', "")))["wiring.start-drop/battery-1"]
    assert found.verdict == "cannot tell"
    assert "electrical.motor_start_current" in found.reason


@pytest.mark.parametrize(("time", "verdict"), [("3 s", "pass"), ("2 s", "fail")])
def test_the_peak_of_the_source_lasts_until_the_motor_runs(time: str, verdict: str) -> None:
    found = electrical((), **sheet(('peak_time = "10 s"', f'peak_time = "{time}"')))
    assert found["wiring.start-time/battery-1"].verdict == verdict


def test_pitfall_47_a_feeder_between_source_and_motor_falls_too() -> None:
    near = SOUND["wiring.start-drop/battery-1"].demand
    cooled = ('phases = "line to line"\nbacked_up = false', 'phases = "line to line"\nbacked_up = true')
    far = electrical((cooled, ('mode = "circuits"', 'mode = "whole house"')))["wiring.start-drop/battery-1"]
    assert near is not None and far.demand is not None
    lengths = [value for value in far.values() if value.symbol.startswith("V_d")]
    assert len(lengths) > 0
    assert far.demand.quantity > near.quantity  # the air conditioner hangs on the main panel, behind the feeder


@pytest.mark.parametrize(
    ("neutral", "verdict"),
    [('"required"', "pass"), ('"optional"', "pass"), ('"not used"', "fail"), ('"not known"', "cannot tell")],
)
def test_a_source_without_a_neutral_carries_no_lamp(neutral: str, verdict: str) -> None:
    found = electrical((), **sheet(('neutral = "required"', f"neutral = {neutral}")))["wiring.island-neutral"]
    assert found.verdict == verdict
    assert found.condition == ("its neutral is connected" if "optional" in neutral else "")


def test_loads_of_which_nobody_said_how_they_are_joined_are_asked_for() -> None:
    survey = read(DEMO.replace('phases = "line to neutral"\n', "")).survey
    unit = read_sheet(shipped()["demo-wall-10"].replace('neutral = "required"', 'neutral = "not used"'), "x").sheet
    assert survey is not None and unit is not None
    (found,) = neutral_fed.checks(Material(NEC, HANDBOOK, survey, {"battery": unit}, "battery-1"))
    assert found.verdict == "cannot tell"
    assert "panels.backup.circuits.refrigerator.phases" in found.reason
