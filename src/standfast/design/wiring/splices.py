"""Splices of circuits that are moved and made longer: the box that holds them has room for all that enters it."""

from collections.abc import Iterator

from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import boxes
from standfast.rulebooks.nfpa70.boxes import Counted
from standfast.sheet import Check, Value, at_least, cannot_tell, missing, not_applicable, settle
from standfast.survey.power import Circuit

IN_PANEL = "in the panel that it came from"
SPACE = "joined in the wiring space of the panel: how full that is (312.8) is looked at on site"


def checks(task: Material) -> Iterator[Check]:
    """Every box of circuits that are moved and do not reach as they are; each panel of splices once."""
    within: dict[str, list[str]] = {}
    for panel in task.job.content.panels:
        for circuit in panel.circuits:
            path = f"panels.{panel.id}.circuits.{circuit.id}"
            added = task.job.fact(f"{path}.extended", "L_added", "ft")
            if circuit.moved_from is None or (not added.missing and added.quantity == 0):
                continue
            if circuit.splice is not None and circuit.splice.where == IN_PANEL:
                within.setdefault(circuit.moved_from, []).append(circuit.name or circuit.id)
            else:
                yield _box(task, path, circuit, added)
    for id, names in within.items():
        title, clause = f"Room for splices in the {task.panel(id).name or id}", task.nec.clause("box_fill")
        yield not_applicable(f"wiring.box-fill/{id}", title, clause, f"{', '.join(names)}: {SPACE}")


def _box(task: Material, path: str, circuit: Circuit, added: Value) -> Check:
    id, title = f"wiring.box-fill/{circuit.id}", f"Room for the splices of {circuit.name or circuit.id}"
    clause, where = task.nec.clause("box_fill"), task.job.fact(f"{path}.splice.where", "where")
    if added.missing or where.missing:
        unknown = added if added.missing else where
        return cannot_tell(id, title, clause, unknown.how, unknown)

    def own(word: str, symbol: str, unit: str) -> Value:
        return task.job.fact(f"{path}.splice.{word}", symbol, unit)

    def ask() -> Check:
        size, clamps = own("conductor", "size", ""), own("clamps", "clamps", "")
        through, grounds = own("conductors", "n", "1"), own("grounds", "n_g", "1")
        earths = [] if grounds.number == 0 else [Counted(size, grounds)]
        if clamps.missing:
            least = missing("V_box", "in3", clamps.how, clamps)
        else:
            least = boxes.least_volume(task.nec, [Counted(size, through)], earths, [], clamps.yes)
        return at_least(id, title, clause, own("volume", "V_inside", "in3"), least)

    return settle(id, title, clause, ask)
