"""Removal and service of a job with the days of their crew, and their papers in every language that the crew reads."""

from collections.abc import Iterable

from standfast.aftercare.carriage import CONDITIONS, Condition
from standfast.aftercare.day import of_removal, of_service
from standfast.aftercare.leaving import leaving
from standfast.aftercare.removal import Removal, built, removal
from standfast.aftercare.rules import Rule, rules
from standfast.aftercare.service import Service, possible, service
from standfast.design.wiring.by_book import electrical
from standfast.fieldwork.plan import Plan
from standfast.foreman.crew import day_of
from standfast.foreman.plan import JobPlan
from standfast.handover.aftercare_day import Worked
from standfast.handover.removal import Leave, removal_document
from standfast.handover.service import Serve, Sheets, service_document
from standfast.paper.document import Document
from standfast.words import ENGLISH

SAFETY = "nfpa70e"
"""The book on electrical safety that a removal is held against, where the adoption has it."""


def planned(plan: JobPlan, site: Plan) -> dict[Condition, Removal]:
    """The removal in each condition in which a battery can leave, in the language of the site's plan."""
    bonds = electrical(plan.adoption, plan.sheets).bonds(plan.survey, leaving(site).graph)
    return {each: removal(site, plan.adoption.carriage, bonds, each) for each in CONDITIONS}


def held(plan: JobPlan, site: Plan, made: Removal) -> list[Rule]:
    """The rules that a removal is held against, each with its verdict."""
    books = plan.adoption.books
    return rules(built(site), made, plan.adoption.book(SAFETY) if SAFETY in books else None)


def removal_day(plan: JobPlan, site: Plan, made: Removal) -> Worked:
    """A removal as a work order, and the days of its crew."""
    now = built(site)
    order = of_removal(now, made)
    return Worked(now, order, day_of(plan, now, order))


def service_day(plan: JobPlan, site: Plan, made: Service) -> Worked:
    """A service as a work order, and the days of its crew."""
    now = built(site)
    order = of_service(now, made)
    return Worked(now, order, day_of(plan, now, order))


def aftercare_papers(plan: JobPlan, site: Plan, languages: Iterable[str]) -> dict[str, Document]:
    """The removal order and the service sheet, English first, then each further language: ``removal``,
    ``removal.es``."""
    found, text = dict[str, Document](), plan.folder.text.encode()
    for language in (ENGLISH, *languages):
        spoken = site if language == ENGLISH else site.in_language(language)
        made = planned(plan, spoken)
        days = {condition: removal_day(plan, spoken, each) for condition, each in made.items()}
        against = {condition: held(plan, spoken, each) for condition, each in made.items()}
        leave = Leave(spoken, text, plan.adoption, made, days, against)
        services = [service(spoken, what, unit) for what, unit in possible(spoken)]
        served = [Serve(each, service_day(plan, spoken, each)) for each in services]
        ending = "" if language == ENGLISH else f".{language}"
        found[f"removal{ending}"] = removal_document(leave)
        if served:
            found[f"service{ending}"] = service_document(Sheets(spoken, text, plan.adoption, served))
    return found
