"""Where one more unit could stand some day. No verdict: nobody asked for it yet."""

from typing import NamedTuple

from standfast.design.siting import choosing
from standfast.design.siting.choosing import Question, Spot
from standfast.design.siting.ground import in_force, put
from standfast.design.siting.judged import checks_of
from standfast.design.siting.keepouts import keepouts
from standfast.design.siting.layout import spoken
from standfast.design.siting.placed import Siting
from standfast.design.siting.solid import Solid, mm
from standfast.sheet import Check
from standfast.shelf import Adoption
from standfast.units import feet_inches


class Later(NamedTuple):
    """What a wall holds for one more unit of the same kind, beside those that stand on it.

    Attributes:
        wall: id of the wall.
        unit: name that the unit would have.
        question: where it may not stand; `spaces.free_places` draws what is left.
        spot: its cheapest place; None where there is none.
        stopped: checks that would be open at that place and are not open today, such as the energy of the place.
    """

    wall: str
    unit: str
    question: Question
    spot: Spot | None
    stopped: tuple[Check, ...]

    def __str__(self) -> str:
        """The answer in a sentence."""
        name = spoken(self.unit)
        if self.spot is None:
            return f"No further unit fits on {self.wall}."
        left, bottom = mm(self.spot.left), mm(self.spot.bottom)
        where = f"{_both(left)} from the left end of {self.wall}, {_both(bottom)} above the floor"
        if not self.stopped:
            return f"A further unit ({name}) fits at {where}."
        asked = " ".join(dict.fromkeys(check.title for check in self.stopped))
        return f"There is room for a further unit ({name}) at {where}, but open would be: {asked}"


def _both(length_mm: float) -> str:
    return f"{feet_inches(length_mm)} ({length_mm:.0f} mm)"


def later(adoption: Adoption, siting: Siting, wall: str) -> Later:
    """Where one more unit could stand on a wall that holds units.

    Args:
        adoption: the books in force.
        siting: the units as they stand.
        wall: id of a wall that holds one of them.
    """
    judged = siting.on(wall)
    layout, like = judged.layout, judged.layout.units[0]
    unit = like._replace(id=f"battery-{len(siting.places) + 1}", solid=Solid(None, like.solid.y, like.solid.z))
    low = 0 if like.solid.z is None else like.solid.z.low
    asked = judged.question._replace(
        keepouts=keepouts(in_force(adoption, layout), layout, unit), left=None, bottom=low if unit.stands else None
    )
    spot = choosing.cheapest(asked)
    if spot is None:
        return Later(wall, unit.id, asked, None, ())
    more = layout._replace(units=(*layout.units, put(unit, spot.left, spot.bottom)))
    known = {check.id for check in siting.checks if check.open}
    stopped = [check for check in checks_of(adoption, more) if check.open and check.id not in known]
    return Later(wall, unit.id, asked, spot, tuple(stopped))
