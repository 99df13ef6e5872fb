"""A small invented job with an inverter of its own, for the tests of direct current; its sheets are shipped ones."""

from wiring_job import HANDBOOK, NEC, swap

from standfast.design.wiring import dc, pv
from standfast.design.wiring.dc import DcCircuit
from standfast.design.wiring.material import Material, SheetFile
from standfast.equipment.read import read as read_sheet
from standfast.equipment.read import shipped
from standfast.sheet import Check
from standfast.shelf import Edition
from standfast.survey.joined import INVERTER
from standfast.survey.read import read as read_job

CABINET = {
    "battery": "demo-cabinet-48",
    "inverter": "demo-inverter-48",
    "dc_overcurrent": "demo-fuse-250",
    "dc_disconnect": "demo-dc-disconnect-250",
}
STACK = {"battery": "demo-stack-15", "inverter": "demo-hybrid-8", "dc_disconnect": "demo-dc-disconnect-60"}

JOB = """
schema = 1
[job]
name = "Direct current (invented)"
invented = true
date = 2026-05-04
adoption = "us-2021"

[conditions]
temperature_low = "5 °F"

[[land.marks]]
id = "shutdown"
kind = "emergency shutdown"
at = ["0 ft", "0 ft"]

[equipment]
battery = "the-battery"
quantity = 1
inverter = "the-inverter"

[[routes]]
id = "dc-battery"
from = "battery"
to = "dc-disconnect"
length = "5 ft"
ambient = "86 °F"
wet = false
raceway = "emt"
other_current_carrying = 0
state = "new"

[[routes]]
id = "dc-inverter"
from = "dc-disconnect"
to = "inverter"
length = "3 ft"
ambient = "86 °F"
wet = false
raceway = "emt"
other_current_carrying = 0
state = "new"

[[routes]]
id = "pv-run"
from = "roof"
to = "inverter"
length = "40 ft"
ambient = "120 °F"
wet = true
raceway = "emt"
other_current_carrying = 0
state = "new"
sections = [
    { id = "roof", length = "15 ft", on_roof = true, above_roof = "1 in" },
    { id = "wall", length = "25 ft", on_roof = false },
]

[[arrays]]
id = "roof"
input = "pv-1"
modules = 9
strings = 1
open_circuit_voltage = "40 V"
short_circuit_current = "11 A"
voltage_rise = "0.27 %"
rapid_shutdown = true
state = "new"

[tolerances]
route = "10 %"
"""

Changes = dict[str, str]
FUSED: Changes = {
    'inverter = "the-inverter"': 'inverter = "the-inverter"\ndc_overcurrent = "the-fuse"',
    'to = "dc-disconnect"\nlength = "5 ft"': 'to = "fuse"\nlength = "5 ft"',
    'to = "inverter"\nlength = "3 ft"': 'to = "inverter"\nlength = "1 ft"',
    '[[routes]]\nid = "dc-inverter"': """[[routes]]
id = "dc-fuse"
from = "fuse"
to = "dc-disconnect"
length = "2 ft"
ambient = "86 °F"
wet = false
raceway = "emt"
other_current_carrying = 0
state = "new"

[[routes]]
id = "dc-inverter\"""",
}
"""The job with a fuse block of its own: 5 ft from the battery, 2 ft on to the disconnect, 1 ft to the inverter."""


def task_of(ids: dict[str, str], job: Changes | None = None, nec: Edition = NEC, **sheets: Changes | None) -> Material:
    """The input of the wiring, with changes in the job file and in the sheets; a sheet of None is left out."""
    plain = swap(JOB, FUSED) if "dc_overcurrent" in ids else JOB
    survey = read_job(swap(plain, job or {})).survey
    if survey is None:
        raise LookupError("the job cannot be read")
    found: dict[str, SheetFile] = {}
    for role, id in ids.items():
        changes = sheets.get(role, {})
        if changes is None:
            continue
        sheet = read_sheet(swap(shipped()[id], changes), f"{id}.toml").sheet
        if sheet is None:
            raise LookupError(role)
        found[role] = sheet
    return Material(nec, HANDBOOK, survey, found, INVERTER)


def planned(ids: dict[str, str], job: Changes | None = None, **sheets: Changes | None) -> DcCircuit:
    return dc.plan(task_of(ids, job, NEC, **sheets), "battery-1")


def asked(ids: dict[str, str], job: Changes | None = None, **sheets: Changes | None) -> dict[str, Check]:
    """Every check of battery and arrays by its id, without its first word."""
    task = task_of(ids, job, NEC, **sheets)
    found = [*dc.checks(task, "battery-1"), *pv.checks(task)]
    if len({each.id for each in found}) != len(found):
        raise LookupError("two checks with one id")
    return {each.id.removeprefix("wiring."): each for each in found}
