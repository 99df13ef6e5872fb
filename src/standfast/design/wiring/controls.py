"""Listed controls that keep a busbar below a setting: one counts only where its listing and its setting are stated."""

from collections.abc import Iterator, Mapping

from standfast.design.wiring.material import JobFile, Material
from standfast.design.wiring.standard_named import standard_named
from standfast.rulebooks.nfpa70 import busbars
from standfast.sheet import Check, Value, cannot_tell, chosen, is_
from standfast.shelf import Edition
from standfast.survey.joined import INVERTER, has_inverter, unit_ids
from standfast.survey.sources import Control

CONDITION = "the listing of the control is in the set, and its setting is made and marked as stated (750.30, 750.50)"


def of_busbar(task: Material, panel: str, outputs: Mapping[str, Value], bus: Value) -> Iterator[Check]:
    """The way out by power control for one busbar, of every control that the job names for it.

    Args:
        task: the job.
        panel: its panel.
        outputs: rated outputs in A of every source that feeds it, by source.
        bus: rating of the busbar in A.
    """
    for control in task.job.content.controls:
        if control.limits == panel:
            yield _of(task, control, f"wiring.source-busbar/{panel}/control/{control.id}", outputs, bus)


def _of(task: Material, control: Control, id: str, outputs: Mapping[str, Value], bus: Value) -> Check:
    fact, path, clause = task.job.fact, f"controls.{control.id}", task.nec.clause("source_control")
    held = held_back(task.job, control)
    strange = sorted(held - outputs.keys())
    if strange:
        why = f"controls.{control.id}.sources: {', '.join(strange)} feeds nothing into {control.limits} from beyond it"
        return cannot_tell(id, "The control holds back sources of this busbar", clause, why)
    rest = [output for source, output in outputs.items() if source not in held]
    carried = busbars.controlled(task.nec, fact(f"{path}.setting", "I_set", "A"), rest)
    within = busbars.power_control(task.nec, id, carried, bus)
    if within.verdict != "pass":
        return within
    counted = listed(task.job, control)
    yes = chosen("needed", True, "", "a control that is not listed counts for nothing", clause)
    known = is_(id, "The control is listed for it", clause, counted, yes)
    if known.verdict != "pass":
        return known
    who = fact(f"{path}.access", "access")
    people = chosen("needed", "qualified people", "", "nobody else changes the setting", clause)
    kept = is_(id, "The setting is out of reach", clause, who, people)
    return within._replace(condition=CONDITION) if kept.verdict == "pass" else kept


def of_service(job: JobFile) -> Iterator[tuple[Control, Value]]:
    """Controls that keep the service below a setting, and count: their listing and their setting in A are stated."""
    for control in job.content.controls:
        setting = job.fact(f"controls.{control.id}.setting", "I_set", "A")
        if control.limits == "service" and not (listed(job, control).missing or setting.missing):
            yield control, setting


def holding(job: JobFile, thing: str) -> Control | None:
    """The control that counts and keeps the service below its setting by holding a thing back; None where none does."""
    return next((control for control, _ in of_service(job) if thing in held_back(job, control)), None)


def of_load(book: Edition, job: JobFile) -> Iterator[Check]:
    """What is asked of every control that shall keep the service below a setting."""
    clause = book.clause("controlled_load")
    for control in job.content.controls:
        if control.limits != "service":
            continue
        path, title = f"controls.{control.id}", "The control that holds loads back is listed for it"
        yes = chosen("needed", True, "", "a control that is not listed counts for nothing", clause)
        yield is_(f"load.control/{control.id}", title, clause, listed(job, control), yes, condition=CONDITION)
        title, people = "Nobody but qualified people can change its setting", "qualified people"
        asked = chosen("needed", people, "", "a setting that anybody can change limits nothing", clause)
        yield is_(f"load.control-access/{control.id}", title, clause, job.fact(f"{path}.access", "access"), asked)


def listed(job: JobFile, control: Control) -> Value:
    """Whether a control counts: yes where the job names its listing; missing where nobody did."""
    named = standard_named(job, f"controls.{control.id}.listing")
    return chosen(
        "listed", True, "", f"the job file names the listing of the {control.name or control.id}", None, named
    )


def held_back(job: JobFile, control: Control) -> set[str]:
    """What a control holds back, each by the name that the design has for it."""
    units, found = unit_ids(job.content), set(control.sources)
    if has_inverter(job.content):
        return found | ({INVERTER} if found & {"inverter", INVERTER, "battery", *units} else set())
    return found | (set(units) if "battery" in found and len(units) == 1 else set())
