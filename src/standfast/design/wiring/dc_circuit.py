"""The direct-current circuit between a battery and its inverter as it is to be built."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.wiring import circuit, conductor, dc_fault, ends, raceway, runs, sets
from standfast.design.wiring.conductor import Conditions, Need
from standfast.design.wiring.dc_ratings import WIRES, draw, greatest, is_inside, lugs, rating
from standfast.design.wiring.drop import Change
from standfast.design.wiring.ends import End
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import Run
from standfast.design.wiring.sets import Fixed
from standfast.rulebooks.handbook import voltage_drop
from standfast.rulebooks.nfpa70 import direct_current, grounding, parallel, resistance, storage
from standfast.rulebooks.nfpa70.raceways import Group
from standfast.sheet import Value, attempt, chosen, given, total
from standfast.survey.joined import INVERTER

ENOUGH = 6
"""Sets that are tried where no data sheet says how many the terminals take."""


class DcCircuit(NamedTuple):
    """The circuit of one battery; drawings, schedules and material lists read it.

    Attributes:
        unit: ``battery-1``.
        drawn: greatest current in A that the inverter takes, at the lowest voltage of the battery.
        current: greatest current of the circuit in A.
        inside: true where the overcurrent device is part of the battery.
        device: its rating in A.
        fault: what batteries drive into a fault at its device, in kA.
        sets: conductors in parallel to each pole.
        circuit: conductors of a pole (its ampacities are those of all sets together), equipment grounding conductor,
            raceways.
        ends: where they end, the battery first.
        drop: along both conductors, in V and in per cent of the lowest voltage of the battery.
    """

    unit: str
    drawn: Value
    current: Value
    inside: bool
    device: Value
    fault: Value
    sets: Value
    circuit: circuit.Circuit
    ends: tuple[End, ...]
    drop: Change


def plan(task: Material, unit: str) -> DcCircuit:
    """Work out the circuit between a battery and the inverter.

    Args:
        task: the job.
        unit: name of the battery, ``battery-1``.
    """
    ways = runs.between(task, unit, [INVERTER]) or [runs.unsaid(unit, INVERTER)]
    drawn, current = draw(task), greatest(task)
    needed = attempt("I_req", "A", lambda: storage.circuit_ampacity(task.nec, current))
    inside = is_inside(task)
    device = (
        task.of("battery", "dc.overcurrent_device", "I_n", "A") if inside else rating(task, "dc_overcurrent", needed)
    )
    least = attempt("I_least", "A", lambda: direct_current.ampacity(task.nec, needed, device))
    after = attempt("I_after", "A", lambda: direct_current.ampacity(task.nec, current, device))
    at = _ends(task, ways, inside=inside)
    need = Need(least, after, device, given("n_wire", WIRES, "1", "plus and minus"))
    length = total("L_max", [run.longest for run in ways], "ft")
    found = _conductors(task, need, at, ways, length, current)
    built = joined(task, f"{unit}-dc", f"DC circuit of {unit.replace('-', ' ')}", need, found, ways)
    size, metal = found.conductor.size, found.conductor.conditions.material
    fault = dc_fault.greatest(task, unit, ways, dc_fault.Leads(metal, size, found.number), inside=inside)
    fallen = dropped(task, metal, size, found.number, built.length, current)
    return DcCircuit(unit, drawn, current, inside, device, fault, found.number, built, at, fallen)


def joined(
    task: Material, id: str, title: str, need: Need, found: sets.Sets, ways: Sequence[Run], *, grows: bool = True
) -> circuit.Circuit:  # fmt: skip
    """A direct-current circuit of chosen conductors, with its equipment grounding conductor and raceways.

    Args:
        task: the job.
        id: of the circuit.
        title: what people call it.
        need: what its conductors have to do.
        found: its conductors.
        ways: its runs, at least one; all sets of a run share its raceway.
        grows: false where its ground stays by the device though the conductors are larger: arrays, 690.45.
    """
    conductors, metal = found.conductor, found.conductor.conditions.material
    least = attempt("EGC", "", lambda: grounding.equipment(task.nec, metal, need.device))
    ground = attempt("EGC", "", lambda: circuit.grown_ground(task, least, conductors)) if grows else least
    groups = _groups(task, found, ground)
    tubes = tuple(raceway.plan(task.nec, run, groups) for run in ways)
    neutral = chosen("neutral", False, "", "direct current has none", None)
    length = total("L_max", [run.longest for run in ways], "ft")
    return circuit.Circuit(id, title, need, conductors, neutral, ground, least, tubes, length, found.number)


def dropped(task: Material, metal: Value, size: Value, number: Value, length: Value, current: Value) -> Change:
    """Drop along both conductors at 75 °C, in V and in per cent of the lowest voltage of the battery."""
    one = attempt("R_dc", "ohm/kft", lambda: resistance.direct(task.nec, metal, size))
    ohms = attempt("R_sets", "ohm/kft", lambda: parallel.resistance(task.nec, one, number))
    volts = voltage_drop.by_resistance(task.handbook, "dc", ohms, current, length)
    lowest = task.of("battery", "dc.voltage_min", "V", "V")
    return Change(volts, voltage_drop.percent(task.handbook, volts, lowest))


def _conductors(
    task: Material, need: Need, at: Sequence[End], ways: Sequence[Run], length: Value, current: Value
) -> sets.Sets:  # fmt: skip
    column = ends.column(task.nec, need.device, list(at))
    metals = [metal for metal in ("cu", "al") if all(circuit.end_takes(each, metal) for each in at)]

    def under(number: Value) -> Conditions:
        own = parallel.counted(task.nec, need.own, number)
        return conductor.conditions(task.nec, column, own, ways, metals)

    def steady(size: Value, number: Value) -> bool:
        metal = under(number).material
        change = dropped(task, metal, size, number, length, current).percent
        return change.missing or change.quantity <= task.handbook.number("dc_drop_limit").quantity

    fixed = Fixed(runs.agreed(ways, "size"), runs.stated_sets(task, ways))
    most = min((int(each.quantity) for each in _lugs(task, at) if not each.missing), default=ENOUGH)
    return sets.choose(
        task.nec, under, need, fixed, max(most, 1), lambda size: circuit.size_fits(task, size, at), steady
    )


def _lugs(task: Material, at: Sequence[End]) -> list[Value]:
    return [lugs(task, end.name.replace("-", "_")) for end in at]


def _ends(task: Material, ways: Sequence[Run], *, inside: bool) -> tuple[End, ...]:
    roles = ["battery"]
    if not inside:
        roles.append("dc_overcurrent")
    if any(end.endswith("/dc-disconnect") for run in ways for end in run.ends):
        roles.append("dc_disconnect")
    return tuple(ends.of_sheet(task, role, "dc") for role in (*roles, "inverter"))


def _groups(task: Material, found: sets.Sets, ground: Value) -> list[Group]:
    insulation = found.conductor.conditions.insulation
    lines = parallel.counted(task.nec, given("n_wire", WIRES, "1", "plus and minus"), found.number)
    one = given("n_ground", 1.0, "1", "one equipment grounding conductor of full size in each raceway")
    return [Group(lines, found.conductor.size, insulation), Group(one, ground, insulation)]
