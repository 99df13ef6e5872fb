"""A job as a field sheet for tablets, with its drawings, and the hash by which the record names it."""

import json
from hashlib import sha256

from standfast import __version__
from standfast.fieldwork.field_sheet.compiled import compiled
from standfast.fieldwork.work_order import work_order
from standfast.foreman.pack import sitework
from standfast.foreman.plan import JobPlan
from standfast.foreman.work_orders import languages_of
from standfast.handover.step_pictures import step_pictures
from standfast.words import ENGLISH, OTHERS


def field_sheet(plan: JobPlan, languages: tuple[str, ...] = ()) -> str:
    """The field sheet of a job: one JSON text, the same for the same job, editions and program.

    Args:
        plan: the job.
        languages: beside English and those of the crew; every language of the program where the crew states none.

    Raises:
        BadFormula: where steps wait for each other.
    """
    site = sitework(plan)
    asked = [ENGLISH, *(languages_of(plan, languages) or OTHERS)]
    plans = {language: site.in_language(language) for language in asked}
    orders = {language: work_order(each) for language, each in plans.items()}
    drawings: dict[str, dict[str, dict[str, str]]] = {}
    beside: dict[str, list[str]] = {}
    for language in asked:
        made = step_pictures(plans[language], orders[language])
        for step, pictures in made.beside.items():
            for each in pictures:
                one = drawings.setdefault(each.name, {"title": {}, "svg": {}})
                one["title"][language], one["svg"][language] = each.description, made.svg[each.name]
                if language == ENGLISH:
                    beside.setdefault(step, []).append(each.name)
    firm = None if plan.firm is None else plan.firm.firm
    head = {"adoption": plan.adoption.name, "program": __version__}
    sheet = compiled(site, orders, firm, head, beside)
    sheet["drawings"] = [{"id": name, **each} for name, each in drawings.items()]
    return json.dumps(sheet, ensure_ascii=False, separators=(",", ":"), sort_keys=True)


def sheet_hash(text: str) -> str:
    """The name by which the record knows a field sheet."""
    return sha256(text.encode()).hexdigest()
