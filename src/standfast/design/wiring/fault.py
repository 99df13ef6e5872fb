"""Fault current at every bus, with what the sources of the house add, against what each device can break or stand.

The current at the service is taken undiminished along the feeders: never less than the true one, so a pass is safe.
"""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.installation.build import feeder_of
from standfast.design.wiring.material import Material
from standfast.design.wiring.sources import Source, other_sources
from standfast.rulebooks.handbook import fault_current
from standfast.rulebooks.nfpa70 import overcurrent
from standfast.sheet import Check, Clause, Value, at_most, attempt, chosen, settle, total, work

SERVICE = "service-disconnect"
WITH_ENCLOSURE = "above 10 kA: the panelboard is marked for use with the enclosure that it is in (408.38)"


def at_service(task: Material) -> Value:
    """Available fault current at the service in kA: as the utility states it, else from its transformer.

    From the transformer it is the current at the transformer's own terminals, of the greater of both loops.
    """
    if task.job.has("supply.fault_current") or not task.job.has("supply.transformer"):
        return task.job.fact("supply.fault_current", "I_sc", "kA")
    fact, path = task.job.fact, "supply.transformer"
    power, voltage = fact(f"{path}.rating", "S", "VA"), fact("supply.voltage", "U", "V")
    z = work("z", "z_pct / 100", "1", None, fact(f"{path}.impedance", "z_pct", "%"))
    system = fact("supply.system", "system")
    if system.missing:
        return chosen("I_sc", 0.0, "kA", "", None, system)
    three_phase = system.word == "120/208 V three-phase"
    low = _tolerance(task)
    found = fault_current.at_transformer(task.handbook, three_phase, power, voltage, z, low).fault
    if system.word == "120/240 V single-phase":
        multiplier = task.handbook.number("line_neutral_multiplier")
        found = fault_current.line_to_neutral(task.handbook, found, multiplier)
    return work("I_sc", "I_A / 1000", "kA", None, I_A=found)


def contributions(task: Material, added: Sequence[Source]) -> Value:
    """What the sources of the house, those that were there too, add to a fault, in kA.

    Args:
        task: the job.
        added: every source that the job adds.
    """
    unit = task.own("fault_contribution", "I_unit", "kA")
    multiple, clause = task.handbook.number("inverter_fault_multiple"), task.handbook.clause("inverter_fault")
    others = [
        work(
            "I_other", "k_inv * I_out / 1000", "kA", clause, multiple,
            I_out=task.job.fact(f"panels.{panel}.circuits.{circuit.id}.source_output", "I_out", "A"),
        )
        for panel in task.job.ids("panels")
        for circuit in other_sources(task, panel)
    ]  # fmt: skip
    return total("I_added", [unit for _ in added] + others, "kA")


def at_buses(task: Material, panels: Sequence[str], added: Sequence[Source]) -> dict[str, Value]:
    """Fault current in kA at the service, at every busbar on the way to a source, at its disconnect and at itself.

    Args:
        task: the job.
        panels: on the way of any source, nearest first.
        added: every source that the job adds.
    """
    service, more = at_service(task), contributions(task, added)
    names = [SERVICE, *reversed(panels)]
    for each in added:
        names += [f"{each.id}/disconnect"] if "disconnect" in task.sheets else []
        names.append(terminals(task, each.id))
    return {name: work("I_fault", "I_sc + I_added", "kA", None, more, I_sc=service) for name in names}


def terminals(task: Material, source: str) -> str:
    """The part of the installation that holds the AC terminals of a source."""
    return source if task.role == "inverter" else f"{source}/inverter"


def checks(
    task: Material, panels: Sequence[str], added: Sequence[Source], faults: Mapping[str, Value]
) -> Iterator[Check]:  # fmt: skip
    """Interrupting ratings and short-circuit ratings against the fault current."""
    fact, nec = task.job.fact, task.nec
    main = fact("supply.main_interrupting", "I_cu", "kA")
    yield _breaks(task, "service-disconnect", "Service disconnect", faults[SERVICE], main)
    stands = nec.clause("short_circuit_rating")
    for each in panels:
        name = task.panel(each).name or each
        breakers = fact(f"panels.{each}.breaker_interrupting", "I_cu", "kA")
        yield _breaks(task, each, f"Breakers of the {name}", faults[each], breakers)
        board = fact(f"panels.{each}.short_circuit_rating", "I_scc", "kA")
        clause = nec.clause("panelboard_short_circuit")
        check = _stands(each, f"Short-circuit rating of the {name}", clause, faults[each], board)
        marked = check.verdict == "pass" and _above(task, faults[each])
        yield check._replace(condition=WITH_ENCLOSURE) if marked else check
    new = task.of("breaker", "switch.interrupting", "I_cu", "kA")
    for each in panels:
        found = feeder_of(task.job, task.panel(each))
        if found is not None and found[1].state == "new":
            name = f"Breaker of the feeder of the {task.panel(each).name or each}"
            above = faults.get(found[0], faults[SERVICE])  # where what feeds the panel was not said, the service's
            yield _breaks(task, f"{found[0]}/{found[1].id}", name, above, new)
    for source in added:
        yield _breaks(task, f"{source.id}/breaker", "Breaker of the unit", faults[source.panel or SERVICE], new)
        place = f"{source.id}/disconnect"
        if place in faults:
            yield of_switch(task, "disconnect", place, faults[place])
    for each in panels:
        if task.panel(each).fed_through is not None and "island_switch" in task.sheets:
            yield of_switch(task, "island_switch", f"{each}/island-switch", faults[each])
    for source in added:
        own = task.own("short_circuit_rating", "I_scc", "kA")
        yield _stands(source.id, "Short-circuit rating of the unit", stands, faults[terminals(task, source.id)], own)


def of_switch(task: Material, role: str, id: str, fault: Value) -> Check:
    """Short-circuit rating of a switch that hangs in a run.

    Args:
        task: the job.
        role: of its data sheet.
        id: of the part.
        fault: fault current there in kA.
    """
    board, name = task.of(role, "switch.short_circuit_rating", "I_scc", "kA"), role.replace("_", "-")
    with_, clause = task.of(role, "switch.short_circuit_with", "with"), task.nec.clause("short_circuit_rating")
    check = _stands(id, f"Short-circuit rating of the {name}", clause, fault, board)
    return check if with_.missing or check.verdict != "pass" else check._replace(condition=with_.word)


def _breaks(task: Material, id: str, name: str, fault: Value, marked: Value) -> Check:
    rating = overcurrent.marked_interrupting(task.nec, marked)
    id, title = f"wiring.interrupting-rating/{id}", f"{name}: interrupting rating"
    clause = task.nec.clause("interrupting_rating")
    return settle(id, title, clause, lambda: overcurrent.interrupting(task.nec, id, title, fault, rating))


def _stands(id: str, title: str, clause: Clause, fault: Value, rating: Value) -> Check:
    return at_most(f"wiring.short-circuit-rating/{id}", title, clause, fault, rating)


def _above(task: Material, fault: Value) -> bool:
    """Whether a panelboard needs a mark for its enclosure: above a current that not every edition states."""
    limit = attempt("I_panel", "kA", lambda: task.nec.number("panelboard_evaluated"))
    return not (fault.missing or limit.missing) and fault.quantity > limit.quantity


def _tolerance(task: Material) -> Value:
    if task.job.has("supply.transformer.tolerance"):
        stated = task.job.fact("supply.transformer.tolerance", "tol", "%")
        return work("k_z", "1 - tol / 100", "1", None, stated)
    return task.handbook.number("impedance_tolerance")
