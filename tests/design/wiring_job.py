"""A small invented job for the wiring tests, and the means to change one word of it."""

from standfast.design.wiring.material import SheetFile
from standfast.design.wiring.whole import Wiring, wire
from standfast.equipment.read import read as read_sheet
from standfast.sheet import Check
from standfast.shelf import edition
from standfast.survey.read import read as read_job

NEC, HANDBOOK = edition("nfpa70", "2023"), edition("handbook", "2026")

JOB = """
schema = 1
[job]
name = "Wiring test (invented)"
invented = true
date = 2026-05-04
adoption = "us-2021"

[site]
dwelling = "one-family"

[[land.marks]]
id = "shutdown"
kind = "emergency shutdown"
at = ["0 ft", "0 ft"]

[supply]
system = "120/240 V single-phase"
voltage = "240 V"
service = "200 A"
main = "200 A"
main_interrupting = "22 kA"
fault_current = "9 kA"
fault_x_over_r = 1.5
least_fault_current = "6 kA"
emergency_disconnect = "none"
electrodes = ["concrete-encased electrode"]
conductors = { size = "4/0", material = "al", sets = 1 }
electrode_conductor = { size = "4", material = "cu" }

[[panels]]
id = "main"
state = "existing"
busbar = "200 A"
main = "200 A"
fed_from = "utility"
feed = "end"
source_position = "opposite end"
spaces = 6
free_spaces = 4
short_circuit_rating = "22 kA"
breaker_interrupting = "10 kA"
terminals = "75 °C"
neutral_bonded = true
accepts = ["W"]

[[panels.circuits]]
id = "range"
breaker = "50 A"
poles = 2
state = "existing"

[[routes]]
id = "disconnect-run"
from = "main"
to = "disconnect"
length = "30 ft"
ambient = "104 °F"
wet = false
raceway = "emt"
conductors = { material = "cu", insulation = "thhn" }
other_current_carrying = 0
state = "new"

[[routes]]
id = "battery-run"
from = "disconnect"
to = "battery"
length = "6 ft"
ambient = "86 °F"
wet = false
raceway = "emt"
conductors = { material = "cu", insulation = "thhn" }
other_current_carrying = 0
state = "new"

[tolerances]
route = "10 %"
"""

SHEETS = {
    "battery": """
schema = 1
id = "unit"
kind = "battery unit"
invented = true
maker = "Nobody"
name = "Unit"
[energy]
rated = "10 kWh"
[electrical]
ac_voltage = "240 V"
output_current = "24 A"
charge_current = "21 A"
max_overcurrent_device = "40 A"
fault_contribution = "45 A"
short_circuit_rating = "10 kA"
neutral = "required"
disconnect_inside = false
emergency_shutdown = "built in"
dc_voltage_max = "58 V"
neutral_bond = "none"
forms_grid = true
anti_islanding = true
[[listing]]
standard = "UL 9540"
with = "unit"
[[listing]]
standard = "UL 1741"
[[terminals]]
id = "lines"
use = "ac line"
wire_min = "12"
wire_max = "6"
materials = ["cu"]
temperature = "75 °C"
[[terminals]]
id = "ground"
use = "ground"
wire_min = "14"
wire_max = "6"
materials = ["cu"]
[[terminals]]
id = "neutral"
use = "ac neutral"
wire_min = "12"
wire_max = "6"
materials = ["cu"]
""",
    "breaker": """
schema = 1
id = "breaker"
kind = "breaker"
invented = true
maker = "Nobody"
name = "Breaker"
[switch]
family = "W"
ratings = ["20 A", "30 A", "40 A", "50 A", "60 A"]
voltage = "240 V"
interrupting = "10 kA"
instantaneous = 10
backfeed = true
held = "bolt-on"
spaces = 2
[[terminals]]
id = "lines"
use = "ac line"
wire_min = "14"
wire_max = "4"
materials = ["cu", "al"]
temperature = "75 °C"
""",
    "disconnect": """
schema = 1
id = "disconnect"
kind = "disconnect"
invented = true
maker = "Nobody"
name = "Disconnect"
[switch]
ratings = ["60 A"]
voltage = "240 V"
short_circuit_rating = "10 kA"
short_circuit_with = "breaker of up to 60 A ahead of it"
lockable_open = true
[[terminals]]
id = "lines"
use = "ac line"
wire_min = "14"
wire_max = "3"
materials = ["cu", "al"]
temperature = "75 °C"
[[terminals]]
id = "ground"
use = "ground"
wire_min = "14"
wire_max = "4"
materials = ["cu", "al"]
[[terminals]]
id = "neutral"
use = "ac neutral"
wire_min = "14"
wire_max = "4"
materials = ["cu", "al"]
""",
}


def swap(text: str, changes: dict[str, str]) -> str:
    """The text with every old part replaced; a part that is not there is a mistake of the test."""
    for old, new in changes.items():
        if old not in text:
            raise LookupError(old)
        text = text.replace(old, new)
    return text


def wired(job: dict[str, str] | None = None, **sheets: dict[str, str] | None) -> Wiring:
    """The wiring of the job with changes in the job file and in data sheets; a sheet of None is left out."""
    survey = read_job(swap(JOB, job or {})).survey
    if survey is None:
        raise LookupError("the job cannot be read")
    found: dict[str, SheetFile] = {}
    for role, text in SHEETS.items():
        changes = sheets.get(role, {})
        if changes is None:
            continue
        sheet = read_sheet(swap(text, changes), f"{role}.toml").sheet
        if sheet is None:
            raise LookupError(role)
        found[role] = sheet
    return wire(NEC, HANDBOOK, survey, found)


def check(wiring: Wiring, id: str) -> Check:
    """A check of the wiring by its id."""
    return next(each for each in wiring.checks if each.id == f"wiring.{id}")
