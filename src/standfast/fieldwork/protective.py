"""What people wear, by kind of work: from the table of the trade, and clothing for an arc at each battery."""

from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Plan
from standfast.sheet import Value, chosen

KINDS = ("drilling", "lifting", "voltage")
"""Kinds of work, in the order in which the day asks them."""


def protective_rows(plan: Plan) -> list[Material]:
    """A row for each thing; every person has their own, but the set for testing, which the one who tests wears.

    What is worn against arcs of alternating current is left to the licensed person and the employer's rules: no list
    gives leave to work live.
    """
    people, rows = plan.lift.people if plan.lift is not None else 1, list[Material]()
    table = plan.practice.table("protective")
    for kind in KINDS:
        for row in (row for row in table.rows if row["work"] == kind):
            item = table.pick("item", "item", work=kind, number=row["number"])
            tested = kind == "voltage"
            each = "one set" if tested else "one a person"
            count = chosen("n", float(1 if tested else people), "1", each, table.clause, item)
            what, use = plan.say(f"materials.{item.word}"), plan.say(f"materials.ppe_use_{kind}")
            rows.append(material("protective equipment", what, count, use, plan.language, of=(kind,)))
    return [*rows, *_against_arcs(plan)]


def _against_arcs(plan: Plan) -> list[Material]:
    """Clothing for what an arc at each battery can do; it gives no leave to work live."""
    rows = []
    for each in plan.arcs:
        band = plan.say("common.not_known") if each.clothing.missing else plan.foreign(each.clothing.word)
        words = {"band": band, "energy": _digits(plan, each.energy), "boundary": _digits(plan, each.boundary)}
        use = plan.say("materials.arc_dc_use", place=plan.foreign(each.place), **words)
        count = chosen("n", 1.0, "1", "one set", None, each.energy)
        row = material("protective equipment", plan.say("materials.arc_dc", band=band), count, use, plan.language)
        rows.append(row._replace(of=(each.unit,)))
    return rows


def _digits(plan: Plan, value: Value) -> str:
    return plan.say("common.not_known") if value.missing else f"{value.quantity:.3g} {value.unit}"
