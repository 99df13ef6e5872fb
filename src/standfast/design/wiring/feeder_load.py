"""What a feeder has to carry to a panel while the grid is there: its circuits, and the unit while it charges."""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.installation.build import feeders, is_of_battery
from standfast.design.wiring import legs
from standfast.design.wiring.material import Material
from standfast.sheet import Check, Value, assumed, at_most, missing, total, work, worst
from standfast.survey.power import Circuit


class Fed(NamedTuple):
    """A circuit and the panel it is in."""

    panel: str
    circuit: Circuit


def check(task: Material, panel: str, title: str, charging: Value, device: Value) -> Check:
    """The device of the feeder carries the connected load, its continuous part at 125 %, and charging on top.

    Args:
        task: the job.
        panel: the panel that is fed.
        title: of the feeder.
        charging: current of the unit while it charges, in A, as a continuous load; zero where it charges elsewhere.
        device: of the feeder, in A.
    """
    clause = task.nec.clause("feeder_device")
    lines = [total(f"I_line_{leg}", _on(task, panel, leg), "A") for leg in legs.LEGS]
    load = worst("I_line", lines, "max")
    needed = total("I_needed", [load, charging], "A", clause)
    asked = f"{title}: its device carries the circuits beyond it and the charging of the battery"
    return at_most(f"wiring.feeder-load/{panel}", asked, clause, needed, device)


def _on(task: Material, panel: str, leg: int) -> list[Value]:
    found = [(each, legs.current(task.job, *each, _load(task, each), leg)) for each in _fed(task, panel)]
    lists = [task.job.count(f"panels.{each}.circuits", "n_circuits") for each in task.below(panel)]
    unlisted = [missing("I_circuits", "A", each.how, each) for each in lists if each.missing]
    return [current for _, current in found if current is not None] + unlisted


def _fed(task: Material, panel: str) -> Iterator[Fed]:
    """The circuits with loads of a panel and of those that it feeds."""
    fed = {(above, circuit.id) for above, circuit in feeders(task.job).values()}
    for each in task.below(panel):
        for circuit in task.panel(each).circuits:
            own = is_of_battery(task.job, circuit)
            if not own and circuit.source_output is None and (each, circuit.id) not in fed:
                yield Fed(each, circuit)


def _load(task: Material, fed: Fed) -> Value:
    """Load in VA with a quarter of its continuous part on top: of all of it, where nobody said how much that is."""
    path, name = f"panels.{fed.panel}.circuits.{fed.circuit.id}", fed.circuit.id.replace("-", "_")
    load = task.job.fact(f"{path}.load", f"S_{name}", "VA")
    clause, factor = task.nec.clause("feeder_device"), task.nec.number("continuous_factor")
    part = task.job.fact(f"{path}.continuous", "S_cont", "VA")
    if part.missing and not load.missing:
        part = assumed("S_cont", load.quantity, "VA", part.how, clause, bounding=True)
    return work(f"S_{name}_cont", "S + (k_cont - 1) * S_cont", "VA", clause, factor, part, S=load)
