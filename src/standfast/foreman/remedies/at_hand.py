"""Other data sheets at hand: those of the job's folder and of the firm, and for invented jobs the invented ones."""

from collections.abc import Callable, Iterator

from standfast.equipment.read import KINDS, find, shipped
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies.change import Change, Ladder, ladder, one
from standfast.sheet import Check

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
    for id in sorted({*folder.sheets, *folder.firm_sheets, *invented} - {chosen}):
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
            yield ladder(_choose(role, *each) for each in sheets(plan, role))

    return ways


def _choose(role: str, id: str, name: str) -> Change:
    return one(f"choose another {NAMES[role]}, {name}", (("equipment", role), id))
