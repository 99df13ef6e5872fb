"""Motors that start together on the battery, and circuits that a control drops: the demo house, one word at a time."""

import pytest
from damaged_job import DEMO, SOUND, Changes, electrical, swapped

from standfast.survey.read import read

TOGETHER, CAPACITY = "backup.motors-together", "backup.capacity"
FRIDGE = 'locked_rotor = "18 A", full_load = "5.8 A", by_itself = true'
FURNACE = 'locked_rotor = "38 A", full_load = "7 A", by_itself = true'
DOOR = 'locked_rotor = "25 A", full_load = "6 A", by_itself = false'
DROPS = '[backup]\nsheds = ["kitchen-receptacles", "garage-door"]\n'
LISTED = f'{DROPS}shedding = "UL 916, file invented-916-001 (invented)"\n'
SMALL = {"battery": (('output_current = "24 A"\n', 'output_current = "14 A"\n'),)}


def by_itself(motor: str, answer: str) -> tuple[str, str]:
    """A change of what a motor says of its start."""
    word = motor.rpartition(", ")[2]
    return motor, motor.replace(f", {word}", f", by_itself = {answer}" if answer else "")


def test_pitfall_55_what_starts_by_itself_starts_at_one_moment() -> None:
    found = SOUND[TOGETHER]
    assert found.demand is not None and found.limit is not None
    assert (found.verdict, found.demand.quantity, found.limit.quantity) == ("pass", 56, 60)


@pytest.mark.parametrize(
    ("changes", "verdict"),
    [
        ((by_itself(DOOR, "true"),), "fail"),  # 81 A on line 1
        ((by_itself(DOOR, ""),), "cannot tell"),
        ((by_itself(FRIDGE, ""),), "pass"),  # 56 A even if it does
        ((by_itself(FRIDGE, "false"), by_itself(FURNACE, "false")), "not applicable"),
        ((by_itself(FRIDGE, "false"), by_itself(DOOR, "")), "cannot tell"),  # 63 A if the door does
        (((f'rating = "1/2 hp", {FURNACE}', "by_itself = true"),), "cannot tell"),
    ],
)
def test_a_motor_of_which_nobody_said_passes_with_it_and_never_fails_by_it(changes: Changes, verdict: str) -> None:
    found = electrical(changes)[TOGETHER]
    assert found.verdict == verdict
    if verdict == "cannot tell":
        assert "motor.by_itself" in found.reason or "motor.locked_rotor" in found.reason


def test_without_a_current_for_motors_the_peak_carries_all_of_them_and_the_rest() -> None:
    quiet = {"battery": (('motor_start_current = "60 A"\n', ""),)}
    found = electrical((), **quiet)[TOGETHER]
    assert found.demand is not None and found.limit is not None
    running = (600 + 1500 + 200 + 900) / 120
    assert found.limit.quantity == 7500 / 240
    assert 56 < found.demand.quantity <= 56 + running
    assert found.verdict == "fail"


def test_pitfall_54_only_a_listed_control_takes_circuits_off_the_load() -> None:
    whole, dropped = SOUND[CAPACITY].demand, electrical((("[backup]\n", LISTED),))[CAPACITY]
    assert whole is not None and dropped.demand is not None
    assert whole.quantity - dropped.demand.quantity == pytest.approx((1500 + 900) / 240)
    assert dropped.clause.clause.startswith("702.4(A)(2)(b)")
    assert "Kitchen receptacles, Garage door" in dropped.condition
    unlisted = electrical((("[backup]\n", DROPS),))
    assert _demand((("[backup]\n", DROPS),)) == whole.quantity
    assert unlisted["backup.shedding"].verdict == "cannot tell"
    assert "backup.shedding" in unlisted["backup.shedding"].reason


def test_pitfall_54_what_is_dropped_can_turn_a_failure_and_starts_no_motor() -> None:
    assert electrical((), **SMALL)[CAPACITY].verdict == "fail"
    assert electrical((("[backup]\n", LISTED),), **SMALL)[CAPACITY].verdict == "pass"
    door = by_itself(DOOR, "true")
    assert electrical((door,))[TOGETHER].verdict == "fail"
    assert electrical((door, ("[backup]\n", LISTED)))[TOGETHER].verdict == "pass"


def test_pitfall_54_of_a_whole_house_nothing_is_taken_off() -> None:
    whole = ('mode = "circuits"', 'mode = "whole house"')
    found = electrical((whole, ("[backup]\n", LISTED)))[CAPACITY]
    assert found.demand is not None and found.demand.quantity == _demand((whole,))
    assert (found.verdict, found.condition) == ("fail", "")


def _demand(changes: Changes) -> float:
    found = electrical(changes)[CAPACITY].demand
    assert found is not None
    return found.quantity


def test_a_circuit_that_is_not_there_cannot_be_dropped() -> None:
    survey, faults = read(swapped(DEMO, (("[backup]\n", '[backup]\nsheds = ["kitchen-receptacle"]\n'),)))
    assert [fault.what for fault in faults] == ['there is no circuit "kitchen-receptacle"']
    assert faults[0].line > 0
    assert survey is None or faults


def test_a_name_that_two_circuits_have_drops_neither() -> None:
    twice = (('id = "network"\n', 'id = "laundry"\n'), ("[backup]\n", '[backup]\nsheds = ["laundry"]\n'))
    _, faults = read(swapped(DEMO, twice))
    assert [fault.what for fault in faults] == ['"laundry" is the name of circuits in several panels']
