"""What an arc at the direct-current side of a battery can do: for signs and clothing, never leave to work live.

Energy and boundary are those of the greatest power that the circuit can give, in an enclosure, at full charge; beyond
what an arc of so low a voltage does. Beside it stands whether the law of a steady arc finds one that burns at all. A
tool across two terminals melts and throws metal where no arc stays: its burns are in no method.
"""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.wiring import dc_fault
from standfast.design.wiring.dc_circuit import DcCircuit
from standfast.design.wiring.material import Material
from standfast.rulebooks.dc_arcs import steady_arc
from standfast.rulebooks.handbook import battery_fault
from standfast.rulebooks.nfpa70e import dc_arc
from standfast.sheet import Value, attempt, given, work
from standfast.shelf import Edition

LIMITS = (
    "Method of the greatest power (NFPA 70E Annex D): half the bolted fault current at half the voltage for as long as "
    "nothing is known to clear it, at most 1000 V; three times that of open air for an arc in an enclosure.",
    "Below about 60 V arcs rarely last, so that the energy is well above what they give; where the law of steady arcs "
    "finds one at the usual gap of terminals, its current stands in the last column. A ring or a spanner across the "
    "terminals melts and burns all the same.",
    "The numbers are for signs and for choosing clothing together with a licensed person. They permit no work on live "
    "parts: a battery is worked on as its maker says.",
)


class ArcFlash(NamedTuple):
    """One place at the direct-current side of a battery.

    Attributes:
        unit: ``battery-1``.
        place: in words.
        voltage: of the charged battery in V.
        fault: bolted fault current in kA.
        time: how long an arc lasts in s.
        distance: from the arc to face and chest, in cm.
        energy: incident energy there, in cal/cm2.
        boundary: how far away the energy of a burn reaches, in cm.
        clothing: what the energy asks for, in words.
        steady: current in A of the arc that the law of steady arcs finds at a usual gap; zero where none lasts.
    """

    unit: str
    place: str
    voltage: Value
    fault: Value
    time: Value
    distance: Value
    energy: Value
    boundary: Value
    clothing: Value
    steady: Value


def flashes(task: Material, safety: Edition, papers: Edition, circuits: tuple[DcCircuit, ...]) -> Iterator[ArcFlash]:
    """The places of every battery that is joined to an inverter of its own: before its device, and beyond it.

    Args:
        task: the job.
        safety: NFPA 70E.
        papers: the papers on steady arcs.
        circuits: the DC circuit of every battery.
    """
    for each in circuits:
        name = each.unit.replace("-", " ")
        unknown = safety.number("arc_time_unknown")
        if not each.inside:
            place = f"{name}, terminals up to its fuse or breaker"
            yield _flash(task, safety, papers, each._replace(fault=_terminals(task)), place, unknown)
        device = "beyond the device inside it" if each.inside else "beyond its fuse or breaker, up to the inverter"
        time = _time(task, safety, each, unknown)
        made = each._replace(fault=dc_fault.together(task))
        yield _flash(task, safety, papers, made, f"{name}, {device}", time)


def _terminals(task: Material) -> Value:
    """What one battery drives at its own terminals; what others add comes through its fuse."""
    return dc_fault.of_one(task, given("R_leads", 0.0, "mohm", "at the terminals of the battery"))


def _flash(
    task: Material, safety: Edition, papers: Edition, made: DcCircuit, place: str, time: Value
) -> ArcFlash:  # fmt: skip
    volts = task.of("battery", "dc.voltage_max", "V", "V")
    bolted = work("I_bf", "I_sc * 1000", "A", None, I_sc=made.fault)
    arc, distance = dc_arc.arc_current(safety, bolted), safety.number("working_distance")
    energy = dc_arc.in_a_box(safety, dc_arc.incident_energy(safety, volts, arc, time, distance))
    edge = dc_arc.boundary(safety, volts, arc, time, safety.number("burn_energy"))
    steady = attempt(
        "I_arc", "A", lambda: steady_arc.arc(papers, volts, bolted, papers.number("usual_gap"), time).current
    )  # fmt: skip
    return ArcFlash(
        made.unit, place, volts, made.fault, time, distance, energy, dc_arc.boundary_in_a_box(safety, edge),
        attempt("band", "", lambda: dc_arc.band(safety, energy)), steady,
    )  # fmt: skip


def _time(task: Material, safety: Edition, made: DcCircuit, unknown: Value) -> Value:
    """How long an arc lasts behind the device: its clearing time where even a weak arc at the far end is enough for it.

    The weakest arc is that of the bolted current at the inverter, with all conductors long and hot.
    """
    sheet = task.sheets.get("dc_overcurrent")
    if made.inside or sheet is None or not sheet.has("switch.dc_clearing_time"):
        return unknown
    due = task.of("dc_overcurrent", "switch.dc_clearing_current", "I_clear", "A")
    weak = dc_arc.arc_current(safety, work("I_bf", "I_far * 1000", "A", None, I_far=_far(task, made)))
    if weak.missing or due.missing or weak.quantity < due.quantity:
        return unknown
    return task.of("dc_overcurrent", "switch.dc_clearing_time", "t_clear", "s")


def _far(task: Material, made: DcCircuit) -> Value:
    """Bolted fault current in kA at the inverter."""
    metal, size = made.circuit.conductor.conditions.material, made.circuit.conductor.size
    leads = dc_fault.both(task, dc_fault.Leads(metal, size, made.sets), made.circuit.length, hot=True)
    full = task.of("battery", "dc.voltage_max", "U_oc", "V")
    internal = work("R_int", "U_oc / I_sc", "mohm", None, full, I_sc=made.fault)
    return attempt("I_bat", "kA", lambda: battery_fault.current(task.handbook, full, internal, leads))
