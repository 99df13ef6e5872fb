"""The work order in every language in which the crew reads: the same steps, numbers and clauses, other words."""

from collections.abc import Iterable
from typing import NamedTuple

from standfast.fieldwork.crew.day import CrewDay
from standfast.fieldwork.crew.people import hands_of
from standfast.fieldwork.cut_plan import cut_plans
from standfast.fieldwork.delivery import delivery
from standfast.fieldwork.materials import materials
from standfast.fieldwork.own_things import owned, stocked
from standfast.fieldwork.pick_list import Store, pick_list
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.tools import tools
from standfast.fieldwork.work_order import work_order
from standfast.foreman.of_firm import in_stock
from standfast.foreman.plan import JobPlan
from standfast.handover.crew import charts, with_day
from standfast.handover.van_sheets import Van
from standfast.handover.work_order import Work, work_order_document
from standfast.paper.document import Document
from standfast.paper.html import html
from standfast.words import ENGLISH

NAME = "work-order"


def languages_of(plan: JobPlan, asked: Iterable[str] = ()) -> list[str]:
    """Languages beside English, which always comes: those that were asked for, and those that the crew of the firm
    reads."""
    crew = () if plan.firm is None else plan.firm.firm.firm.languages
    return [each for each in dict.fromkeys((*asked, *crew)) if each != ENGLISH]


def work_of(plan: JobPlan, site: Plan, against: Iterable[str]) -> Work:
    """Everything that a work order is made from, in the language of the site's plan."""
    bill, gear = materials(site), tools(site)
    if plan.firm is not None:
        bill = stocked(site, bill, plan.firm.firm, in_stock(plan.firm, plan.folder))
        gear = owned(site, gear, plan.firm.firm)
    order = work_order(site)
    picks = pick_list(site, bill, gear, order, Store(None if plan.firm is None else plan.firm.firm, plan.prices))
    van = Van(picks, cut_plans(site), delivery(site))
    text = plan.folder.text.encode()
    return Work(site, text, plan.adoption, bill, gear, plan.lifting.checks, order, van, tuple(against))


def in_language(plan: JobPlan, work: Work, day: CrewDay, language: str) -> Document:
    """The work order in another language; the day is the one that was worked out for it."""
    site = work.plan.in_language(language)
    other = work_of(plan, site, work.against)
    day = day._replace(hands=hands_of(site, None if plan.firm is None else plan.firm.firm))
    return with_day(work_order_document(other), site, other.order, day, charts(site, other.order, day))


class Named(NamedTuple):
    """Work orders by the name of their file, without its ending."""

    documents: dict[str, Document]

    @property
    def pages(self) -> dict[str, str]:
        """Each as one HTML file for tablet and phone."""
        return {f"{name}.html": html(document) for name, document in self.documents.items()}


def named(plan: JobPlan, work: Work, day: CrewDay, english: Document, languages: Iterable[str]) -> Named:
    """English first, then each further language: ``work-order``, ``work-order.es``."""
    others = {f"{NAME}.{each}": in_language(plan, work, day, each) for each in languages}
    return Named({NAME: english, **others})
