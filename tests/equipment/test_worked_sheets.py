"""Steps of a data sheet that contradict what it says of its inside are faults with their place."""

import pytest

from standfast.equipment.read import read, shipped


def faults(old: str, new: str, sheet: str = "demo-wall-10") -> list[str]:
    text = shipped()[sheet]
    assert text.count(old) == 1, old
    return [str(fault) for fault in read(text.replace(old, new), "x.toml").faults]


def test_the_shipped_sheets_have_none() -> None:
    for id, text in shipped().items():
        assert read(text, f"{id}.toml").faults == []


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (
            'does = { change = "lock", to = "battery switch" }',
            'does = { change = "lock", to = "batery switch" }',
            'there is no switch or connector "batery switch"',
        ),
        (
            'does = { change = "prove dead", to = "ac terminals" }',
            'does = { change = "prove dead", to = "dc terminals" }',
            'there are no terminals "dc terminals"',
        ),
        (
            'does = { change = "fit cover", to = "wiring cover" }',
            'does = { change = "fit", to = "trim" }',
            '"wiring cover" is taken off and never fitted again',
        ),
        (
            'after = ["unlock-switch"]',
            'after = ["close-cover"]',
            'steps "unlock-switch" and "battery-on" both change "battery switch", and nothing says which is first',
        ),
        ('side = "cells"', 'side = "pv"', 'this device has no side "pv"'),
        ('sides = ["ac"]', 'sides = ["dc"]', 'this device has no side "dc"'),
    ],
)
def test_what_a_step_names_and_leaves_open_is_told_with_its_line(old: str, new: str, told: str) -> None:
    (found,) = [each for each in faults(old, new) if told in each]
    file, line, column = found.split(":")[:3]
    assert file == "x.toml" and int(line) > 100 and int(column) > 0


def test_steps_in_a_ring_and_unordered_switches_stop_nothing() -> None:
    found = faults('after = ["bolt"]\ndoes = { change = "lock"', 'after = ["battery-on"]\ndoes = { change = "lock"')
    ring = '"lock-switch" can never begin: "lock-switch" waits for "battery-on" waits for "unlock-switch" waits for'
    assert any(ring in each for each in found)


METER = """[[sensors]]
name = "meter transformers"
output = "current"
measures = "own circuit"

"""
LOCK = """[[temporary]]
name = "cell block lock"

"""


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('sides = ["ac"]\nunder', 'sides = ["cells"]\nunder',
         'terminal "ac-lines" is on the side "ac", and no zone is'),
        ('[[gates]]\nname = "battery switch"', METER + '[[gates]]\nname = "battery switch"',
         'no step joins the secondary of "meter transformers"'),
        ('[[gates]]\nname = "battery switch"', METER + '[[gates]]\nname = "battery switch"',
         'no step fits "meter transformers"'),
        ('[[gates]]\nname = "battery switch"',
         METER.replace('"current"', '"voltage"\nshorted = "no"') + '[[gates]]\nname = "battery switch"',
         '"meter transformers" gives voltage, and shorted is stated'),
        ('[[gates]]\nname = "battery switch"', LOCK + '[[gates]]\nname = "battery switch"',
         '"cell block lock" is never taken out'),
        ('change = "unlock", to = "battery switch"', 'change = "take out", to = "spacer"',
         'there is no temporary part "spacer"'),
    ],
)  # fmt: skip
def test_what_contradicts_itself_is_told_with_its_line(old: str, new: str, told: str) -> None:
    (found,) = [each for each in faults(old, new) if told in each]
    file, line, column = found.split(":")[:3]
    assert file == "x.toml" and int(line) > 50 and int(column) > 0


def test_a_disconnect_inside_that_is_no_gate_is_a_fault() -> None:
    text = shipped()["demo-wall-10"].replace("disconnect_inside = false", "disconnect_inside = true")
    assert read(text, "x.toml").faults == []  # its battery switch is one
    fuse = text.replace('kind = "switch"', 'kind = "fuse"')
    assert any("no switch or breaker is inside" in str(fault) for fault in read(fuse, "x.toml").faults)


def test_a_transformer_that_limits_its_own_voltage_needs_no_steps() -> None:
    safe = METER.replace('"current"', '"current"\nshorted = "inside"')
    assert faults('[[gates]]\nname = "battery switch"', safe + '[[gates]]\nname = "battery switch"') == []
