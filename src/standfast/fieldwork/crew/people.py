"""Who does the work: the people whom the job names, as the firm file knows them; else a number of people."""

from typing import NamedTuple

from standfast.fieldwork.crew.tasks import Crew
from standfast.fieldwork.plan import Plan
from standfast.survey.firm import Firm, Member

ALONE = ("licensed electrician", "journeyman")
"""Roles that may do electrical work with nobody beside them, where the firm file does not say otherwise."""


class Hands(NamedTuple):
    """The people of a job.

    Attributes:
        names: those first who may do electrical work.
        crew: how many of each kind.
        told: what was taken for granted, or what is missing where nobody is known.
    """

    names: tuple[str, ...]
    crew: Crew
    told: tuple[str, ...] = ()


def hands_of(plan: Plan, firm: Firm | None) -> Hands:
    """The people of a job.

    Where the job names none, as many as it says lift are there, and the first of them is taken for one who may do
    electrical work. That is told.
    """
    named = plan.survey.job.contractor.people
    if firm is not None and named:
        here = [next((each for each in firm.people if each.id == id), None) for id in dict.fromkeys(named)]
        known = [each for each in here if each is not None]
        first = [each.name for each in known if may(each)]
        others = [each.name for each in known if not may(each)]
        told = () if first else (plan.say("crew.nobody_electrical"),)
        return Hands((*first, *others), Crew(len(first), len(others)), told)
    count = plan.survey.job.handling.crew
    if not count:
        return Hands((), Crew(0), (plan.say("crew.nobody_known"),))
    names = tuple(plan.say("crew.person", number=number) for number in range(1, count + 1))
    return Hands(names, Crew(1, count - 1), (plan.say("crew.supposed", count=count, name=names[0]),))


def may(member: Member) -> bool:
    """Whether somebody may do electrical work with nobody beside them."""
    return member.role in ALONE if member.electrical is None else member.electrical
