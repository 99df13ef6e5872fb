"""Whether the least fault current at the far end of a new circuit still trips its breaker at once.

Beyond the current at which a breaker trips without delay a fault lasts a cycle or two; below it conductors heat up for
seconds. The fault is one from a line to the equipment grounding conductor, or between two lines, fed by the grid.
"""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.fault_levels import Level, terminals
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.material import Material
from standfast.design.wiring.unit import UnitCircuit
from standfast.rulebooks.handbook import fault_heat
from standfast.rulebooks.nfpa70 import sizes
from standfast.sheet import Check, Value, at_least, settle, work


def checks(
    task: Material, levels: Mapping[str, Level], feeders: Sequence[Feeder], units: Sequence[UnitCircuit]
) -> Iterator[Check]:
    """Of every new circuit: its breaker trips at once, and its conductors stand what the breaker lets through.

    Args:
        task: the job.
        levels: fault currents by place.
        feeders: to the panels of the sources.
        units: circuits of the sources.
    """
    found = [(each.built, each.device, each.panel) for each in feeders if each.built is not None and each.added]
    found += [(each.circuit, each.breaker, terminals(task, each.id)) for each in units]
    for made, device, end in found:
        yield _trips(task, made, device, levels[end].least)
        yield from _heats(task, made)


def _trips(task: Material, made: Circuit, device: Value, least: Value) -> Check:
    multiple = task.of("breaker", "switch.instantaneous", "k_inst", "1")
    clause = task.nec.clause("fault_path")
    needed = work("I_inst", "k_inst * I_n / 1000", "kA", clause, multiple, I_n=device)
    title = f"{made.title}: the least fault current at its far end trips its breaker at once"
    return at_least(f"wiring.fault-trips/{made.id}", title, clause, least, needed)


def _heats(task: Material, made: Circuit) -> Iterator[Check]:
    """Only where the maker states the energy: most breakers of houses state none, and the code asks for no proof."""
    sheet = task.sheets.get("breaker")
    if sheet is None or not sheet.has("switch.let_through"):
        return
    let_through = task.of("breaker", "switch.let_through", "I2t", "A²·s")
    clause, metal = task.handbook.clause("conductor_heat"), made.conductor.conditions.material
    for name, word, size in (
        ("conductors", "line", made.conductor.size),
        ("grounding conductor", "ground", made.ground),
    ):
        id = f"wiring.let-through/{made.id}/{word}"
        title = f"{made.title}: its {name} stand what the breaker lets through"

        def ask(id: str = id, title: str = title, size: Value = size) -> Check:
            area = sizes.area(task.nec, size)
            return at_least(id, title, clause, fault_heat.withstand(task.handbook, metal, area), let_through)

        yield settle(id, title, clause, ask)
