"""Which kinds of work the job does, by the words that the editions' triggers use."""

from collections.abc import Mapping
from typing import Literal, get_args

from standfast.design.installation.build import JobFile
from standfast.faults import NotInEdition
from standfast.sheet import Value, chosen, missing
from standfast.survey.power import Circuit, Panel

Work = Literal[
    "service equipment replaced", "source added", "panel added", "panel worked on", "circuit moved",
    "alteration with a permit",
]  # fmt: skip
WORDS: tuple[str, ...] = get_args(Work)
"""Every word that a trigger of an edition or of a place may hold."""
UTILITY = "utility"
Works = Mapping[str, Value]
"""Word → yes or no, or missing with what would tell."""


def of_the_house(job: JobFile) -> dict[str, Value]:
    """The kinds of work that concern the house as a whole."""
    return {
        "service equipment replaced": _service_replaced(job),
        "source added": chosen("adds_source", True, "", "the job adds a battery", None),
        "alteration with a permit": _alteration(job),
    }


def of_panel(job: JobFile, panel: Panel) -> dict[str, Value]:
    """The kinds of work on one panel, beside those on the house."""
    state = _state(job, panel)
    inside = [job.fact(f"panels.{panel.id}.circuits.{each.id}.state", "state") for each in panel.circuits]
    moved = any(each.moved_from == panel.id for other in job.content.panels for each in other.circuits)
    opened = moved or any(each.number == "new" for each in inside)
    touched: Value = chosen("touched", True, "", "breakers of this job go in, or circuits are moved out", None)
    if not opened:
        none = "no breaker of this job goes in and none is moved out"
        touched = chosen("touched", False, "", none, None, *inside)
    return {
        "panel added": chosen("added", state.number == "new", "", f"panel {panel.id} is put in or not", None, state),
        "panel worked on": chosen(
            "worked_on", touched.number is True and state.number != "new", "",
            f"panel {panel.id} is there, and is opened or not", None, touched, state,
        ),
    }  # fmt: skip


def of_circuit(circuit: Circuit) -> dict[str, Value]:
    """The kinds of work on one branch circuit, beside those on the house."""
    return {"circuit moved": chosen("moved", circuit.moved_from is not None, "", "moved_from in the job file", None)}


def brought(trigger: Value, works: Works) -> Value:
    """Whether the work of the job sets off a trigger, yes or no; missing where that hangs on a fact not known.

    Args:
        trigger: of the edition or the place: a set of words.
        works: what the job does to the part.

    Raises:
        NotInEdition: where a trigger holds a word that is not known here.
    """
    words = trigger.number if isinstance(trigger.number, tuple) else ()
    strange = [word for word in words if word not in WORDS]
    if strange:
        raise NotInEdition(f"{trigger.clause}: a kind of work that is not known here: {', '.join(strange)}")
    asked = {word: works[word] for word in words if word in works}
    met = {word: value for word, value in asked.items() if not value.missing and value.yes}
    if met:
        return chosen(
            "brought", True, "", f"the job does this: {', '.join(met)}", trigger.clause, trigger, *met.values()
        )
    how = f"the job does none of this: {', '.join(words)}" if words else "it is asked for no kind of work"
    return chosen("brought", False, "", how, trigger.clause, trigger, *asked.values())


def service_panels(job: JobFile) -> list[Panel]:
    """The panels that the utility feeds."""
    return [panel for panel in job.content.panels if panel.fed_from == UTILITY]


def _state(job: JobFile, panel: Panel) -> Value:
    return job.fact(f"panels.{panel.id}.state", "state")


def _service_replaced(job: JobFile) -> Value:
    found = service_panels(job)
    if not found:
        return missing("replaced", "", _fed(job))
    states = [_state(job, panel) for panel in found]
    new = any(each.number == "new" for each in states)
    how = "the service panel is put in by this job" if new else "the service equipment stays"
    return chosen("replaced", new, "", how, None, *states)


def _fed(job: JobFile) -> str:
    open = [panel.id for panel in job.content.panels if panel.fed_from is None]
    if not open:
        return 'panels: none is fed_from = "utility": list the panel that holds the service'
    facts = (job.fact(f"panels.{panel}.fed_from", "fed_from").how for panel in open)
    return "; ".join(facts)


def _alteration(job: JobFile) -> Value:
    """Work with a permit in a dwelling that is there: some panel or circuit of it is."""
    states = [_state(job, panel) for panel in job.content.panels]
    for panel in job.content.panels:
        states += [job.fact(f"panels.{panel.id}.circuits.{each.id}.state", "state") for each in panel.circuits]
    if any(each.number == "existing" for each in states):
        return chosen("alters", True, "", "the dwelling is there, and the work needs a permit", None)
    if not states:
        return missing("alters", "", "panels: list the panelboards of the dwelling, each with its state")
    return chosen("alters", False, "", "no panel and no circuit of the dwelling is there yet", None, *states)
