"""The public entry of the choice: everything that a job leaves open, chosen together at the least price.

A surveyed length belongs to the place that it was surveyed for. So the place is chosen by price only where the routes
of all units follow the walls; else the units stand where siting puts them, and the rest is chosen there.
"""

from collections.abc import Mapping
from typing import NamedTuple

from standfast.design.choice import priced
from standfast.design.choice.built import Builder, Option, Trades
from standfast.design.choice.given import given
from standfast.design.choice.offer import Offer
from standfast.design.choice.other import Other, alike_by, apart_by, differs_by, others, told
from standfast.design.choice.rows import Row, SheetFile
from standfast.design.choice.search import Found, search
from standfast.design.siting.placed import Siting
from standfast.equipment.prices import Prices
from standfast.shelf import Adoption
from standfast.survey.picked import Picked
from standfast.survey.read import Survey

__all__ = ["USUAL", "Budget", "Choice", "Other", "Row", "Trades", "as_chosen", "choose", "trial"]


class Budget(NamedTuple):
    """How much is worked out, in counts and not by a clock: the same job has the same choice everywhere.

    Attributes:
        places: places that are worked out until the best is proven.
        ways: ways to build the circuits that are worked out at each place.
        more: of both, what is worked out after that for the runner-up; 0 where none is asked for.
    """

    places: int = 12
    ways: int = 8
    more: int = 2


USUAL = Budget()


class Choice(NamedTuple):
    """What was chosen and why.

    Attributes:
        best: the choice.
        currency: of all prices.
        bound: no choice that leaves as few checks open costs less.
        proven: the choice costs what the bound says.
        placed: the place was chosen by its price; else it is that of siting.
        places: places that were worked out.
        places_known: free places that there are to choose from; None where they were not all looked for.
        ways: ways to build the circuits that were worked out at the chosen place.
        runner_up: the cheapest choice that differs and leaves no more open; None where none was worked out, or where
            rows have no price, so that nobody can tell which is cheaper.
        given: what the job states beforehand, in words: it was not chosen.
        scaled: kinds of which the firm prices some sizes, so that the invented prices of the others follow them.
    """

    best: Option
    currency: str
    bound: float
    proven: bool
    placed: bool
    places: int
    places_known: int | None
    ways: int
    runner_up: Other | None
    given: tuple[str, ...]
    scaled: tuple[str, ...] = ()

    @property
    def invented(self) -> bool:
        """True where some price of the choice is made up."""
        return any(row.price is not None and row.price.invented for row in self.best.rows)


def _follows(job: Survey, found: Siting) -> bool:
    """True where the units have free places, and the routes of all of them follow the walls."""
    return found.bound is not None and all(priced.follows_unit(job, each.id) is not None for each in found.places)


def trial(choice: Choice) -> Budget:
    """What is worked out where a change of a job is tried: no runner-up, and other ways only where one was taken."""
    return USUAL._replace(more=0) if choice.best.wired.picks else Budget(places=4, ways=1, more=0)


def as_chosen(job: Survey, choice: Choice) -> Survey:
    """A job, perhaps changed, with what was chosen where it leaves that open."""
    return Picked(job, {path: pick for path, pick in choice.best.wired.job.picks.items() if not job.has(path)})


def choose(
    adoption: Adoption, job: Survey, sheets: Mapping[str, SheetFile], prices: Prices, found: Siting, trades: Trades,
    budget: Budget = USUAL,
) -> Choice:  # fmt: skip
    """Choose place, conductors, breaker steps, raceways and fixings together.

    Args:
        adoption: the books in force.
        job: the job file.
        sheets: data sheets by role.
        prices: what orders choices that are all allowed; it decides no verdict.
        found: where siting puts the units.
        trades: what wiring and anchorage answer at a place.
        budget: how much is worked out.

    Returns:
        Of the choices with the fewest open checks, then the fewest rows without a price, the cheapest.
    """
    nec = adoption.book("nfpa70") if "nfpa70" in adoption.books else None
    builder = Builder(nec, job, sheets, prices, trades, budget.ways)
    best: Option | None = None
    known: int | None = 1
    priced_place = nec is not None and _follows(job, found)
    offer = Offer(adoption, job, sheets, prices, found, builder) if priced_place else None
    if offer is not None and offer.placed:
        apart = apart_by(found.judged[0].layout.facts.placing)
        places = search(
            offer.in_order(), offer.option, differs_by(apart), alike=alike_by(apart), budget=budget.places,
            more=budget.more,
        )  # fmt: skip
        best, known = places.best, offer.known
    placed = best is not None
    if best is None:
        best = builder.option(found)
        places = Found(best, None, best.price, True, 1)
    ways = builder.ways(best.siting, more=budget.more)
    bound = min(places.bound, best.price - best.wired.price + ways.bound)
    proven = places.proven and ways.proven and not best.unpriced
    seconds = [*others(best, ways), *([] if places.runner_up is None else [told(best, places.runner_up)])]
    second = min(seconds, key=lambda each: each.more, default=None) if budget.more and not best.unpriced else None
    stated = given(job, best.wired.wiring)
    return Choice(
        best, prices.currency, bound, proven, placed, places.looked_at, known, ways.looked_at, second, stated,
        prices.scaled,
    )  # fmt: skip
