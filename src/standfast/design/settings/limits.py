"""What may flow into the grid and out of it: what was agreed, what can flow, and what holds it back."""

from collections.abc import Iterator, Mapping

from standfast.design.settings.profile import KINDS
from standfast.design.settings.setting import Origin, Profile, Setting
from standfast.equipment.model import Sheet
from standfast.reading import Document
from standfast.sheet import Check, Value, at_most, chosen, is_, missing, total, work
from standfast.survey.joined import has_inverter, installed, owner, source_ids
from standfast.survey.model import Job
from standfast.survey.power import Circuit

JobFile = Document[Job]
SheetFile = Document[Sheet]


def rows(job: JobFile, found: Profile) -> Iterator[Setting]:
    """The limits as settings; that of the import where the job speaks of one."""
    export, unasked = export_limit(job, found), _unasked(job, found)
    origin: Origin = "agreed" if unasked is None else "standard"
    yield Setting("Export to the grid", "greatest power", export, "at most", origin=origin)
    if not job.left_out("grid.import_limit"):
        drawn = job.fact("grid.import_limit", "P_import", "W")
        yield Setting("Charging from the grid", "greatest power", drawn, "at most", origin="agreed")


def checks(job: JobFile, sheets: Mapping[str, SheetFile], found: Profile) -> Iterator[Check]:
    """Whether what can flow keeps to what was agreed, by itself or by a control that is listed for it."""
    title, clause = "What can flow into the grid is no more than was agreed", found.book.clause("export_limit")
    limit = export_limit(job, found)
    check = at_most("settings.export-limit", title, clause, greatest_export(job, sheets), limit)
    yield _held_back(check, _own(job, sheets, "export_limit_listed", "listed"))
    if job.left_out("grid.import_limit"):
        return
    title, clause = (
        "What the battery can draw from the grid is no more than was agreed",
        found.book.clause("import_limit"),
    )
    power = _own(job, sheets, "charge_power", "P_charge", "W")
    drawn = work("P_drawn", "n * P_charge", "W", None, power, n=_sources(job))
    limit = job.fact("grid.import_limit", "P_import", "W")
    check = at_most("settings.import-limit", title, clause, drawn, limit)
    yield _held_back(check, _own(job, sheets, "charge_limit_listed", "listed"))


def export_limit(job: JobFile, found: Profile) -> Value:
    """What may flow into the grid in W: as agreed, else what the rules allow without asking, where they do."""
    unasked = _unasked(job, found)
    return job.fact("grid.export_limit", "P_export", "W") if unasked is None else unasked


def _unasked(job: JobFile, found: Profile) -> Value | None:
    """What may be sent without asking, where the job does not speak of a limit; None where everybody asks first."""
    ask = KINDS[found.book.book].unasked
    if ask is None or not job.left_out("grid.export_limit"):
        return None
    phases = 3.0 if job.content.supply.system == "230/400 V three-phase" else 1.0
    return ask(found.book, chosen("n", phases, "1", "phases of the supply", None))


def greatest_export(job: JobFile, sheets: Mapping[str, SheetFile]) -> Value:
    """Greatest power in W that all sources can send into the grid at once, with no load in the house."""
    power = _own(job, sheets, "output_power", "P_out", "W")
    found = [work("P_battery", "n * P_out", "W", None, power, n=_sources(job))]
    for panel in job.content.panels:
        for circuit in panel.circuits:
            if circuit.source_output is not None and owner(job.content, circuit) not in source_ids(job.content):
                found.append(_existing(job, panel.id, circuit))
    return total("P_possible", found, "W")


def _sources(job: JobFile) -> Value:
    """How many units feed into the house: each battery with its inverter inside, or the one inverter."""
    if has_inverter(job.content):
        return chosen("n", 1.0, "1", "one inverter of its own", None)
    return installed(job, "n")


def _existing(job: JobFile, panel: str, circuit: Circuit) -> Value:
    """Power in W of a source that is there, from its rated current and the voltage between its poles."""
    path = f"panels.{panel}.circuits.{circuit.id}"
    current = job.fact(f"{path}.source_output", "I", "A")
    to_neutral = job.fact("supply.voltage_to_ground", "U", "V")
    if circuit.poles is None:
        return missing("P_source", "W", job.fact(f"{path}.poles", "poles", "1").how, current)
    if circuit.poles == 1:
        return work("P_source", "I * U", "W", None, current, to_neutral)
    if circuit.poles == 2:
        return work("P_source", "I * U", "W", None, current, job.fact("supply.voltage", "U", "V"))
    return work("P_source", "3 * I * U", "W", None, current, to_neutral)


def _own(job: JobFile, sheets: Mapping[str, SheetFile], path: str, symbol: str, unit: str = "") -> Value:
    """A fact of what makes AC: of the inverter by itself, or of the battery unit that holds one."""
    role = "inverter" if has_inverter(job.content) else "battery"
    if role not in sheets:
        return missing(symbol, unit, f"equipment.{role}: choose one by the id of its data sheet")
    return sheets[role].fact(f"electrical.{path}", symbol, unit)


def _held_back(check: Check, listed: Value) -> Check:
    """A limit that more could pass than was agreed holds where a control is listed for keeping to it."""
    if check.verdict != "fail" or check.demand is None or check.limit is None:
        return check
    asked = f"more could flow than the {check.limit.quantity:g} W that were agreed"
    yes = chosen("needed", True, "", asked, check.clause, check.demand, check.limit)
    condition = f"the control is set to {check.limit.quantity:g} W, read back and tried"
    title = f"{check.title}, or a listed control keeps to it"
    return is_(check.id, title, check.clause, listed, yes, condition=condition)
