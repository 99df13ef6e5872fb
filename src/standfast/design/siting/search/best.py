"""The cheapest placement of all: partial placements are gone on with in the order of the least that they can cost."""

import math
from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import count
from typing import NamedTuple

from standfast.design.siting import choosing
from standfast.design.siting.question import Question, Spot
from standfast.design.siting.search.asked import Together
from standfast.design.siting.search.field import Field, Open, field_of
from standfast.design.siting.search.groups import groups
from standfast.design.siting.search.solver import solve
from standfast.design.siting.search.vertices import vertices

NODES = 20_000
"""Partial placements that are looked at before an exact solver is asked."""
SOLVER = "an exact solver for several units: install standfast with its extra 'opt'"
TOO_HARD = "fewer walls to choose from, or an edge of a unit fixed beforehand: the exact solver gave up too"
WEDGED = "fewer walls to choose from, or an edge of a unit fixed beforehand: not all places where units touch are known"
DIVES = 200
"""Partial placements that are filled up to find one at all, when the budget is over."""


class Placement(NamedTuple):
    """A spot for each unit, in the order of the units, and what all of them cost together."""

    cost: int
    spots: tuple[Spot, ...]


class Answer(NamedTuple):
    """What was found.

    Attributes:
        spots: for each unit, in the order of the units; none where no placement was found.
        cost: of all of them together, halves of a tenth of run; None without a placement.
        bound: no placement costs less; None where it is proven that there is none.
        proven: the spots cost what the bound says, or there is no placement.
        nodes: partial placements that were looked at.
        need: what would prove it, where it is not proven.
    """

    spots: tuple[Spot, ...]
    cost: int | None
    bound: int | None
    proven: bool
    nodes: int
    need: str = ""


class Entry(NamedTuple):
    """A partial placement that waits for one spot more, or a whole one.

    Attributes:
        least: what every placement from here costs at least.
        open: units still to come: of two with one least the fuller one goes first.
        tie: the order in which they were found.
        here: the units that are placed.
        at: the spot that is taken next.
        choices: the spots after that one.
    """

    least: float
    open: int
    tie: int
    here: Open
    at: int
    choices: Iterator[tuple[float, int]]


def cheapest(asked: Together, nodes: int = NODES) -> Answer:
    """The cheapest placement.

    Args:
        asked: what is placed.
        nodes: how many partial placements are looked at before an exact solver is asked.

    Returns:
        The placement, with the bound that was proven.
    """
    if not all(asked.units):
        return Answer((), None, None, True, 0)
    one = _alone(asked)
    if one is not None:
        spot = choosing.cheapest(one)
        return Answer((), None, None, True, 1) if spot is None else Answer((spot,), spot.cost, spot.cost, True, 1)
    search = Search(asked)
    found, bound, need = next(search.placements(nodes), None), math.inf, ""
    if search.over:
        found, bound, need = search.solved()
    elif found is not None:
        bound = found.cost
    if not search.vertices.complete:
        bound, need = min(bound, search.alone()), WEDGED
    proven = not need
    cost, spots = (None, ()) if found is None else (found.cost, found.spots)
    return Answer(spots, cost, None if bound == math.inf else math.ceil(bound), proven, search.nodes, need)


def in_order(asked: Together, nodes: int | None = None) -> Iterator[Placement]:
    """The placements at vertices, from the cheapest.

    Args:
        asked: what is placed.
        nodes: how many partial placements are looked at; all of them with None.
    """
    if not all(asked.units):
        return iter(())
    one = _alone(asked)
    if one is not None:
        return (Placement(spot.cost, (spot,)) for spot in choosing.in_order(one))
    return Search(asked).placements(nodes)


def _alone(asked: Together) -> Question | None:
    """The question of one unit on one wall that leaves no strip."""
    lone = len(asked.units) == 1 and len(asked.units[0]) == 1 and not asked.strips
    return asked.units[0][0] if lone else None


class Search:
    """A search that is under way.

    Attributes:
        field: spots, and which go together.
        nodes: partial placements that were looked at.
        over: the budget ran out.
        bound: no placement that is still to come costs less.
    """

    def __init__(self, asked: Together) -> None:
        """Prepare a search."""
        found = groups(asked)
        self.vertices = vertices(asked, found)
        self.field: Field = field_of(asked, found, self.vertices.spots, stacked=self.vertices.stacked)
        self.nodes = 0
        self.over = False
        self.bound: float = 0
        self.heap: list[Entry] = []
        self.tie = count()
        start = self.field.start()
        if start is not None:
            self._push(start, 0)

    def placements(self, budget: int | None) -> Iterator[Placement]:
        """The placements, from the cheapest, while the budget lasts."""
        while self.heap:
            entry = heappop(self.heap)
            self.bound = entry.least
            if not entry.open:
                yield Placement(entry.here.cost, self.field.placed(entry.here))
                continue
            if self.nodes == budget:
                self.over = True
                return
            self.nodes += 1
            taken = self.field.take(entry.here, entry.at)
            if taken is not None:
                self._push(taken, entry.least)
            self._go_on(entry.here, entry.choices)

    def solved(self) -> tuple[Placement | None, float, str]:
        """What an exact solver finds where the budget is over: placement, bound, and what would prove it."""
        start, found = self.field.start(), self._dive()
        if start is None:
            return None, math.inf, ""
        worth = start if found is None else start._replace(free=self.field.worth(start, found.cost))
        answer = solve(self.field, worth)
        if answer is None:
            return self._placement(found), self.bound, SOLVER
        if answer.best is not None and (found is None or answer.best.cost <= found.cost):
            found = answer.best
        if answer.proven:
            return self._placement(found), math.inf if found is None else found.cost, ""
        return self._placement(found), max(self.bound, answer.bound), TOO_HARD

    def _placement(self, here: Open | None) -> Placement | None:
        return None if here is None else Placement(here.cost, self.field.placed(here))

    def _dive(self) -> Open | None:
        """The cheapest of the fullest partial placements that wait, each filled up with what comes first."""
        found = []
        for entry in sorted(self.heap, key=lambda each: (each.open, each.least))[:DIVES]:
            here: Open | None = self.field.take(entry.here, entry.at) if entry.open else entry.here
            while here is not None and any(here.counts):
                step = next(self.field.choices(here, 0), None)
                here = None if step is None else self.field.take(here, step[1])
            found += [] if here is None else [here]
        return min(found, key=lambda each: each.cost, default=None)

    def alone(self) -> float:
        """What the units cost at least, each by itself."""
        return sum(
            len(group.units) * min((spot.cost for spot in spots), default=math.inf)
            for group, spots in zip(self.field.found, self.vertices.spots, strict=True)
        )

    def _push(self, here: Open, least: float) -> None:
        least = max(least, self.field.least(here))
        if least == math.inf:
            return
        if any(here.counts):
            self._go_on(here, self.field.choices(here, least))
        else:
            heappush(self.heap, Entry(here.cost, 0, next(self.tie), here, -1, iter(())))

    def _go_on(self, here: Open, choices: Iterator[tuple[float, int]]) -> None:
        for least, at in choices:
            heappush(self.heap, Entry(least, sum(here.counts), next(self.tie), here, at, choices))
            return
