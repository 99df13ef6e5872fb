"""What a feeder has to carry to a panel while the grid is there: its circuits, and the unit while it charges."""

from collections.abc import Callable, Iterator
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


LoadOf = Callable[[Material, Fed], Value]
"""Load in VA of a circuit and the panel it is in."""


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
    needed = total("I_needed", [connected(task, panel), charging], "A", clause)
    asked = f"{title}: its device carries the circuits beyond it and the charging of the battery"
    return at_most(f"wiring.feeder-load/{panel}", asked, clause, needed, device)


def connected(task: Material, panel: str) -> Value:
    """The load in A that is joined to a panel and to those beyond it, on the line that carries more of it."""
    lines = [total(f"I_line_{leg}", [each for _, each in on(task, panel, leg, _load)], "A") for leg in legs.LEGS]
    return worst("I_line", lines, "max")


def on(task: Material, panel: str, leg: int, load_of: LoadOf) -> list[tuple[Circuit | None, Value]]:
    """The circuits beyond a feeder that load a line, each with its current in A.

    A panel whose circuits nobody listed stands as one circuit that is not known.

    Args:
        task: the job.
        panel: the panel that is fed.
        leg: line 1 or 2.
        load_of: load in VA of a circuit.
    """
    found = [(each.circuit, legs.current(task.job, *each, load_of(task, each), leg)) for each in _fed(task, panel)]
    lists = [task.job.count(f"panels.{each}.circuits", "n_circuits") for each in task.below(panel)]
    unlisted: list[tuple[Circuit | None, Value]] = [
        (None, missing("I_circuits", "A", each.how, each)) for each in lists if each.missing
    ]
    return [(circuit, current) for circuit, current in found if current is not None] + unlisted


def plain(task: Material, fed: Fed) -> Value:
    """Connected load in VA of a circuit, without more for its continuous part."""
    name = fed.circuit.id.replace("-", "_")
    return task.job.fact(f"panels.{fed.panel}.circuits.{fed.circuit.id}.load", f"S_{name}", "VA")


def _fed(task: Material, panel: str) -> Iterator[Fed]:
    """The circuits with loads of a panel and of those that it feeds."""
    generators = set(task.job.ids("generators"))
    fed = {(above, circuit.id) for above, circuit in feeders(task.job).values()}
    for each in task.below(panel):
        for circuit in task.panel(each).circuits:
            own = is_of_battery(task.job, circuit) or circuit.feeds in generators
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
