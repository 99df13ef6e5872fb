"""What ends a fault while the battery carries the house by itself.

An inverter drives little more than its rated current into a fault. A breaker trips at once at a multiple of its rating:
where the inverter does not reach that, the fault ends because the inverter stops, and that has to be quick enough.
"""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.wiring.carried import backed_up
from standfast.design.wiring.material import Material
from standfast.sheet import Check, Value, at_least, at_most, chosen, work, worst

ISLAND_FAULT = "island_fault_current"
BREAKER, STOP, UNKNOWN = "the breaker, at once", "the inverter stops", "not known"


class Clearing(NamedTuple):
    """A backed-up circuit and what ends a fault on it without the grid.

    Attributes:
        panel: id of its panel.
        name: of the circuit.
        device: rating of its breaker in A.
        trips: current in A from which that surely trips at once.
        fault: least current in A that the source drives into a fault.
        ends: what ends a fault; with ``and ground-fault protection`` where the circuit has that.
    """

    panel: str
    name: str
    device: Value
    trips: Value
    fault: Value
    ends: str


def table(task: Material) -> tuple[Clearing, ...]:
    """Every backed-up circuit; none where the job backs nothing up."""
    if task.job.content.backup.mode not in ("circuits", "whole house"):
        return ()
    fault, found = least_fault(task), list[Clearing]()
    time = task.own("island_fault_time", "t_stop", "s")
    stops = STOP if time.missing else f"{STOP} within {time.quantity:g} s"
    for each in backed_up(task.job):
        path, name = f"panels.{each.panel}.circuits.{each.circuit.id}", each.circuit.name or each.circuit.id
        device = task.job.fact(f"{path}.breaker", "I_n", "A")
        multiple, clause = task.handbook.number("breaker_at_once"), task.handbook.clause("island_fault")
        trips = work("I_inst", "k_inst * I_n", "A", clause, multiple, device)
        ends = UNKNOWN if trips.missing or fault.missing else BREAKER
        if ends == BREAKER and fault.quantity < trips.quantity:
            ends = stops
        if each.circuit.ground_fault:
            ends += "; to ground also its ground-fault protection"
        found.append(Clearing(each.panel, name, device, trips, fault, ends))
    return tuple(found)


def least_fault(task: Material) -> Value:
    """Least current in A that one source drives into a fault without the grid.

    Where its sheet is silent a bounding multiple of its rated current stands in: it may show that breakers do not trip
    at once, so that more is asked, and never that they do.
    """
    path = f"electrical.{ISLAND_FAULT}"
    sheet = task.sheets.get(task.role)
    if sheet is None or not sheet.left_out(path):
        return task.own(ISLAND_FAULT, "I_k_isl", "A")
    reason = f"{path}: {task.role} sheet does not state it"
    multiple, clause = task.handbook.bounding("island_fault_least", reason), task.handbook.clause("island_fault")
    return work("I_k_isl", "k_isl * I_out", "A", clause, multiple, task.own("output_current", "I_out", "A"))


def checks(task: Material, rows: tuple[Clearing, ...]) -> Iterator[Check]:
    """Of every panel with backed-up circuits: a fault ends quickly enough.

    Args:
        task: the job.
        rows: from `table`.
    """
    for panel in dict.fromkeys(each.panel for each in rows):
        yield _of_panel(task, panel, [each for each in rows if each.panel == panel])


def _of_panel(task: Material, panel: str, rows: list[Clearing]) -> Check:
    name = task.panel(panel).name or panel
    id, title = f"wiring.island-fault/{panel}", f"A fault on the {name} ends in time while the battery carries it"
    clause, fault = task.nec.clause("fault_path"), rows[0].fault
    if any(each.trips.missing for each in rows):
        return at_least(id, title, clause, fault, worst("I_inst", [each.trips for each in rows], "max"))
    slow = [each for each in rows if each.ends.startswith(STOP)]
    if not slow and not fault.missing:
        return at_least(id, title, clause, fault, worst("I_inst", [each.trips for each in rows], "max"))
    least = worst("I_inst", [each.trips for each in slow or rows], "min")
    time = task.own("island_fault_time", "t_stop", "s")
    limit = task.handbook.number("island_stop_longest")
    longest = chosen("t_max", limit.number or 0.0, "s", "not every breaker trips at once", limit.clause, limit, least)
    told = f"what ends a fault is that the {task.role} stops: it drives about {_amps(fault)}"
    surely = f", and {len(slow)} of {len(rows)} breakers here trip at once only from {_amps(least)} on" if slow else ""
    condition = f"{told}{surely}"
    return at_most(id, title, clause, time, longest, condition=condition)


def _amps(value: Value) -> str:
    return "a current that is not known" if value.missing else f"{value.quantity:g} A"
