"""Space to bend conductors at the terminals of panels and equipment."""

from collections.abc import Iterator
from functools import partial

from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.ends import End
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import bending, sizes
from standfast.sheet import Check, Value, at_least, chosen, is_, not_applicable, settle

AS_SHOWN = "conductors enter and bend where the maker of the enclosure shows it"


def checks(task: Material, circuit: Circuit, at: tuple[End, ...]) -> Iterator[Check]:
    """Every end of a circuit that is in an enclosure of its own; a breaker ends in that of its panel."""
    size, clause = circuit.conductor.size, task.nec.clause("bending_space")
    for end in at:
        if end.space is not None:
            id = f"wiring.bending-space/{circuit.id}/{end.name}"
            title = f"{circuit.title}: space to bend conductors at the terminals of the {end.name}"
            yield settle(id, title, clause, partial(_check, task, id, title, size, end, end.space))


def _check(task: Material, id: str, title: str, size: Value, end: End, space: Value) -> Check:
    clause, needed = task.nec.clause("bending_space"), bending.needed(task.nec, size)
    if needed is None:
        return not_applicable(id, title, clause, f"the table asks nothing for {size.word} AWG")
    if space.missing and end.listed and _takes(task, end, size):
        met = "listed, and marked for wires of this size: the space is part of the listing"
        inputs = [size] if end.largest is None else [size, end.largest]
        made = chosen("provided", True, "", met, task.nec.clause("listed_use"), *inputs)
        return is_(id, title, clause, made, chosen("needed", True, "", "space by the table", clause, needed),
                   condition=AS_SHOWN)  # fmt: skip
    return at_least(id, title, clause, space, needed)


def _takes(task: Material, end: End, size: Value) -> bool:
    largest = end.largest
    if largest is None or largest.missing or size.missing:
        return False
    return sizes.not_smaller(task.nec, largest.word, size.word)
