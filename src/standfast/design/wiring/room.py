"""Room in the panels: spaces for what is put in, beside what stays."""

from collections.abc import Iterator, Sequence

from standfast.design.installation.build import is_of_battery
from standfast.design.wiring.material import Material
from standfast.design.wiring.sources import Source
from standfast.sheet import Check, Value, at_most, given, missing, total, work
from standfast.survey.power import Circuit
from standfast.survey.spaces import as_built, as_found


def checks(task: Material, added: Sequence[Source]) -> Iterator[Check]:
    """Every panel that something is put into.

    Args:
        task: the job.
        added: every source that the job adds.
    """
    for panel in task.job.ids("panels"):
        own = [task.of("breaker", "switch.spaces", "n_unit", "1") for each in added if each.panel == panel]
        lost = [missing("n_unit", "1", f"routes: the panel that {each.id} is on") for each in added if not each.panel]
        own += lost if own or _put_in(task, panel) else []
        inward = own + [_poles(task, panel, each) for each in _put_in(task, panel)]
        if inward:
            title = f"Spaces in the {task.panel(panel).name or panel} for what is put in"
            needed = total("n_in", inward, "1")
            clause = task.nec.clause("panelboard_rating")
            yield at_most(f"wiring.panel-spaces/{panel}", title, clause, needed, _room(task, panel))


def _put_in(task: Material, panel: str) -> list[Circuit]:
    """The circuits that are new in a panel, without that of the battery: its breaker is counted by its sheet."""
    new = task.panel(panel).state == "new"
    stays = {held.circuit.id for held in as_found(task.job.content, panel)}
    built = [held.circuit for held in as_built(task.job.content, panel) if not is_of_battery(task.job, held.circuit)]
    return [each for each in built if new or each.id not in stays]


def _room(task: Material, panel: str) -> Value:
    """All spaces of a new panel; the free ones of an old one and those that circuits leave."""
    state = task.job.fact(f"panels.{panel}.state", "state")
    if state.missing:
        return missing("n_room", "1", state.how, state)
    if task.panel(panel).state == "new":
        return task.job.fact(f"panels.{panel}.spaces", "n_spaces", "1")
    free = task.job.fact(f"panels.{panel}.free_spaces", "n_free", "1")
    stay = {held.circuit.id for held in as_built(task.job.content, panel)}
    left = total("n_left", [_freed(task, each) for each in _leaving(task, panel, stay)], "1")
    return work("n_room", "n_free + n_left", "1", None, free, left)


def _leaving(task: Material, panel: str, stay: set[str]) -> Sequence[Circuit]:
    return [held.circuit for held in as_found(task.job.content, panel) if held.circuit.id not in stay]


def _freed(task: Material, circuit: Circuit) -> Value:
    """Spaces that a circuit leaves: its poles, wherever it goes."""
    panel = next(each.id for each in task.job.content.panels if circuit in each.circuits)
    return _poles(task, panel, circuit)


def _poles(task: Material, panel: str, circuit: Circuit) -> Value:
    symbol, path = f"n_{circuit.id.replace('-', '_')}", f"panels.{panel}.circuits.{circuit.id}"
    if circuit.poles is None and circuit.spaces:
        return given(symbol, float(len(circuit.spaces)), "1", task.job.place(f"{path}.spaces"))
    return task.job.fact(f"{path}.poles", symbol, "1")
