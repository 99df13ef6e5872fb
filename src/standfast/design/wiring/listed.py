"""What wiring reads from lists of the job, circuits and arrays: a list that nobody wrote does not say *none*."""

from collections.abc import Iterator

from standfast.design.wiring.material import Material
from standfast.sheet import Check, Value, at_least, cannot_tell, chosen, missing, work
from standfast.survey.power import Panel
from standfast.survey.spaces import as_built, as_found


def checks(task: Material) -> Iterator[Check]:
    """Whether every circuit of every panel is listed, and the arrays where something has inputs for them."""
    for panel in task.job.content.panels:
        yield _circuits(task, panel)
    if any(sheet.content.pv_inputs for sheet in task.sheets.values()):
        clause = task.nec.clause("listed_use")
        none = chosen("n_least", 0.0, "1", "none is an answer too", clause)
        title = "It is known which arrays are on the inputs for PV"
        yield at_least("wiring.surveyed-arrays", title, clause, task.job.count("arrays", "n_arrays"), none)


def unlisted(task: Material, panel: str) -> Value | None:
    """What is not known of the circuits of a panel, as a missing value; None where all of them are listed.

    A new panel holds what the job puts into it; of one that is there, its spaces tell whether the list is whole.
    """
    content, path = task.panel(panel), f"panels.{panel}"
    count = task.job.count(f"{path}.circuits", "n_circuits")
    if count.missing:
        return count
    for word in ("spaces", "free_spaces"):
        fact = task.job.fact(f"{path}.{word}", f"n_{word}", "1")
        if fact.missing and content.state != "new":
            return fact
    for held in as_found(task.job.content, panel):
        if held.poles is None:
            home = task.job.content.panels[int(held.path[1])].id
            return task.job.fact(f"panels.{home}.circuits.{held.circuit.id}.poles", "n_poles", "1")
    listed, taken = _listed(task, content), _taken(content)
    if taken is None or listed is None or listed >= taken:
        return None
    need = f"{path}.circuits: they take {listed} of the {taken} spaces that are taken: list every breaker of the panel"
    return missing("n_circuits", "1", need)


def _circuits(task: Material, panel: Panel) -> Check:
    id, title = f"wiring.surveyed-circuits/{panel.id}", f"Every circuit of the {panel.name or panel.id} is listed"
    clause, gap = task.nec.clause("source_busbar"), unlisted(task, panel.id)
    if gap is not None:
        return cannot_tell(id, title, clause, gap.how, gap)
    count, taken = _listed(task, panel), _taken(panel)
    if count is None or taken is None:
        none = chosen("n_least", 0.0, "1", "the panel is new: its list is what the job puts in", clause)
        return at_least(id, title, clause, task.job.count(f"panels.{panel.id}.circuits", "n_circuits"), none)
    listed = chosen("n_listed", float(count), "1", "spaces that the listed circuits take", None)
    spaces = task.job.fact(f"panels.{panel.id}.spaces", "n_spaces", "1")
    free = task.job.fact(f"panels.{panel.id}.free_spaces", "n_free", "1")
    return at_least(id, title, clause, listed, work("n_taken", "n_spaces - n_free", "1", None, spaces, free))


def _listed(task: Material, panel: Panel) -> int | None:
    """Spaces that the listed circuits take: of a new panel as it will be, of another as found."""
    held = (as_built if panel.state == "new" else as_found)(task.job.content, panel.id)
    poles = [each.poles for each in held if each.poles is not None]
    return sum(poles) if len(poles) == len(held) else None


def _taken(panel: Panel) -> int | None:
    if panel.spaces is None or panel.free_spaces is None:
        return None
    return panel.spaces - panel.free_spaces
