"""What siting answers: where each unit stands, the walls as they were judged with their units, and every check."""

from typing import NamedTuple

from standfast.design.siting.choosing import Question
from standfast.design.siting.layout import Layout, Unit
from standfast.design.siting.solid import mm
from standfast.sheet import Check, Value


class PlacedUnit(NamedTuple):
    """One unit at its place.

    Attributes:
        id: name of the unit.
        wall: id of its wall.
        left: left edge from the left end of the wall, mm.
        bottom: lower edge above the floor, mm.
        run: way along the wall and up from the middle of the unit to that of its panel, mm; missing where unknown.
        unit: the unit as judged, with its outline.
        disconnect_in_sight: yes where its disconnect can be seen from it; missing where nobody knows.
        disconnect_distance: straight distance to its disconnect, ft; missing where nobody knows.
    """

    id: str
    wall: str
    left: Value
    bottom: Value
    run: Value
    unit: Unit
    disconnect_in_sight: Value
    disconnect_distance: Value

    @property
    def holes(self) -> list[tuple[float, float]]:
        """Centres of the holes on the wall, mm from its left end and from the floor."""
        maker, (x, _, z) = self.unit.maker, self.unit.solid
        if maker is None or x is None or z is None:
            return []
        return [(mm(x.low + across), mm(z.low + up)) for across, up in maker.holes]


class JudgedWall(NamedTuple):
    """A wall that holds units.

    Attributes:
        wall: id of the wall.
        layout: the wall as judged, with its units.
        question: keep-outs and cost by which the place of a unit on this wall was chosen.
    """

    wall: str
    layout: Layout
    question: Question


class WallTried(NamedTuple):
    """A wall that was looked at: how many checks stand open at its best place, and that place's cost."""

    wall: str
    open: int
    cost: int
    reasons: tuple[str, ...]


class Siting(NamedTuple):
    """Where the units of a job stand.

    Attributes:
        places: every unit, in the order of their names.
        checks: every check of the places, ids ``siting.<rule>/<unit>/<thing>``.
        judged: the walls that hold units.
        walls: the walls that were looked at.
        bound: no allowed placement costs less, halves of a tenth of run; None where none is allowed.
        proven: it is proven that none is cheaper, or that none is allowed.
        need: what would prove it, where it is not proven.
    """

    places: tuple[PlacedUnit, ...]
    checks: tuple[Check, ...]
    judged: tuple[JudgedWall, ...]
    walls: tuple[WallTried, ...]
    bound: int | None
    proven: bool
    need: str = ""

    def place(self, unit: str) -> PlacedUnit:
        """The place of a unit by its name."""
        return next(each for each in self.places if each.id == unit)

    def on(self, wall: str) -> JudgedWall:
        """A wall that holds units, by its id."""
        return next(each for each in self.judged if each.wall == wall)
