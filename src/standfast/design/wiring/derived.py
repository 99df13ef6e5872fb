"""Jumper and electrode conductor of a battery whose island switch opens the neutral of the grid."""

from collections.abc import Iterator, Sequence

from standfast.design.wiring.material import Material
from standfast.design.wiring.unit import UnitCircuit
from standfast.rulebooks.nfpa70 import grounding, sizes
from standfast.sheet import Check, Value, at_least, chosen, not_applicable, settle

INSIDE = "the unit joins neutral and ground by itself: that joint is listed with it and has no size to check"


def checks(task: Material, units: Sequence[UnitCircuit]) -> Iterator[Check]:
    """Sizes by the conductors of the units together; nothing where the neutral of the grid stays joined.

    Args:
        task: the job.
        units: the circuits of the sources that form the island.
    """
    switched = task.of("island_switch", "switch.neutral_switched", "switched")
    if not units or "island_switch" not in task.sheets or switched.number is not True:
        return
    yield _jumper(task, units)
    yield _electrode(task, units)


def _jumper(task: Material, units: Sequence[UnitCircuit]) -> Check:
    id, title = "wiring.island-bonding-jumper", "Jumper that joins neutral and ground on the side of the battery"
    clause, joint = task.nec.clause("island_bond"), task.own("neutral_bond", "joint")
    if not joint.missing and joint.word != "none":
        return not_applicable(id, title, clause, INSIDE)

    def ask() -> Check:
        metal, size, number = _derived(units)
        jumper = grounding.bonding_jumper(
            task.nec, metal, size, number, _of_job(task, "bonding_jumper.material", "metal")
        )
        least = sizes.area(task.nec, jumper.size, "A_least") if jumper.least_area is None else jumper.least_area
        have = sizes.area(task.nec, _of_job(task, "bonding_jumper.size", "size"), "A_jumper")
        return at_least(id, title, clause, have, least)

    return settle(id, title, clause, ask)


def _electrode(task: Material, units: Sequence[UnitCircuit]) -> Check:
    id, title = "wiring.island-electrode-conductor", "Conductor from the neutral of the battery to the electrodes"
    clause = task.nec.clause("island_electrode_conductor")

    def ask() -> Check:
        metal, size, number = _derived(units)
        own = _of_job(task, "electrode_conductor.material", "metal")
        least = grounding.electrode(task.nec, metal, size, number, own, "other")
        have = sizes.area(task.nec, _of_job(task, "electrode_conductor.size", "size"), "A_GEC")
        return at_least(id, title, clause, have, sizes.area(task.nec, least, "A_least"))

    return settle(id, title, clause, ask)


def _derived(units: Sequence[UnitCircuit]) -> tuple[Value, Value, Value]:
    """Metal and size of the conductors of a unit, and how many units are joined: equal units have equal circuits."""
    made = units[0].circuit.conductor
    number = chosen("n_set", float(len(units)), "1", "units that feed the island together", None)
    return made.conditions.material, made.size, number


def _of_job(task: Material, word: str, symbol: str) -> Value:
    return task.job.fact(f"backup.{word}", symbol)
