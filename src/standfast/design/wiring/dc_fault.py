"""What batteries drive into a fault of their direct-current conductors, and what protects each end of these.

The greatest is taken at the device that breaks it: full charge, new and warm cells, cold and short conductors up to
it. Where the ports of the inverter are one busbar inside, every other battery feeds back into the fault of one.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.wiring import fault_pieces
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import Run
from standfast.rulebooks.handbook import battery_fault, fault_path
from standfast.rulebooks.nfpa70 import parallel, resistance
from standfast.sheet import (
    Check,
    Value,
    attempt,
    cannot_tell,
    given,
    is_,
    missing,
    not_applicable,
    total,
    work,
    worst,
)
from standfast.survey.joined import installed

WORDS = "dc.short_circuit_current, or dc.internal_resistance"
ALONE = "one battery: nothing else feeds into its fault but the inverter, which limits its current"


class Leads(NamedTuple):
    """Conductors of a pole: metal, size, how many in parallel."""

    material: Value
    size: Value
    number: Value


def greatest(task: Material, unit: str, ways: Sequence[Run], leads: Leads, *, inside: bool) -> Value:
    """Fault current in kA at the device of a battery, from it or from the others, whichever is more.

    Args:
        task: the job.
        unit: name of the battery.
        ways: its runs to the inverter, from its end on.
        leads: its conductors.
        inside: whether its device is inside it, so that no conductor lies before it.
    """
    own = of_one(task, _before(task, unit, ways, leads, inside=inside))
    count = installed(task.job, "n_bat")
    joined = task.of("inverter", "dc.ports_joined", "joined")
    if joined.number is False or count.number == 1:
        return own
    lacking = next((each for each in (count, joined) if each.missing), None)
    if lacking is not None:
        return missing("I_sc", "kA", lacking.how, lacking)
    return worst("I_sc", [own, battery_fault.fed_back(task.handbook, own, count)], "max")


def together(task: Material) -> Value:
    """Of all batteries that feed one fault of the busbar, in kA, at their terminals."""
    one, count = of_one(task, given("R_leads", 0.0, "mohm", "at the terminals")), installed(task.job, "n_bat")
    joined = task.of("inverter", "dc.ports_joined", "joined")
    if joined.number is False or count.number == 1:
        return one
    lacking = next((each for each in (count, joined) if each.missing), None)
    if lacking is not None:
        return missing("I_sc", "kA", lacking.how, lacking)
    return work("I_all", "n_bat * I_sc", "kA", task.handbook.clause("battery_fault"), count, I_sc=one)


def of_one(task: Material, leads: Value) -> Value:
    """Of one battery behind leads of a resistance in milliohm: as its maker states, else from its resistance."""
    sheet = task.sheets.get("battery")
    if sheet is not None and not (sheet.has("dc.short_circuit_current") or sheet.has("dc.internal_resistance")):
        return missing("I_sc", "kA", f"{sheet.file}: {WORDS}")
    stated = task.of("battery", "dc.short_circuit_current", "I_sc", "kA")
    if sheet is None or not sheet.has("dc.internal_resistance"):
        return stated
    full = task.of("battery", "dc.voltage_max", "U_oc", "V")
    internal = task.of("battery", "dc.internal_resistance", "R_int", "mohm")
    worked = attempt("I_sc", "kA", lambda: battery_fault.current(task.handbook, full, internal, leads))
    return worked if not sheet.has("dc.short_circuit_current") else worst("I_sc", [stated, worked], "max")


def _before(task: Material, unit: str, ways: Sequence[Run], leads: Leads, *, inside: bool) -> Value:
    """Resistance in milliohm of both conductors between a battery and its device, short and cold; joints left out."""
    fuse = f"{unit}/dc-overcurrent"
    if inside or not any(fuse in run.ends for run in ways):
        return given("R_leads", 0.0, "mohm", "at the terminals of the battery")
    before = list[Run]()
    for run in ways:
        before.append(run)
        if fuse in run.ends:
            break
    length = total("L_min", [fault_pieces.shortest(task, run) for run in before], "ft")
    return both(task, leads, length)


def both(task: Material, leads: Leads, length: Value, *, hot: bool = False) -> Value:
    """Resistance in milliohm of both conductors of a length in ft, in a cold room, or at their rated temperature."""
    book = task.handbook

    def ask() -> Value:
        one = parallel.resistance(task.nec, resistance.direct(task.nec, leads.material, leads.size), leads.number)
        at, now = book.number("tabulated_conductor"), book.number("cold_conductor")
        if not (hot or leads.material.missing):
            one = fault_path.at_temperature(book, leads.material.word, one, at, now)
        return work("R_leads", "2 * r * L", "mohm", book.clause("battery_fault"), r=one, L=length)

    return attempt("R_leads", "mohm", ask)


def fed_back(task: Material, unit: str) -> Check:
    """Other batteries on a common busbar feed the conductors of one from the inverter's end, past its own device.

    The inverter itself limits what it feeds, and the conductors carry that: from its end nothing else has to be
    interrupted.

    Args:
        task: the job.
        unit: name of the battery.
    """
    id, title = f"wiring.dc-fed-back/{unit}", "Conductors of the battery are protected against the other batteries too"
    clause, count = task.nec.clause("storage_overcurrent"), installed(task.job, "n_bat")
    if count.missing:
        return cannot_tell(id, title, clause, count.how, count)
    if count.quantity <= 1:
        return not_applicable(id, title, clause, ALONE)
    joined = task.of("inverter", "dc.ports_joined", "joined")
    apart = given("joined", False, "", "a device at the inverter's end of each would be needed, which no word places")
    return is_(id, title, clause, joined, apart)
