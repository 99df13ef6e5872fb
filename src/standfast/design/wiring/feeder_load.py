"""What a feeder has to carry to a panel while the grid is there: its circuits, and the unit while it charges."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from standfast.design.installation.build import feeders, is_of_battery
from standfast.design.wiring import legs
from standfast.design.wiring.material import JobFile, Material
from standfast.sheet import Value, assumed, chosen, given, missing, total, work, worst
from standfast.survey.power import Circuit


class Fed(NamedTuple):
    """A circuit and the panel it is in."""

    panel: str
    circuit: Circuit


VEHICLE = "vehicle charger"
LoadOf = Callable[[Material, Fed], Value]
"""Load in VA of a circuit and the panel it is in."""


def connected(task: Material, panel: str) -> Value:
    """The load in A that is joined to a panel and to those beyond it, on the line that carries more of it."""
    lines = []
    for leg in legs.LEGS:
        currents = [each for _, each in on(task, panel, leg, _load)]
        lines.append(total(f"I_line_{leg}", [*currents, motor(task, panel, leg)], "A"))
    return worst("I_line", lines, "max")


def motor(task: Material, panel: str, leg: int) -> Value:
    """A quarter in A of the largest motor on a line; of one that counts as continuous it is in that already."""
    every = on(task, panel, leg, _motor, lambda each: each.circuit.motor is not None)
    found = [each for circuit, each in every if circuit is not None]
    if not found:
        return given("I_M_more", 0.0, "A", "no motor on this line")
    return worst("I_M_more", found, "max", task.nec.clause("largest_motor"))


def on(
    task: Material, panel: str, leg: int, load_of: LoadOf, counts: Callable[[Fed], bool] = lambda _: True
) -> list[tuple[Circuit | None, Value]]:  # fmt: skip
    """The circuits beyond a feeder that load a line, each with its current in A.

    A panel whose circuits nobody listed stands as one circuit that is not known.

    Args:
        task: the job.
        panel: the panel that is fed.
        leg: line 1 or 2.
        load_of: load in VA of a circuit.
        counts: which circuits count.
    """
    listed = [each for each in fed(task, panel) if counts(each)]
    found = [(each.circuit, legs.current(task.job, *each, load_of(task, each), leg)) for each in listed]
    lists = [task.job.count(f"panels.{each}.circuits", "n_circuits") for each in task.below(panel)]
    unlisted: list[tuple[Circuit | None, Value]] = [
        (None, missing("I_circuits", "A", each.how, each)) for each in lists if each.missing
    ]
    return [(circuit, current) for circuit, current in found if current is not None] + unlisted


def plain(task: Material, fed: Fed) -> Value:
    """Connected load in VA of a circuit, without more for its continuous part."""
    name = fed.circuit.id.replace("-", "_")
    return task.job.fact(f"panels.{fed.panel}.circuits.{fed.circuit.id}.load", f"S_{name}", "VA")


def fed(task: Material, panel: str) -> Iterator[Fed]:
    """The circuits with loads of a panel and of those that it feeds."""
    for each in task.below(panel):
        yield from of_panel(task.job, each)


def of_panel(job: JobFile, panel: str) -> Iterator[Fed]:
    """The circuits with loads of one panel: those of sources and feeders left out."""
    generators, through = set(job.ids("generators")), {(at, circuit.id) for at, circuit in feeders(job).values()}
    for circuit in next(each for each in job.content.panels if each.id == panel).circuits:
        own = is_of_battery(job, circuit) or circuit.feeds in generators
        if not own and circuit.source_output is None and (panel, circuit.id) not in through:
            yield Fed(panel, circuit)


def continuous(task: Material, fed: Fed) -> Value:
    """What of a circuit in VA runs for hours: all of it, where nobody said how much that is, and of a vehicle charger
    (625.41)."""
    path, load = f"panels.{fed.panel}.circuits.{fed.circuit.id}", plain(task, fed)
    if fed.circuit.id in {each.id for each in task.job.content.loads.appliances if each.kind == VEHICLE}:
        return chosen(
            "S_cont", 0.0 if load.missing else load.quantity, "VA", "a vehicle is charged for hours", None, load
        )
    part = task.job.fact(f"{path}.continuous", "S_cont", "VA")
    if part.missing and not load.missing:
        return assumed("S_cont", load.quantity, "VA", part.how, task.nec.clause("feeder_device"), bounding=True)
    return part


def _load(task: Material, fed: Fed) -> Value:
    """Load in VA with a quarter of its continuous part on top."""
    name, part = fed.circuit.id.replace("-", "_"), continuous(task, fed)
    clause, factor = task.nec.clause("feeder_device"), task.nec.number("continuous_factor")
    return work(f"S_{name}_cont", "S + (k_cont - 1) * S_cont", "VA", clause, factor, part, S=plain(task, fed))


def _motor(task: Material, fed: Fed) -> Value:
    """A quarter in VA of what of a circuit does not count as continuous."""
    clause, factor = task.nec.clause("largest_motor"), task.nec.number("largest_motor")
    text = "k_motor * max(0, S - S_cont)"
    return work("S_M_more", text, "VA", clause, factor, continuous(task, fed), S=plain(task, fed))
