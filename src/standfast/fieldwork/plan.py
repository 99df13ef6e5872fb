"""What the work on site needs to know of the design, in one place.

Design fills it; everything in this room is derived from it.
"""

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from standfast.design.installation import Installation
from standfast.design.labels.schedule import Label
from standfast.design.wiring.material import SheetFile
from standfast.equipment.read import DataSheet
from standfast.sheet import Value
from standfast.shelf import Edition
from standfast.survey.read import Survey
from standfast.words import ENGLISH, say

Use = Literal["line", "neutral", "ground"]
End = Literal["panel", "disconnect", "unit"]
Base = Literal["wood", "concrete", "masonry"]


class Wire(NamedTuple):
    """Equal conductors of a run.

    Attributes:
        use: what they carry.
        size: word, AWG up to ``4/0``, then kcmil.
        material: word, ``cu`` or ``al``.
        insulation: word, ``thhn`` and so on.
        number: how many.
    """

    use: Use
    size: Value
    material: Value
    insulation: Value
    number: int


class Run(NamedTuple):
    """A new run of conductors in a raceway.

    Attributes:
        id: id of the route in the job file.
        name: from which device to which, by their names.
        ends: what stands at each end: how much conductor is left there.
        length: along the run at the bad end of the survey, ft.
        wet: true where any of it is outdoors or damp; None where that is not known.
        raceway: word, ``emt`` and so on.
        trade_size: word, of the raceway.
        wires: its conductors.
        through: names of the switches that it is led into and out of on its way.
    """

    id: str
    name: str
    ends: tuple[End, End]
    length: Value
    wet: bool | None
    raceway: Value
    trade_size: Value
    wires: tuple[Wire, ...]
    through: tuple[str, ...] = ()


class Spot(NamedTuple):
    """Centre of a hole on the face of a wall, mm: `x` from the left end seen facing it, `y` from the floor."""

    x: Value
    y: Value


class Held(NamedTuple):
    """A thing that is fixed to a wall.

    Attributes:
        id: device: ``battery-1``.
        name: its name everywhere.
        wall: id of the wall.
        base: what the fasteners hold in.
        fastener: data sheet of the screw or anchor.
        plate: thickness of what is held at the hole, mm.
        lining: board on the face, mm; 0 where there is none.
        dense: wood of specific gravity above 0.50; None where it is not wood or not known.
        spots: hole centres.
        stray: how far a hole may be off the middle of its stud, mm; None where there are no studs.
    """

    id: str
    name: str
    wall: str
    base: Base
    fastener: SheetFile
    plate: Value
    lining: Value
    dense: bool | None
    spots: tuple[Spot, ...]
    stray: Value | None = None


class Condition(NamedTuple):
    """What a passing check asks to be provided: id and title of the check, and what must be seen."""

    id: str
    title: str
    text: str


class Lift(NamedTuple):
    """How the heaviest part gets up: people, the aid's name or empty, and the reason in one sentence."""

    people: int
    aid: str
    reason: str


class Plan(NamedTuple):
    """Everything that the work is derived from.

    Attributes:
        survey: the job file.
        sheets: data sheets by role: ``battery``, and where chosen ``breaker``, ``disconnect``, ``island_switch``,
            ``disconnect_fastener``.
        installation: the graph.
        runs: new runs.
        held: units on walls, with their holes.
        labels: the label schedule.
        lift: how the unit gets up; None where no way was found that is allowed.
        battery_breaker: rating of the breaker of the battery circuit, A.
        practice: rules of thumb of the trade, as the adoption names them.
        conditions: what passing checks ask to be provided, seen where it matters.
        struck: true where a check says that a vehicle can hit a unit and nothing protects it.
        language: of all texts.
    """

    survey: Survey
    sheets: Mapping[str, DataSheet]
    installation: Installation
    runs: Sequence[Run]
    held: Sequence[Held]
    labels: Sequence[Label]
    lift: Lift | None
    battery_breaker: Value
    practice: Edition
    conditions: Sequence[Condition] = ()
    struck: bool = False
    language: str = ENGLISH

    def say(self, key: str, /, **parts: object) -> str:
        """A text of the catalogue in the language of the job."""
        return say(key, self.language, **parts)

    def asked(self, trade: str) -> list[Condition]:
        """The conditions of the checks of one trade: ``lifting``."""
        return [each for each in self.conditions if each.id.startswith(f"{trade}.")]

    @property
    def units(self) -> list[str]:
        """Names of the battery units, in order."""
        return [part.name for part in self.installation.of_kind("battery")]

    @property
    def has_shutdown_switch(self) -> bool:
        """True where the unit is shut down by a switch of its own, that this job puts up."""
        electrical = self.sheets["battery"].sheet.electrical
        return electrical is not None and electrical.emergency_shutdown == "terminals for a remote switch"

    @property
    def outdoors(self) -> bool:
        """True unless every new run is known to be dry."""
        return any(run.wet is not False for run in self.runs)

    @property
    def framed(self) -> bool:
        """True unless every wall that a unit hangs on is known to be solid: devices beside it meet the same wall."""
        here = {held.wall for held in self.held}
        kinds = {wall.build_up.kind for wall in self.survey.job.walls if wall.id in here}
        return not kinds or bool(kinds & {"timber frame", "steel studs", None})

    @property
    def bases(self) -> list[Base]:
        """What is drilled, each once."""
        return list(dict.fromkeys(held.base for held in self.held))
