"""Protection of people against ground faults in a house with two sources: that it can trip, and is fed as it may be."""

from collections.abc import Iterator

from standfast.design.installation.build import feeder_of
from standfast.design.wiring.bonds import Bonds
from standfast.design.wiring.material import Material
from standfast.sheet import Check, Value, chosen, exactly, is_, missing
from standfast.survey.joined import owner
from standfast.survey.power import Circuit, Panel


def checks(task: Material, bonds: Bonds) -> Iterator[Check]:
    """Devices that can trip in every state, and those that a source feeds from behind.

    Args:
        task: the job.
        bonds: joints of neutral and ground in every state.
    """
    protected = [each for panel in task.job.content.panels for each in panel.circuits if each.ground_fault]
    if protected and bonds.rows:
        yield _trip(task, bonds, protected)
    for panel in task.job.content.panels:
        for circuit in panel.circuits:
            if (circuit.ground_fault or circuit.residual is not None) and _feeds_back(task, panel, circuit):
                yield _behind(task, panel, circuit)


def _trip(task: Material, bonds: Bonds, protected: list[Circuit]) -> Check:
    """A fault to ground comes back to the source through the one joint of neutral and ground.

    With none nothing comes back and the device cannot trip; with a joint beyond the device it trips without a fault.
    """
    id, title = "wiring.ground-fault-trip", "Protection against ground faults can trip in every state of the house"
    clause = task.nec.clause("ground_fault_people")
    unsure = [check for check in bonds.checks if check.verdict == "cannot tell"]
    wrong = [check for check in bonds.checks if check.verdict == "fail"]
    names = ", ".join(each.name or each.id for each in protected)
    none = chosen("n_allowed", 0.0, "1", f"protected: {names}", clause)
    if unsure and not wrong:
        count = missing("n_states", "1", "; ".join(dict.fromkeys(check.reason for check in unsure)))
    else:
        how = f"states in which neutral and ground are not joined exactly once, of {len(bonds.checks)}"
        count = chosen("n_states", float(len(wrong)), "1", how, None)
    return exactly(id, title, clause, count, none)


def _feeds_back(task: Material, panel: Panel, circuit: Circuit) -> bool:
    """Whether a source stands behind a device: on its circuit, or on a panel that it feeds."""
    if _is_source(task, circuit):
        return True
    fed = [each.id for each in task.job.content.panels if feeder_of(task.job, each) == (panel.id, circuit)]
    return any(
        _is_source(task, each) for top in fed for below in task.below(top) for each in task.panel(below).circuits
    )


def _is_source(task: Material, circuit: Circuit) -> bool:
    generators = {each.id for each in task.job.content.generators}
    return circuit.source_output is not None or owner(task.job.content, circuit) != "" or circuit.feeds in generators


def _behind(task: Material, panel: Panel, circuit: Circuit) -> Check:
    name, path = circuit.name or circuit.id, f"panels.{panel.id}.circuits.{circuit.id}.residual.bidirectional"
    id = f"wiring.ground-fault-backfeed/{circuit.id}"
    title = f"The ground-fault protection of {name} may be fed from its load side"
    clause = task.nec.clause("listed_use")
    needed = chosen("needed", True, "", "a source stands behind it", clause)
    return is_(id, title, clause, _said(task, circuit, path), needed)


def _said(task: Material, circuit: Circuit, path: str) -> Value:
    if circuit.residual is None:
        return missing("either_side", "", f"{path}: whether its maker says that it may be fed from either side")
    return task.job.fact(path, "either_side")
