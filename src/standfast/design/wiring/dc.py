"""Every check on the direct-current circuit between a battery and an inverter that is not inside it."""

from collections.abc import Iterator

from standfast.design.wiring import (
    bends,
    circuit,
    dc_capacitors,
    dc_devices,
    dc_fault,
    dc_match,
    dc_partition,
    ends,
    raceway,
)
from standfast.design.wiring.dc_circuit import DcCircuit, plan
from standfast.design.wiring.dc_ratings import lugs
from standfast.design.wiring.gaps import told
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import sizes
from standfast.sheet import Check, Value, at_least, at_most, cannot_tell, settle
from standfast.survey.joined import has_inverter, unit_ids

__all__ = ["DcCircuit", "checks", "plan", "plans"]


def plans(task: Material) -> tuple[DcCircuit, ...]:
    """The circuit of every battery; none where the inverters are inside the batteries."""
    if not has_inverter(task.job.content):
        return ()
    return tuple(plan(task, unit) for unit in unit_ids(task.job.content))


def checks(
    task: Material, unit: str, found: DcCircuit | None = None, *,
    in_sight: Value | None = None, distance: Value | None = None, wall: str = "",
) -> Iterator[Check]:  # fmt: skip
    """Battery and inverter fit together, and what joins them is made for it.

    Args:
        task: the job.
        unit: name of the battery, ``battery-1``.
        found: its circuit, where it was worked out already.
        in_sight: yes where its DC disconnect can be seen from it; None where nobody said.
        distance: from the battery to that disconnect in ft.
        wall: the wall that the battery is at; empty where it has no place.
    """
    if not has_inverter(task.job.content):
        yield from _no_inverter(task, unit)
        return
    made = plan(task, unit) if found is None else found
    parts = {
        "match": dc_match.checks(task, made),
        "overcurrent": dc_devices.overcurrent_checks(task, made),
        "disconnect": dc_devices.disconnect_checks(task, made, in_sight, distance),
        "partition": dc_partition.checks(task, unit, wall, in_sight),
        "conductors": _conductors(task, made),
        "faults": [dc_fault.fed_back(task, unit)],
        "capacitors": dc_capacitors.checks(task, unit),
        "bending space": bends.checks(task, made.circuit, made.ends),
    }
    for part, asked in parts.items():
        title = f"{made.circuit.title}: {part}"
        yield from told(task.nec, f"wiring.unstated-dc-{part.replace(' ', '-')}/{unit}", title, asked)


def _no_inverter(task: Material, unit: str) -> Iterator[Check]:
    """A battery that gives direct current only has to have an inverter."""
    sheet = task.sheets.get("battery")
    if sheet is not None and sheet.content.dc is not None and not sheet.has("electrical.ac_voltage"):
        title, clause = "The battery has an inverter", task.nec.clause("listed_use")
        why = "equipment.inverter: this battery gives direct current: choose the inverter by the id of its data sheet"
        yield cannot_tell(f"wiring.dc-inverter/{unit}", title, clause, why)


def _conductors(task: Material, found: DcCircuit) -> Iterator[Check]:
    nec, unit, made = task.nec, found.unit, found.circuit
    carried, need = made.conductor.carried, made.need
    yield at_least(
        f"wiring.dc-terminations/{unit}", f"{made.title}: conductors at their terminations, before factors",
        nec.clause("termination_temperature"), carried.at_terminations, need.before,
    )  # fmt: skip
    yield at_least(
        f"wiring.dc-ampacity/{unit}", f"{made.title}: conductors after ambient and bundling",
        nec.clause("ampacity_corrected"), carried.after_factors, need.after,
    )  # fmt: skip
    yield at_most(
        f"wiring.dc-protection/{unit}", f"{made.title}: its device protects the conductors",
        nec.clause("conductor_protection"), need.device, carried.device,
    )  # fmt: skip
    yield from _parallel(task, found)
    several = not found.sets.missing and found.sets.quantity > 1
    clause = nec.clause("equipment_ground_parallel" if several else "equipment_ground")
    yield circuit.ground_check(task, f"wiring.dc-equipment-ground/{unit}", clause, made)
    metal = made.conductor.conditions.material
    yield from ends.checks(task, made.id, "dc", made.conductor.size, metal, list(found.ends))
    grounds = [ends.of_sheet(task, end.name.replace("-", "_"), "ground") for end in found.ends]
    yield from ends.checks(task, made.id, "ground", made.ground, metal, grounds)
    for tube in made.raceways:
        yield from raceway.checks(task, made.id, tube)
    limit, clause = task.handbook.number("dc_drop_limit"), task.handbook.clause("dc_drop")
    title = f"{made.title}: voltage drop at the greatest current and lowest voltage (usual practice)"
    yield at_most(f"wiring.dc-voltage-drop/{unit}", title, clause, found.drop.percent, limit)


def _parallel(task: Material, found: DcCircuit) -> Iterator[Check]:
    """As many lugs as conductors at every end, and no conductor in parallel that is too small for it."""
    clause = task.nec.clause("terminal_wire_range")
    for end in found.ends:
        title = f"{found.circuit.title}: one lug for each conductor at the {end.name.replace('-', ' ')}"
        room = lugs(task, end.name.replace("-", "_"))
        yield at_most(f"wiring.dc-lugs/{found.unit}/{end.name}", title, clause, found.sets, room)
    if found.sets.missing or found.sets.quantity <= 1:
        return
    id, title = f"wiring.dc-parallel/{found.unit}", f"{found.circuit.title}: size of conductors in parallel"
    clause, size = task.nec.clause("parallel_conductors"), found.circuit.conductor.size

    def ask() -> Check:
        least = sizes.area(task.nec, task.nec.number("smallest_parallel"), "A_least")
        return at_least(id, title, clause, sizes.area(task.nec, size), least,
                        condition="all of one length, metal, size, insulation and termination")  # fmt: skip

    yield settle(id, title, clause, ask)
