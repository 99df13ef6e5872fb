"""How one unit is held: what comes out of the anchorage, for the checks, the drawings and the hole card."""

from typing import Literal, NamedTuple

from standfast.design.anchorage.task import SheetFile
from standfast.sheet import Check, Value, missing

Base = Literal["wood", "concrete"]


class Hole(NamedTuple):
    """A row of the hole table, mm: `x` from the left end of the wall, `y` above the floor, `off` the stud's middle.

    `off` is None where the wall has no studs.
    """

    id: str
    x: Value
    y: Value
    off: Value | None


class FootHole(NamedTuple):
    """A hole in the floor, mm: `x` along the wall from its left end, `out` from the face of the wall."""

    id: str
    x: Value
    out: Value


class Foot(NamedTuple):
    """How the foot of a standing unit is held.

    Attributes:
        anchor: data sheet of its anchor; None where none was offered, or the maker has the brace hold all.
        holes: in the order of the data sheet; none where nothing is anchored.
        plate: thickness of the foot at its holes, mm.
        cost: of all its anchors; None where no price is known.
    """

    anchor: SheetFile | None
    holes: tuple[FootHole, ...]
    plate: Value
    cost: float | None


class Tried(NamedTuple):
    """A fixing that was tried.

    Attributes:
        sheet: its data sheet.
        cost: of all pieces; None where no price is known.
        checks: its checks.
        stray: how far a hole may be off the middle of its stud, in; None where there are no studs.
    """

    sheet: SheetFile
    cost: float | None
    checks: tuple[Check, ...]
    stray: Value | None

    @property
    def open(self) -> int:
        """How many of its checks stand in the way."""
        return sum(check.open for check in self.checks)


class Anchorage(NamedTuple):
    """How one unit is held.

    Attributes:
        unit: ``battery-1``, ``inverter-1``.
        wall: id of the wall.
        base: what the fixings hold in: ``wood`` or ``concrete``; None where the wall carries nothing of the unit.
        fixing: data sheet of the fixing in the wall; None where none was offered for this wall, or none is due.
        cost: of all its pieces in the wall; None where no price is known.
        holes: the hole table of the wall, in the order of the data sheet.
        plate: thickness of the bracket, mm.
        lining: board behind it, mm.
        gravity: specific gravity of the studs; None where there are none.
        stray: how far a hole may be off the middle of its stud, in; None where there are no studs.
        checks: every check, with ids ``anchorage.…/battery-1``.
        tried: every fixing that was tried, in the order of cost.
        foot: how the foot is held; None for a unit that hangs.
        due: True where a fixing in the wall is needed.
    """

    unit: str
    wall: str
    base: Base | None
    fixing: SheetFile | None
    cost: float | None
    holes: tuple[Hole, ...]
    plate: Value
    lining: Value
    gravity: Value | None
    stray: Value | None
    checks: tuple[Check, ...]
    tried: tuple[Tried, ...]
    foot: Foot | None = None
    due: bool = True

    @property
    def passes(self) -> bool:
        """True where nothing fails and nothing is open."""
        return (self.fixing is not None or not self.due) and not any(check.open for check in self.checks)


def untold(unit: str, wall: str, check: Check) -> Anchorage:
    """What is said of a unit where no adopted book tells how it is held: one check, no fixing, no hole."""
    why = check.reason
    plate, lining = missing("t_plate", "mm", why), missing("t_lining", "mm", why)
    return Anchorage(unit, wall, None, None, None, (), plate, lining, None, None, (check,), (), None, due=False)
