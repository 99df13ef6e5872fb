"""What the work on site needs to know of the design, in one place.

Design fills it; everything in this room is derived from it.
"""

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from standfast.commissioning.due_test import EARTHED
from standfast.design.installation import Installation
from standfast.design.labels.schedule import Label
from standfast.design.settings import Setting
from standfast.design.wiring.dc_arc import ArcFlash
from standfast.design.wiring.material import SheetFile
from standfast.design.wiring.metric.built import Reading
from standfast.equipment.model import Sheet
from standfast.equipment.read import DataSheet
from standfast.fieldwork.ways import Way
from standfast.sheet import Value
from standfast.shelf import Edition
from standfast.survey.read import Survey
from standfast.words import ENGLISH, has, named, say
from standfast.words.said import translated

Use = Literal["line", "neutral", "ground", "positive", "negative"]
End = Literal["panel", "disconnect", "unit"]
Base = Literal["wood", "concrete", "masonry"]
BASE_OF: Mapping[str, Base] = {
    "timber frame": "wood", "steel studs": "wood", "concrete": "concrete", "masonry": "masonry",
    "brick veneer": "masonry",
}  # fmt: skip
"""What is drilled in a wall of each kind."""


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
        parts: ids of what stands at its start, on its way and at its end.
        changes: other raceways that it goes through: length in ft, kind, trade size of each.
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
    parts: tuple[str, ...] = ()
    changes: tuple[tuple[Value, Value, Value], ...] = ()


class Spot(NamedTuple):
    """Centre of a hole, mm: `x` from the left end of the wall, facing it; `y` up from the floor, or in it out from the
    wall."""

    x: Value
    y: Value


