"""The places that a job offers, in the order of a price that no choice there can be below."""

from collections import deque
from collections.abc import Iterator, Mapping

from standfast.design.anchorage.held import Anchorage, Tried
from standfast.design.choice import priced
from standfast.design.choice.built import Builder, Option, feet
from standfast.design.choice.rows import SheetFile
from standfast.design.siting.choosing import Spot
from standfast.design.siting.elsewhere import Elsewhere
from standfast.design.siting.placed import PlacedUnit, Siting
from standfast.design.wiring import runs
from standfast.design.wiring.material import Material
from standfast.equipment.prices import Prices
from standfast.shelf import Adoption
from standfast.survey.read import Survey

Spots = tuple[Spot, ...]
FIXINGS = ("fastener", "anchor")


class Offer:
    """The places of a job, and what is known of their prices.

    Attributes:
        known: free places that there are; None for several units, whose places are not all looked for.
        placed: the run of every unit is priced, so that its place can be chosen by price.
    """

    def __init__(
        self, adoption: Adoption, job: Survey, sheets: Mapping[str, SheetFile], prices: Prices, found: Siting,
        builder: Builder,
    ) -> None:  # fmt: skip
        self._builder = builder
        self._elsewhere = Elsewhere(adoption, job, sheets, found)
        bare = builder.shortest(found)
        parts, known = builder.parts(job, bare, longer=True), feet(bare)
        self._circuits = sum(min(part.fixed for part in each) for each in parts)
        self._circuits += sum(
            min(part.per_ft[run] for part in each) * known.get(run, 0.0) for each in parts for run in each[0].per_ft
        )
        task = Material(adoption.book("nfpa70"), adoption.book("handbook"), job, sheets, self._elsewhere.units[0])
        routes = {unit: priced.follows_unit(job, unit) for unit in self._elsewhere.units}
        per_ft = {
            unit: priced.least_per_ft(parts, route.id, runs.tolerance(task))
            for unit, route in routes.items() if route is not None
        }  # fmt: skip
        self.placed = all(
            route is not None and any(route.id in each[0].per_ft for each in parts) for route in routes.values()
        )
        units = list(zip(self._elsewhere.units, self._elsewhere.asked.units, strict=True))
        self._asked, self._scale = priced.questions(job, units, per_ft, prices)
        self._fixings = _least_fixings(sheets, prices) * len(units)
        self._walls: dict[str, float] = {}
        self._inverter = 0.0
        self.known: int | None = None

    def in_order(self) -> Iterator[tuple[float, Spots]]:
        """Places with the least price of this one and all after it: first the best of each wall, then by that price."""
        if len(self._asked) > 1:
            for cost, spots in self._elsewhere.in_order(self._asked):
                yield self._circuits + self._fixings + self._scale.money(cost), spots
            return
        queues = {ask.wall: deque(self._elsewhere.in_order([[ask]])) for ask in self._asked[0]}
        self.known = sum(map(len, queues.values()))
        first = sorted((wall for wall, queue in queues.items() if queue), key=lambda wall: queues[wall][0])
        while any(queues.values()):
            bounds = {wall: self._least(wall, queue[0][0]) for wall, queue in queues.items() if queue}
            wall = first.pop(0) if first else min(bounds, key=lambda each: bounds[each])
            yield min(bounds.values()), queues[wall].popleft()[1]

    def option(self, spots: Spots) -> Option:
        """A place worked out; what it shows of the fixings on its wall sharpens the bound there."""
        found = self._builder.option(self._elsewhere.siting(spots))
        for place, held in zip(found.siting.places, found.anchorages, strict=False):
            least = _least_here(place, held)
            if least is not None:
                self._walls[place.wall] = max(least, self._walls.get(place.wall, 0.0))
        others = found.anchorages[len(found.siting.places) :]
        self._inverter = sum(each.cost for each in others if each.cost is not None)
        return found

    def _least(self, wall: str, cost: int) -> float:
        """The least price of a place; an inverter of its own stands where it stands, whatever the place."""
        return self._circuits + self._inverter + self._walls.get(wall, self._fixings) + self._scale.money(cost)


def _least_fixings(sheets: Mapping[str, SheetFile], prices: Prices) -> float:
    """The least price of the fixings of one unit in a wall, whatever the wall; 0 where one has no price."""
    fixing = sheets["battery"].content.fixing
    offered = [prices.piece.get(sheets[role].content.id) for role in FIXINGS if role in sheets]
    known = [each for each in offered if each is not None]
    return 0.0 if fixing is None or len(known) < len(offered) else min(known, default=0.0) * len(fixing.holes)


def _least_here(place: PlacedUnit, held: Anchorage) -> float | None:
    """The least price of the fixings of a unit anywhere on its wall.

    A fixing is ruled out where it fails a check whose working does not lead to the place; a wall on which none is left
    keeps them all.
    """
    able = [each for each in held.tried if not _hopeless(place, each)] or list(held.tried)
    costs = [each.cost for each in able if each.cost is not None]
    return min(costs) if costs and len(costs) == len(able) else None


def _hopeless(place: PlacedUnit, tried: Tried) -> bool:
    here = {id(place.left), id(place.bottom)}
    for check in tried.checks:
        sides = (check.demand, check.limit)
        if check.verdict != "fail" or any(side is None for side in sides):
            continue
        if not any(id(value) in here for side in sides if side is not None for value in side.trail()):
            return True
    return False
