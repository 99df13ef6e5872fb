"""A source ahead of the service disconnect: its conductors and its disconnect are service conductors and equipment.

A route of the job says so with the end ``service-tap``. Such a source is on no busbar; the service conductors carry it
together with all others, and the fault current at its disconnect is that of the service.
"""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.wiring import controls, ends, runs, sources
from standfast.design.wiring.fault_levels import SERVICE
from standfast.design.wiring.material import Material
from standfast.design.wiring.sources import Source
from standfast.design.wiring.unit import UnitCircuit
from standfast.rulebooks.nfpa70 import conductors, grounding, service_side, sizes
from standfast.sheet import Check, Value, at_least, at_most, chosen, is_, none_of, settle, total
from standfast.survey.joined import SERVICE_TAP

LIKE_A_SERVICE = (
    "neutral and ground are joined in its disconnect, and its metal is bonded, as in a service (250.24, 250.92)"
)


def joined_there(units: Sequence[UnitCircuit]) -> list[UnitCircuit]:
    """The sources that are joined ahead of the service disconnect."""
    return [each for each in units if each.panel == SERVICE_TAP]


def checks(
    task: Material, unit: UnitCircuit, added: Sequence[Source], faults: Mapping[str, Value]
) -> Iterator[Check]:  # fmt: skip
    """One such source.

    Args:
        task: the job.
        unit: its circuit.
        added: every source that the job adds.
        faults: fault current in kA by place.
    """
    id, nec = unit.id, task.nec
    yield _place(task, id)
    yield service_side.least_size(
        nec, f"wiring.supply-side-size/{id}", unit.circuit.conductor.size, unit.circuit.conductor.conditions.material
    )
    yield _together(task, id, added)
    yield _disconnect(task, id)
    yield _jumper(task, unit)
    tap = next((run for run in runs.between(task, id, [SERVICE_TAP]) if SERVICE_TAP in run.ends), None)
    if tap is not None:
        yield service_side.length(nec, f"wiring.supply-side-length/{id}", tap.longest)
    yield _breaks(task, id, faults[SERVICE])
    yield _backup(task, id)


def _place(task: Material, id: str) -> Check:
    """Beyond an emergency disconnect that is the service disconnect, conductors are a feeder and no service."""
    title, clause = "The connection is ahead of the service disconnect", task.nec.clause("source_supply_side")
    where = task.job.fact("supply.emergency_disconnect", "emergency_disconnect")
    if where.number != "at the meter":
        ahead = chosen("ahead", True, "", "the service disconnect is the first device", clause, where)
    else:
        mark = task.job.fact("supply.emergency_disconnect_mark", "mark")
        met = "the disconnect at the meter: what is beyond a service disconnect is a feeder (705.12)"
        ahead = chosen("ahead", mark.number != "service disconnect", "", met, clause, mark)
    yes = chosen("needed", True, "", "a connection on service conductors", clause)
    return is_(f"wiring.supply-side-place/{id}", title, clause, ahead, yes)


def _together(task: Material, id: str, added: Sequence[Source]) -> Check:
    """All sources of the house together are within the service conductors, unless a listed control holds them."""
    check, title = f"wiring.supply-side-sum/{id}", "Service conductors carry all sources of the house together"
    clause, fact = task.nec.clause("source_supply_sum"), task.job.fact
    outputs = {each.id: each.output for each in added}
    for panel in task.job.ids("panels"):
        for each in sources.other_sources(task, panel):
            outputs[each.id] = fact(f"panels.{panel}.circuits.{each.id}.source_output", "I_other", "A")
    for control, setting in controls.of_service(task.job):
        held = controls.held_back(task.job, control) & set(outputs)
        outputs = {id: output for id, output in outputs.items() if id not in held} | (
            {control.id: setting} if held else {}
        )

    def ask() -> Check:
        path = "supply.conductors"
        metal, size, sets = (
            fact(f"{path}.{word}", word, unit) for word, unit in (("material", ""), ("size", ""), ("sets", "1"))
        )
        column = ends.column(task.nec, fact("supply.main", "I_main", "A"), [ends.of_panel(task, _service_panel(task))])
        one = conductors.tabulated(task.nec, metal, size, column)
        carried = conductors.of_sets(task.nec, one, sets, size)
        return at_most(check, title, clause, total("I_sources", list(outputs.values()), "A"), carried)

    return settle(check, title, clause, ask)


def _service_panel(task: Material) -> str:
    fed = [each.id for each in task.job.content.panels if each.fed_from == runs.UTILITY]
    return fed[0] if fed else next(iter(task.job.ids("panels")), SERVICE_TAP)


def _disconnect(task: Material, id: str) -> Check:
    """Its disconnect is made to be service equipment."""
    title, clause = "The disconnect of the source is suitable as service equipment", "source_supply_disconnect"
    said = task.nec.clause(clause)
    rated = task.of("disconnect", "switch.service_rated", "service_rated")
    yes = chosen("needed", True, "", "nothing but the utility's device is ahead of it", said)
    return is_(f"wiring.supply-side-disconnect/{id}", title, said, rated, yes, condition=LIKE_A_SERVICE)


def _jumper(task: Material, unit: UnitCircuit) -> Check:
    """Beside conductors of the service no equipment grounding conductor runs, but a supply-side bonding jumper."""
    id, title = f"wiring.supply-side-jumper/{unit.id}", "Bonding jumper beside the conductors ahead of the disconnect"
    clause, made = task.nec.clause("bonding_jumper"), unit.circuit

    def ask() -> Check:
        metal = made.conductor.conditions.material
        one = chosen("n_set", 1.0, "1", "one set", None) if made.sets is None else made.sets
        least = grounding.bonding_jumper(task.nec, metal, made.conductor.size, one, metal)
        have = sizes.area(task.nec, made.ground, "A_jumper")
        return at_least(id, title, clause, have, sizes.area(task.nec, least.size, "A_least"))

    return settle(id, title, clause, ask)


def _breaks(task: Material, id: str, fault: Value) -> Check:
    title, clause = (
        "The overcurrent device of the source breaks the fault current of the service",
        "interrupting_rating",
    )
    breaks = task.of("breaker", "switch.interrupting", "I_cu", "kA")
    return at_most(f"wiring.supply-side-interrupting/{id}", title, task.nec.clause(clause), fault, breaks)


def _backup(task: Material, id: str) -> Check:
    """It stands before whatever could part the house from the grid, so that it carries nothing alone."""
    title, clause = "Nothing is to be backed up by a source ahead of the service", task.nec.clause("transfer_equipment")
    mode = task.job.fact("backup.mode", "mode")
    refused = chosen(
        "refused", ("circuits", "whole house"), "", "no switch parts it from the grid with the house", clause
    )
    return none_of(f"wiring.supply-side-backup/{id}", title, clause, mode, refused)
