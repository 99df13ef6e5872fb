"""Fault current at every place, with what the sources of the house add, against what each device breaks and stands."""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.installation.build import feeder_of
from standfast.design.wiring import fault_levels, fault_series, fault_source, fault_trips, feeder
from standfast.design.wiring.fault_levels import SERVICE, Level, terminals
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.material import Material
from standfast.design.wiring.sources import Source, other_sources
from standfast.design.wiring.unit import UnitCircuit
from standfast.rulebooks.nfpa70 import overcurrent
from standfast.sheet import Check, Clause, Value, at_most, attempt, missing, settle, total, work

WITH_ENCLOSURE = "above 10 kA: the panelboard is marked for use with the enclosure that it is in (408.38)"


def plan(
    task: Material, panels: Sequence[str], feeders: Sequence[Feeder], units: Sequence[UnitCircuit],
    added: Sequence[Source],
) -> dict[str, Level]:  # fmt: skip
    """Fault currents at the service, at every busbar of the house, at the disconnect and terminals of every source.

    Args:
        task: the job.
        panels: on the way of any source, nearest first.
        feeders: of these panels.
        units: circuits of the sources whose panel is known.
        added: every source that the job adds.
    """
    others = elsewhere(task, panels)
    ways = [*feeders, *(each for panel in others if (each := feeder.nearest(task, panel)) is not None)]
    lost = [each.id for each in added if each.id not in {made.id for made in units}]
    places = fault_levels.reaches(task, [*others, *panels], ways, units, lost)
    return fault_levels.levels(task, fault_source.grid(task), list(places), contributions(task, added))


def elsewhere(task: Material, panels: Sequence[str]) -> list[str]:
    """Panels that are on the way of no source, furthest from the service first; what is added reaches them too."""
    rest = [each for each in task.job.ids("panels") if each not in panels]
    return sorted(rest, key=lambda panel: -len(task.way_up(panel)))


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
    return total("I_added", [unit for _ in added] + others + _generators(task), "kA")


def _generators(task: Material) -> list[Value]:
    """What generators add that can run while the house is joined to the grid."""
    found = list[Value]()
    for each in task.job.content.generators:
        path = f"generators.{each.id}"
        apart = task.job.fact(f"{path}.interlocked", "interlocked")
        if apart.missing:
            found.append(missing("I_gen", "kA", apart.how, apart))
        elif not apart.yes:
            found.append(task.job.fact(f"{path}.fault_contribution", "I_gen", "kA"))
    return found


def checks(
    task: Material, panels: Sequence[str], added: Sequence[Source], levels: Mapping[str, Level],
    feeders: Sequence[Feeder], units: Sequence[UnitCircuit],
) -> Iterator[Check]:  # fmt: skip
    """Interrupting ratings and short-circuit ratings against the greatest current, tripping with the least.

    Args:
        task: the job.
        panels: on the way of any source, nearest first.
        added: every source that the job adds.
        levels: fault currents by place.
        feeders: of these panels.
        units: circuits of the sources whose panel is known.
    """
    yield from fault_source.agreed(task)
    faults = fault_levels.greatest(levels)
    main = task.job.fact("supply.main_interrupting", "I_cu", "kA")
    yield _breaks(task, "service-disconnect", "Service disconnect", faults[SERVICE], main)
    yield from _panels(task, [*panels, *elsewhere(task, panels)], added, faults)
    yield from _new_devices(task, panels, added, faults)
    yield from fault_trips.checks(task, levels, feeders, units)


def _panels(
    task: Material, panels: Sequence[str], added: Sequence[Source], faults: Mapping[str, Value]
) -> Iterator[Check]:  # fmt: skip
    """Breakers and short-circuit ratings of every panel."""
    fact, nec = task.job.fact, task.nec
    for each in panels:
        name = task.panel(each).name or each
        breakers = fact(f"panels.{each}.breaker_interrupting", "I_cu", "kA")
        found = _breaks(task, each, f"Breakers of the {name}", faults[each], breakers)
        yield fault_series.judged(task, each, found, breakers, added)
        board = fact(f"panels.{each}.short_circuit_rating", "I_scc", "kA")
        clause = nec.clause("panelboard_short_circuit")
        check = _stands(each, f"Short-circuit rating of the {name}", clause, faults[each], board)
        marked = check.verdict == "pass" and _above(task, faults[each])
        yield check._replace(condition=WITH_ENCLOSURE) if marked else check


def _new_devices(
    task: Material, panels: Sequence[str], added: Sequence[Source], faults: Mapping[str, Value]
) -> Iterator[Check]:  # fmt: skip
    """What the job adds: breakers, disconnects, island switch, and the sources themselves."""
    new = task.of("breaker", "switch.interrupting", "I_cu", "kA")
    stands = task.nec.clause("short_circuit_rating")
    for each in panels:
        found = feeder_of(task.job, task.panel(each))
        if found is not None and found[1].state == "new":
            name = f"Breaker of the feeder of the {task.panel(each).name or each}"
            above = faults.get(found[0], faults[SERVICE])  # where what feeds the panel was not said, the service's
            judged = _breaks(task, f"{found[0]}/{found[1].id}", name, above, new)
            yield fault_series.judged(task, found[0], judged, new, added, new=True)
    for source in added:
        judged = _breaks(task, f"{source.id}/breaker", "Breaker of the unit", faults[source.panel or SERVICE], new)
        yield fault_series.judged(task, source.panel, judged, new, added, new=True)
        place = f"{source.id}/disconnect"
        if place in faults:
            yield of_switch(task, "disconnect", place, faults[place])
    for each in panels:
        if task.panel(each).fed_through is not None and "island_switch" in task.sheets:
            yield _island_switch(task, each, faults)
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


def _island_switch(task: Material, panel: str, faults: Mapping[str, Value]) -> Check:
    """It stands somewhere in the feeder: a pass at its start holds all along, a fail at its end too."""
    id, above = f"{panel}/island-switch", task.panel(panel).fed_from
    start = of_switch(task, "island_switch", id, faults.get(above or "", faults[SERVICE]))
    if start.verdict != "fail":
        return start
    end = of_switch(task, "island_switch", id, faults[panel])
    if end.verdict != "pass":
        return end
    why = (
        f'routes: the run from {above} to "island-switch" and from there to {panel}; it passes at the end of the feeder'
    )
    return start._replace(verdict="cannot tell", margin=None, reason=why)


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
