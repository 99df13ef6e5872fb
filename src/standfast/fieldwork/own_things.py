"""What of the lists the firm has: which of its tools do a row of the tool list, and what lies in its store."""

from collections.abc import Mapping

from standfast.equipment.read import DataSheet
from standfast.fieldwork.by_maker import same_thing
from standfast.fieldwork.covering import best, reads
from standfast.fieldwork.material import Material
from standfast.fieldwork.materials import Materials
from standfast.fieldwork.of_firm import in_calibration
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.tools import Tool, Tools
from standfast.survey.firm import MEASURING, TORQUE, Firm, FirmTool


def owned(plan: Plan, found: Tools, firm: Firm) -> Tools:
    """The tool list with the firm's own tools named in it; a tool that is out of calibration is not ours to use."""
    return found._replace(rows=tuple(_named(plan, row, firm) for row in found.rows))


def stocked(plan: Plan, bill: Materials, firm: Firm, sheets: Mapping[str, DataSheet]) -> Materials:
    """The bill with what lies in the store of the firm.

    Args:
        plan: what the work is derived from.
        bill: the bill of materials.
        firm: the firm.
        sheets: data sheets of what is in stock, by id.
    """
    names = {sheets[each.sheet].sheet.name: each.count for each in firm.stock if each.sheet in sheets}
    return bill._replace(rows=tuple(_stocked(plan, row, names) for row in bill.rows))


def _named(plan: Plan, row: Tool, firm: Firm) -> Tool:
    if row.shelf == "lifting":
        return _lifted(plan, row, firm)
    if row.settings_nm:
        covering = [best(firm, plan, each) for each in row.settings_nm]
        usable = [] if None in covering else [tool for tool in firm.tools if tool in covering]
    elif row.instrument:
        usable = [tool for tool in firm.tools if reads(tool, plan, row.instrument)]
    else:
        usable = [tool for tool in firm.tools if _does(plan, tool, row)]
    if not usable:
        return row
    names = ", ".join(_spoken(plan, tool) for tool in usable)
    return row._replace(use=f"{row.use}; {plan.say('tools.ours', names=names)}")


def _lifted(plan: Plan, row: Tool, firm: Firm) -> Tool:
    """The lifting aid: whether it is one of the firm's."""
    aid = plan.sheets.get("aid")
    if not firm.aids or aid is None or row.what != aid.sheet.name:
        return row
    ours = any(each.sheet == aid.sheet.id and each.count != 0 for each in firm.aids)
    return row._replace(use=f"{row.use}; {plan.say('tools.own_aid' if ours else 'tools.hired_aid')}")


def _does(plan: Plan, tool: FirmTool, row: Tool) -> bool:
    """Whether a tool of the firm is of the kind that a row asks for, and in calibration where its reading counts."""
    if tool.kind == "other" or tool.kind in TORQUE or not same_thing(tool.kind, row.what, row.also):
        return False
    return tool.kind not in MEASURING or in_calibration(tool, plan.survey.job.job.date)


def _spoken(plan: Plan, tool: FirmTool) -> str:
    words = [tool.name or tool.id]
    words += [plan.say("tools.serial", serial=tool.serial)] if tool.serial else []
    return " ".join(words)


def _stocked(plan: Plan, row: Material, names: Mapping[str, int]) -> Material:
    """A row that is counted in pieces, with what is there of it and what is to be bought."""
    count = next((number for name, number in names.items() if name in row.what), None)
    if count is None or row.quantity.missing or row.quantity.unit != "1":
        return row
    short = max(0, round(row.quantity.quantity) - count)
    said = plan.say("materials.in_stock", count=count, short=short)
    return row._replace(use=f"{row.use}; {said}")
