"""A job as one field sheet: steps with what waits for what, limits as decimal strings, texts in each language."""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from standfast.fieldwork.field_sheet.items import items
from standfast.fieldwork.field_sheet.tests import by_step
from standfast.fieldwork.field_sheet.texts import Data, Orders, each, lines
from standfast.fieldwork.plan import Plan
from standfast.reading.quantities import amount
from standfast.survey.firm import Firm

SCHEMA = 1


def compiled(plan: Plan, orders: Orders, firm: Firm | None, head: Data, pictures: Mapping[str, Sequence[str]]) -> Data:
    """The field sheet without its drawings.

    Args:
        plan: the job.
        orders: its work order in each language, English among them.
        firm: whose tools are at hand; None where no firm file is named.
        head: what the caller knows of the program and the adoption.
        pictures: ids of the drawings beside each step.
    """
    first, job = next(iter(orders.values())), plan.survey.job
    tests = by_step(plan, orders)
    return {
        "schema": SCHEMA,
        "job": {
            "name": job.job.name, "address": job.site.address or "", "revision": job.job.revision,
            "date": job.job.date.isoformat(), "invented": job.job.invented,
        },
        **head,
        "languages": list(orders),
        "rules": lines({language: order.rules for language, order in orders.items()}),
        "tools": [] if firm is None else _tools(firm),
        "steps": [
            _step(plan, orders, place, tests.get(step.id, []), pictures.get(step.id, ()))
            for place, step in enumerate(first.steps)
        ],
    }  # fmt: skip


def _step(plan: Plan, orders: Orders, place: int, tests: Sequence[Data], pictures: Sequence[str]) -> Data:
    steps = {language: order.steps[place] for language, order in orders.items()}
    first = next(iter(orders.values()))
    step = first.steps[place]
    return {
        "id": step.id,
        "number": first.numbers[step.id],
        "part": step.stage,
        "text": each(steps, lambda one: one.text),
        "after": list(step.after),
        "first": lines({language: one.first for language, one in steps.items()}),
        "torque": lines({language: one.torque for language, one in steps.items()}),
        "indication": each(steps, lambda one: one.indication) if step.indication else None,
        "cautions": lines({language: one.cautions for language, one in steps.items()}),
        "people": step.people,
        "tools": lines({language: one.tools for language, one in steps.items()}),
        "hands": step.hands,
        "items": items(plan, orders, place, tests),
        "holds": _holds(orders, step.id),
        "drawings": list(pictures),
        "redo": list(first.redo.get(step.id, ())),
    }


def _holds(orders: Orders, step: str) -> list[Data]:
    """The hold points before a step."""
    found = {language: [hold for hold in order.holds if hold.step == step] for language, order in orders.items()}
    first = next(iter(found.values()))
    what = lines({language: [hold.what for hold in holds] for language, holds in found.items()})
    who = lines({language: [hold.who for hold in holds] for language, holds in found.items()})
    return [{"kind": hold.kind, "what": what[place], "who": who[place]} for place, hold in enumerate(first)]


def _tools(firm: Firm) -> list[Data]:
    """Tools of the firm, with the range of a torque tool in N·m."""
    return [
        {
            "id": tool.id, "kind": tool.kind, "name": tool.name or tool.kind, "serial": tool.serial or "",
            "functions": list(tool.functions), "unit": "N·m" if tool.torque_max is not None else "",
            "from": "" if tool.torque_min is None else _plain(amount(tool.torque_min, "N·m")),
            "to": "" if tool.torque_max is None else _plain(amount(tool.torque_max, "N·m")),
            "calibrated_until": "" if tool.calibrated_until is None else tool.calibrated_until.isoformat(),
        }
        for tool in firm.tools
    ]  # fmt: skip


def _plain(number: float) -> str:
    """A torque as printed on the tool: three digits."""
    return format(Decimal(f"{number:.3g}"), "f")
