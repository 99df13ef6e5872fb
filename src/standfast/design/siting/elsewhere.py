"""Other places of the units of a job, for a choice that counts more than siting does."""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.siting import choosing, search
from standfast.design.siting.choosing import Question, Spot
from standfast.design.siting.ground import put, wish_of
from standfast.design.siting.placed import Siting
from standfast.design.siting.search import Together
from standfast.design.siting.several import Chosen, Standing, together
from standfast.design.siting.whole import grounds_of, sited
from standfast.shelf import Adoption
from standfast.survey.joined import unit_ids

NODES = 20_000
"""Partial placements of several units that are looked at, at most."""
HOW = "chosen with all that the place costs, among the vertices of the free space"


class Elsewhere:
    """Where the units of a job could stand: on the walls with the fewest open checks.

    Args:
        adoption: the books in force.
        job: the job file.
        sheets: data sheets by role.
        found: where siting puts the units.
    """

    def __init__(self, adoption: Adoption, job: JobFile, sheets: Mapping[str, SheetFile], found: Siting) -> None:
        self._adoption, self._grounds = adoption, grounds_of(adoption, job, sheets)
        self._found, self.units = found, unit_ids(job.content)
        fewest = min(each.open for each in found.walls)
        used = {each.wall for each in found.places} | {each.wall for each in found.walls if each.open == fewest}
        walls = [[wall for wall in self._grounds if wall in used and wish_of(job, unit).wall in (None, wall)]
                 for unit in self.units]  # fmt: skip
        self.asked: Together = together(adoption, self._grounds, self.units, walls, by_test=False)

    def in_order(self, priced: Sequence[Sequence[Question]]) -> Iterator[tuple[int, tuple[Spot, ...]]]:
        """The free places of all units, from the cheapest: what they cost, and a spot for each unit.

        Args:
            priced: for each unit the questions of `asked`, with other costs.
        """
        if len(self.units) == 1:
            spots = sorted(spot for ask in priced[0] for spot in choosing.in_order(ask))
            return ((spot.cost, (spot,)) for spot in spots)
        placements = search.in_order(self.asked._replace(units=priced), NODES)
        return ((each.cost, each.spots) for each in placements)

    def siting(self, spots: Sequence[Spot]) -> Siting:
        """The units at other places, judged."""
        standing = []
        for number, (unit, spot) in enumerate(zip(self.units, spots, strict=True)):
            ask = next(each for each in self.asked.units[number] if each.wall == spot.wall)
            placed = put(self._grounds[spot.wall].unit(unit), spot.left, spot.bottom)
            standing.append(Standing(spot.wall, placed, ask, spot))
        chosen = Chosen(tuple(standing), self._found.bound, self._found.proven)
        return sited(self._adoption, self._grounds, chosen, HOW)._replace(walls=self._found.walls)
