"""The removal of a job in each condition, and its paper in English and in the languages that the crew reads."""

from collections.abc import Iterable

from standfast.aftercare.carriage import CONDITIONS, Condition
from standfast.aftercare.leaving import leaving
from standfast.aftercare.removal import Removal, removal
from standfast.design.wiring.by_book import electrical
from standfast.fieldwork.plan import Plan
from standfast.foreman.plan import JobPlan
from standfast.handover.removal import Leave, removal_document
from standfast.paper.document import Document
from standfast.words import ENGLISH

NAME = "removal"


def planned(plan: JobPlan, site: Plan) -> dict[Condition, Removal]:
    """The removal in each condition in which a battery can leave, in the language of the site's plan."""
    bonds = electrical(plan.adoption, plan.sheets).bonds(plan.survey, leaving(site).graph)
    return {each: removal(site, plan.adoption.carriage, bonds, each) for each in CONDITIONS}


def removal_orders(plan: JobPlan, site: Plan, languages: Iterable[str]) -> dict[str, Document]:
    """English first, then each further language: ``removal``, ``removal.es``."""
    found = {}
    for language in (ENGLISH, *languages):
        spoken = site if language == ENGLISH else site.in_language(language)
        leave = Leave(spoken, plan.folder.text.encode(), plan.adoption, planned(plan, spoken))
        found[NAME if language == ENGLISH else f"{NAME}.{language}"] = removal_document(leave)
    return found
