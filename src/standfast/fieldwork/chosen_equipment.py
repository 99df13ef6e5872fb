"""The battery units and an inverter of their own in the bill of materials: bought, or taken from the store."""

from standfast.equipment.model import Sheet
from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Plan
from standfast.sheet import Value, chosen
from standfast.survey.joined import installed


def equipment_rows(plan: Plan) -> list[Material]:
    """A row for the battery units and one for the chosen inverter."""
    rows = []
    if "battery" in plan.sheets:
        rows.append(_row(plan, plan.sheets["battery"].sheet, installed(plan.survey, "n_units")))
    if "inverter" in plan.sheets:
        count = chosen("n", 1.0, "1", "inverter of the job", None)
        rows.append(_row(plan, plan.sheets["inverter"].sheet, count))
    return rows


def _row(plan: Plan, sheet: Sheet, count: Value) -> Material:
    what = plan.say("materials.device", maker=sheet.maker, name=sheet.name, rating="")
    ids = tuple(each.id for each in plan.devices if each.sheet.id == sheet.id)
    row = material("chosen equipment", what, count, plan.say("materials.unit_use"), plan.language, of=ids)
    return row._replace(ware=("piece", sheet.id))
