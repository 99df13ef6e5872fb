"""Other data sheets at hand: those of the job's folder and of the firm, and for invented jobs the invented ones."""

from collections.abc import Callable, Iterator

from standfast.equipment.read import KINDS, find, shipped
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import parts
from standfast.foreman.remedies.change import Change, Ladder, New, ladder, one
from standfast.reading.positions import Path
from standfast.sheet import Check
from standfast.survey.joined import has_inverter, owner

NAMES = {
    "battery": "battery unit", "inverter": "inverter", "breaker": "breaker family", "disconnect": "disconnect",
    "island_switch": "island switch", "fastener": "fastener", "anchor": "anchor", "aid": "lifting aid",
    "base_anchor": "anchor for the foot", "inverter_fastener": "fastener for the inverter",
}  # fmt: skip


def sheets(plan: JobPlan, role: str) -> list[tuple[str, str]]:
    """Id and name of every other sheet at hand that fits a role."""
    folder, chosen = plan.folder, getattr(plan.survey.job.equipment, role)
    invented = shipped() if plan.survey.job.job.invented else {}
    found: list[tuple[str, str]] = []
    ids = sorted({*folder.sheets, *folder.firm_sheets, *invented} - {chosen})
    owned = [aid.sheet for aid in plan.firm.firm.aids] if role == "aid" and plan.firm is not None else []
    for id in sorted(ids, key=lambda each: each not in owned):
        text = folder.sheets.get(id) or folder.firm_sheets.get(id) or shipped()[id]
        if any(f'"{kind}"' in text for kind in KINDS[role]):
            sheet, faults = find(id, folder.sheets, folder.firm_sheets)
            if sheet is not None and not faults and sheet.sheet.kind in KINDS[role]:
                found.append((id, sheet.sheet.name))
    return found


def other(*roles: str) -> Callable[[JobPlan, Check], Iterator[Ladder]]:
    """Another sheet for one of these roles."""

    def ways(plan: JobPlan, _: Check) -> Iterator[Ladder]:
        for role in roles:
            yield ladder(_choose(plan, role, *each) for each in sheets(plan, role))

    return ways


def _choose(plan: JobPlan, role: str, id: str, name: str) -> Change:
    return one(f"choose another {NAMES[role]}, {name}", (("equipment", role), id), *_outputs(plan, role, id))


def _outputs(plan: JobPlan, role: str, id: str) -> list[tuple[Path, New]]:
    """Outputs that the circuits of the sources state: they follow the sheet that speaks for them."""
    job = plan.survey.job
    if role != ("inverter" if has_inverter(job) else "battery"):
        return []
    stated = [path for path, _, each in parts.circuits(plan) if each.source_output is not None and owner(job, each)]
    sheet = find(id, plan.folder.sheets, plan.folder.firm_sheets).sheet if stated else None
    rated = None if sheet is None or sheet.sheet.electrical is None else sheet.sheet.electrical.output_current
    return [((*path, "source_output"), None if rated is None else rated.text) for path in stated]
