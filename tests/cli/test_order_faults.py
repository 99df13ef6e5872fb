"""What no order of the work can be made from: faults with file, line and column, the ring or state spelled out."""

import re
from pathlib import Path

import pytest
from calling import Call

from standfast.equipment.read import shipped

LISTED = """schema = 1
[firm]
name = "Invented Electric"
invented = true

[[tools]]
id = "driver"
kind = "torque screwdriver"
torque_min = "5 lbf.in"
torque_max = "50 lbf.in"
calibrated_until = 2027-02-01
"""
METER = """
[[tools]]
id = "tester"
kind = "insulation tester"
rated_voltage = "600 V"
calibrated_until = 2027-02-01
"""


def written(job: Path, old: str, new: str, id: str = "demo-wall-10") -> None:
    """The shipped sheet with one place changed, in the folder of the job."""
    text = shipped()[id]
    assert text.count(old) == 1, old
    (job / "sheets").mkdir()
    (job / "sheets" / f"{id}.toml").write_text(text.replace(old, new), "utf-8")


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('after = ["bolt"]\ndoes = { change = "lock"', 'after = ["wire-lines"]\ndoes = { change = "lock"',
         'step "lock-switch" can never begin: "lock-switch" waits for "wire-lines" waits for "wire-neutral" waits for '
         '"wire-ground" waits for "prove-dead" waits for "open-cover" waits for "lock-switch"'),
        ('change = "prove dead", to = "ac terminals"', 'change = "prove dead", to = "dc terminals"',
         'there are no terminals "dc terminals"'),
        ('does = { change = "fit cover", to = "wiring cover" }', 'does = { change = "fit", to = "trim" }',
         '"wiring cover" is taken off and never fitted again'),
        ('after = ["unlock-switch"]', 'after = ["close-cover"]',
         'steps "unlock-switch" and "battery-on" both change "battery switch", and nothing says which is first'),
        ('does = { change = "close", to = "battery switch" }', 'does = { change = "none" }',
         'no step leaves "battery switch" closed'),
        ('does = { change = "unlock", to = "battery switch" }', 'does = { change = "none" }',
         '"battery switch" is closed while it is locked'),
        ('sides = ["ac"]', 'sides = ["dc"]', 'this device has no side "dc"'),
        ('under = "wiring cover"\n\n[[gates]]', '\n[[gates]]', 'no zone is under "wiring cover"'),
        ('sides = ["ac"]\nunder', 'sides = ["cells"]\nunder',
         'terminal "ac-lines" is on the side "ac", and no zone is'),
    ],
    ids=["ring", "unknown zone", "cover left off", "switch in no order", "left open", "closed while locked",
         "cover over nothing", "side that is not there", "terminal in no zone"],
)  # fmt: skip
def test_steps_that_make_no_order_are_faults_with_their_place(
    call: Call, job: Path, old: str, new: str, told: str
) -> None:
    written(job, old, new)
    found = call("order", job)
    assert (found.code, found.out) == (2, "")
    line = next(each for each in found.err.splitlines() if told in each)
    place = re.match(r".*demo-wall-10\.toml:(\d+):(\d+): ", line)
    assert place is not None and int(place[1]) > 60 and int(place[2]) >= 1


def test_a_torque_that_no_tool_of_the_firm_covers_is_a_fault_of_its_file(call: Call, job: Path, tmp_path: Path) -> None:
    ours = tmp_path / "ours"
    ours.mkdir()
    (ours / "firm.toml").write_text(LISTED, "utf-8")
    found = call("order", job, "--firm", ours)
    assert (found.code, found.out) == (2, "")
    assert f"{ours / 'firm.toml'}:10:14: no tool covers 9 N·m" in found.err
    assert "Unit to bracket" in found.err and "torque screwdriver driver (5 lbf.in to 50 lbf.in)" in found.err
    checked = call("check", job, "--firm", ours)
    assert checked.code == 1 and "fieldwork.torque-tools" in checked.out


def test_a_firm_file_without_tools_is_asked_for_them(call: Call, job: Path, tmp_path: Path) -> None:
    ours = tmp_path / "ours"
    ours.mkdir()
    (ours / "firm.toml").write_text(LISTED.partition("[[tools]]")[0], "utf-8")
    assert call("order", job, "--firm", ours).code == 0
    asked = call("survey", job, "--firm", ours).out
    assert "torque tools of the firm with torque_min, torque_max and calibrated_until" in asked


@pytest.mark.parametrize("work", [("--service", "unit"), ("--service", "firmware"), ("--removal",)], ids=" ".join)
def test_a_removal_or_service_asks_of_the_firms_tools_what_it_does_itself(
    call: Call, job: Path, tmp_path: Path, work: tuple[str, ...]
) -> None:
    ours = tmp_path / "ours"
    ours.mkdir()
    (ours / "firm.toml").write_text(LISTED, "utf-8")
    torque = call("order", job, *work, "--firm", ours)
    told = f"{ours / 'firm.toml'}:10:14: no tool covers 9 N·m" in torque.err
    assert (torque.code, told) == ((2, True) if work == ("--service", "unit") else (0, False))
    (ours / "firm.toml").write_text(LISTED + METER, "utf-8")
    meter = call("order", job, *work, "--firm", ours)
    assert meter.code == 2 and "no tool is the" in meter.err and "asked by tests T" in meter.err
