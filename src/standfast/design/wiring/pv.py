"""Every check on the arrays that are joined to the inverter of a job."""

from collections.abc import Iterator

from standfast.design.wiring import circuit, ends, raceway
from standfast.design.wiring.gaps import told
from standfast.design.wiring.material import Material
from standfast.design.wiring.pv_circuit import ArrayCircuit, plans
from standfast.rulebooks.nfpa70 import photovoltaics
from standfast.sheet import Check, Value, at_least, at_most, cannot_tell, chosen, given, is_, missing
from standfast.survey.joined import has_inverter

__all__ = ["ArrayCircuit", "checks", "plans"]

SHUTDOWN = "emergency shutdown"


def checks(task: Material, found: tuple[ArrayCircuit, ...] | None = None) -> Iterator[Check]:
    """Every check on every array.

    Args:
        task: the job.
        found: the circuits, where they were worked out already.
    """
    if task.job.content.arrays and not has_inverter(task.job.content):
        title, clause = "The arrays of the job have an inverter", task.nec.clause("listed_use")
        why = "equipment.inverter: arrays are joined to an inverter of the job: choose it by the id of its data sheet"
        yield cannot_tell("wiring.pv-inverter", title, clause, why)
    for each in plans(task) if found is None else found:
        yield from told(task.nec, f"wiring.unstated-pv/{each.id}", f"{each.name}: array", _array(task, each))
        asked = _conductors(task, each)
        yield from told(task.nec, f"wiring.unstated-pv-conductors/{each.id}", f"{each.name}: conductors", asked)


def _array(task: Material, found: ArrayCircuit) -> Iterator[Check]:
    nec, id, name = task.nec, found.id, found.name
    maker = nec.clause("listed_use")

    def own(word: str, symbol: str, unit: str = "") -> Value:
        if not task.job.has(f"arrays.{id}.input"):
            return missing(symbol, unit, f"arrays.{id}.input: the input of the inverter that it is on")
        return task.of("inverter", f"{found.input}.{word}", symbol, unit)

    title = f"{name}: greatest voltage in the cold"
    yield photovoltaics.dwelling_voltage(nec, f"wiring.pv-voltage/{id}", f"{title}, in a dwelling", found.voltage)
    yield at_most(f"wiring.pv-input-voltage/{id}", f"{title}, at the input", maker, found.voltage,
                  own("voltage_max", "U_input", "V"))  # fmt: skip
    yield at_most(f"wiring.pv-input-current/{id}", f"{name}: greatest current at the input", maker, found.shared,
                  own("short_circuit_max", "I_input", "A"))  # fmt: skip
    yield at_most(f"wiring.pv-input-strings/{id}", f"{name}: strings that the input takes", maker, found.strings,
                  own("strings", "n_input", "1"))  # fmt: skip
    title = f"{name}: strings in parallel without fuses"
    yield photovoltaics.unfused(nec, f"wiring.pv-overcurrent/{id}", title, found.strings)
    title = f"{name}: protection against arcs"
    yield photovoltaics.arc_fault(nec, f"wiring.pv-arc-fault/{id}", title, found.voltage, own("arc_fault", "arc"))
    title = f"{name}: protection against ground faults"
    yield photovoltaics.ground_fault(
        nec, f"wiring.pv-ground-fault/{id}", title, found.voltage, found.current, own("ground_fault", "detects")
    )
    yield _disconnect(task, found)
    yield from _shutdown(task, found)


def _disconnect(task: Material, found: ArrayCircuit) -> Check:
    """Is there a switch that parts the array from all else? One inside the inverter is all that a job can tell of."""
    id, title = f"wiring.pv-disconnect/{found.id}", f"{found.name}: disconnecting means of the PV system"
    clause, inside = task.nec.clause("pv_disconnect"), task.of("inverter", "electrical.pv_switch_inside", "switch")
    if not inside.missing and inside.number is False:
        need = "inverter: it has no switch for PV; a switch beside it has no word in the job: plan it by hand"
        return cannot_tell(id, title, clause, need)
    return is_(id, title, clause, inside, chosen("needed", True, "", "arrays are joined to it", clause))


def _shutdown(task: Material, found: ArrayCircuit) -> Iterator[Check]:
    id, clause = found.id, task.nec.clause("pv_shutdown")
    yes = chosen("needed", True, "", "an array on a building", clause)
    shut = task.job.fact(f"arrays.{id}.rapid_shutdown", "shutdown")
    yield is_(f"wiring.pv-rapid-shutdown/{id}", f"{found.name}: rapid shutdown of its conductors", clause, shut, yes)
    title, clause = f"{found.name}: switch of the rapid shutdown outdoors", task.nec.clause("pv_shutdown_place")
    mark = next((each for each in task.job.content.land.marks if each.kind == SHUTDOWN), None)
    if mark is None:
        need = 'land.marks: a mark of the kind "emergency shutdown", where its switch is put outside'
        yield cannot_tell(f"wiring.pv-shutdown-place/{id}", title, clause, need)
        return
    planned = given("planned", True, "", task.job.place(f"land.marks.{mark.id}"))
    yield is_(f"wiring.pv-shutdown-place/{id}", title, clause, planned, yes,
              condition="one switch shuts down battery and array, and its sign says so")  # fmt: skip


def _conductors(task: Material, found: ArrayCircuit) -> Iterator[Check]:
    nec, id, made = task.nec, found.id, found.circuit
    carried, need, metal = made.conductor.carried, made.need, made.conductor.conditions.material
    yield at_least(
        f"wiring.pv-terminations/{id}", f"{made.title} at their terminations, before factors",
        nec.clause("pv_ampacity"), carried.at_terminations, need.before,
    )  # fmt: skip
    yield at_least(
        f"wiring.pv-ampacity/{id}", f"{made.title} after ambient and bundling", nec.clause("pv_ampacity"),
        carried.after_factors, need.after,
    )  # fmt: skip
    clause = nec.clause("pv_equipment_ground")
    yield circuit.ground_check(task, f"wiring.pv-equipment-ground/{id}", clause, made)
    yield from ends.checks(task, made.id, "pv", made.conductor.size, metal, [found.end])
    for tube in made.raceways:
        yield from raceway.checks(task, made.id, tube)