class Held(NamedTuple):
    """A thing that is fixed to a wall or to the floor before it.

    Attributes:
        id: device: ``battery-1``; its foot is ``battery-1/foot``.
        name: its name everywhere.
        wall: id of the wall.
        base: what the fasteners hold in.
        fastener: data sheet of the screw or anchor.
        plate: thickness of what is held at the hole, mm.
        lining: board on the face, mm; 0 where there is none.
        dense: wood of specific gravity above 0.50; None where it is not wood or not known.
        spots: hole centres.
        stray: how far a hole may be off the middle of its stud, mm; None where there are no studs.
        floor: true where the holes are in the floor.
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
    floor: bool = False

    @property
    def of(self) -> str:
        """The device, of whose foot or bracket this is."""
        return self.id.partition("/")[0]


class Device(NamedTuple):
    """What is delivered and put up by steps of its own: a battery unit, or an inverter that is not inside one.

    Attributes:
        id: ``battery-1``, ``inverter-1``.
        name: its name everywhere.
        role: word of ``[equipment]``: ``battery`` or ``inverter``.
        data: its data sheet.
    """

    id: str
    name: str
    role: str
    data: DataSheet

    @property
    def sheet(self) -> Sheet:
        """What its data sheet says."""
        return self.data.sheet


class Condition(NamedTuple):
    """What a passing check asks to be provided: id and title of the check, and what must be seen."""

    id: str
    title: str
    text: str


class Extra(NamedTuple):
    """Work on the existing house: name of its step, key of its text, where it is done, what was found there."""

    id: str
    key: str
    where: str
    what: str = ""


class Lift(NamedTuple):
    """How the heaviest part gets up: people, the aid's name or empty, and the reason in one sentence.

    `parts` are those that the aid lifts: ``battery-1/module``.
    """

    people: int
    aid: str
    reason: str
    parts: tuple[str, ...] = ()


class Laid(NamedTuple):
    """A cable that is laid along one route, in countries that count in square millimetres.

    Attributes:
        id: of the route.
        name: the devices at its ends.
        cable: kind of cable, in words.
        area: of its live conductors in mm2.
        protective: of its protective conductor in mm2.
        length: of the route in m, as surveyed.
        unit: true where it ends at a unit or an inverter.
    """

    id: str
    name: str
    cable: Value
    area: Value
    protective: Value
    length: Value
    unit: bool


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
        breakers: rating of the breaker of each source, A, by the id of the source.
        practice: rules of thumb of the trade, as the adoption names them.
        conditions: what passing checks ask to be provided, seen where it matters.
        struck: true where a check says that a vehicle can hit a unit and nothing protects it.
        language: of all texts.
        extras: work on the existing house that is done with the job.
        fuses: rating of the DC fuses of each battery, A, by the id of the battery.
        cables: new cables of a job under rules that count in square millimetres.
        readings: what such rules have read when the work is done.
        settings: what the inverter is set to on the grid.
        arcs: what an arc at the direct-current side of each battery can do.
        ways: how each route goes between its ends, by its id.
        own_bars: length of the sticks, spools or drums of a ware that the firm has in its store, by its word in the
            price list.
    """

    survey: Survey
    sheets: Mapping[str, DataSheet]
    installation: Installation
    runs: Sequence[Run]
    held: Sequence[Held]
    labels: Sequence[Label]
    lift: Lift | None
    breakers: Mapping[str, Value]
    practice: Edition
    conditions: Sequence[Condition] = ()
    struck: bool = False
    language: str = ENGLISH
    extras: Sequence[Extra] = ()
    fuses: Mapping[str, Value] = {}
    cables: Sequence[Laid] = ()
    readings: Sequence[Reading] = ()
    settings: Sequence[Setting] = ()
    arcs: Sequence[ArcFlash] = ()
    ways: Mapping[str, Way] = {}
    own_bars: Mapping[str, Value] = {}

    def say(self, key: str, /, **parts: object) -> str:
        """A text of the catalogue in the language of the job, in the words of the trade of its country."""
        return say(named(key, metric=self.metric), self.language, **parts)

    @property
    def metric(self) -> bool:
        """True where the house has an earth and no ground."""
        return self.survey.job.supply.system in EARTHED

    def in_language(self, language: str) -> "Plan":
        """The same work told in another language; what the design says in English is marked as English."""
        other = self._replace(language=language)
        asked = [
            each._replace(title=other.foreign(each.title), text=other.foreign(each.text)) for each in self.conditions
        ]
        lift = None if self.lift is None else self.lift._replace(reason=other.foreign(self.lift.reason))
        return other._replace(conditions=asked, lift=lift)

    def told(self, sheet: Sheet, text: str) -> str:
        """A text of a data sheet in the language of the job; its English, marked, where it was not translated."""
        return sheet.told(text, self.language)

    def foreign(self, text: str) -> str:
        """Text of the design on a paper in another language: as the catalogue says it, else its English, marked so that
        nobody takes it for translated."""
        if self.language == ENGLISH or not text:
            return text
        return translated(text, self.language, self._named) or self.say("common.in_english", text=text)

    def _named(self, part: str) -> str:
        """A part of such a text: another text, what a data sheet names, else a name, a number or a unit as it is."""
        texts = (each for data in self.sheets.values() for each in data.sheet.translations)
        known = (getattr(each, self.language, None) for each in texts if each.text.casefold() == part.casefold())
        return translated(part, self.language, self._named) or next(known, None) or part

    def said(self, kind: Value) -> str:
        """A kind of cable as the catalogue says it; told to be unknown where it is."""
        if kind.missing:
            return self.say("common.not_known")
        key = f"cables.{kind.word}"
        return self.say(key) if has(key, self.language) else self.foreign(kind.word)

    def asked(self, trade: str) -> list[Condition]:
        """The conditions of the checks of one trade: ``lifting``."""
        return [each for each in self.conditions if each.id.startswith(f"{trade}.")]

    @property
    def devices(self) -> list[Device]:
        """The battery units in order, then an inverter of its own."""
        parts = self.installation.of_kind("battery", "inverter")
        own = [part for part in parts if part.role == part.kind and part.role in self.sheets]
        own.sort(key=lambda part: part.kind)
        return [Device(part.id, part.name, part.role, self.sheets[part.role]) for part in own]

    def of_role(self, role: str) -> list[Device]:
        """The devices of one role."""
        return [each for each in self.devices if each.role == role]

    @property
    def shut_down(self) -> list[Device]:
        """The devices that are shut down by a switch which this job puts up."""
        return [each for each in self.devices if _waits_for_a_switch(each.sheet)]

    @property
    def outdoors(self) -> bool:
        """True unless every new run is known to be dry."""
        return any(run.wet is not False for run in self.runs)

    @property
    def framed(self) -> bool:
        """True unless every wall that a unit hangs on is known to be solid: devices beside it meet the same wall.

        Where no hole of a unit was placed, every wall of the job counts.
        """
        here = {held.wall for held in self.held}
        kinds = {wall.build_up.kind for wall in self.survey.job.walls if wall.id in here or not here}
        return not kinds or bool(kinds & {"timber frame", "steel studs", None})

    @property
    def bases(self) -> list[Base]:
        """What is drilled, each once."""
        return list(dict.fromkeys(held.base for held in self.held))

    @property
    def drilled(self) -> list[Base]:
        """What is drilled, as the drill and the dust ask: where no hole was worked out, what the walls of the job are
        made of."""
        kinds = (wall.build_up.kind for wall in self.survey.job.walls)
        return self.bases or list(dict.fromkeys(BASE_OF[kind] for kind in kinds if kind is not None))


def _waits_for_a_switch(sheet: Sheet) -> bool:
    made = sheet.electrical
    return made is not None and made.emergency_shutdown == "terminals for a remote switch"
