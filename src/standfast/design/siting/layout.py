"""What is judged: units, the things round them, and the facts that decide how a rule reads.

A fact that is not known is None, or a missing value, and a rule that hangs on it cannot be told.
"""

from collections.abc import Mapping
from typing import Literal, NamedTuple

from standfast.design.siting.solid import Solid, Span
from standfast.sheet import Value

Place = Literal[
    "exterior wall", "outdoors ground", "attached garage", "detached garage", "detached shed", "outbuilding",
    "utility closet", "utility room", "storage room", "basement", "closet", "cupboard", "understairs cupboard",
    "bedroom", "habitable room", "loft", "roof space", "void", "corridor", "under stairs", "under external stairs",
    "walkway", "bathroom", "laundry",
]  # fmt: skip
"""Where a unit stands."""
OUTDOORS: frozenset[Place] = frozenset(("exterior wall", "outdoors ground"))
APART: frozenset[Place] = frozenset(("detached garage", "detached shed", "outbuilding"))
GARAGES: frozenset[Place] = frozenset(("attached garage", "detached garage"))
RoomKind = Literal["bedroom", "hall", "attached garage", "outside"]
"""The room that the place of a unit opens into."""
Beyond = Literal["habitable room", "non habitable room", "attached garage", "outside"]
"""What lies behind an opening."""
Behind = Literal["bedroom", "living room", "kitchen", "habitable room", "garage", "laundry", "none"]
"""What lies behind the wall."""
HABITABLE: frozenset[Behind] = frozenset(("bedroom", "living room", "kitchen", "habitable room"))
ThingKind = Literal[
    "window", "door", "air brick", "vent", "weep hole", "garage door projection", "panel", "gas regulator vent",
    "gas meter", "fuel store", "gas cylinder", "air conditioner", "heat pump", "water heater", "cooktop", "appliance",
    "inverter", "socket outlet", "light switch", "barrier", "base flood level", "opposite face", "wheel stop",
    "bollard", "shed", "house wall", "property line", "public way", "outside corner", "door leaf", "disconnect",
    "fuse", "meter", "junction box", "pipe", "duct", "shelf", "other",
]  # fmt: skip
Direction = Literal["plus x", "minus x", "plus y", "minus y"]
OPENINGS: frozenset[ThingKind] = frozenset(("door", "window", "vent", "air brick"))
BODIES: frozenset[ThingKind] = frozenset(
    (
        "panel", "gas regulator vent", "gas meter", "fuel store", "gas cylinder", "air conditioner", "heat pump",
        "water heater", "cooktop", "appliance", "inverter", "socket outlet", "light switch", "disconnect", "fuse",
        "meter", "junction box", "pipe", "duct", "shelf", "other",
    )
)  # fmt: skip
"""Things that take room on the wall or before it."""
SERVICED: frozenset[ThingKind] = frozenset(("panel", "disconnect", "fuse"))
"""Electrical equipment that asks for working space before it."""
FOREIGN: frozenset[ThingKind] = frozenset(
    (
        "pipe", "duct", "water heater", "heat pump", "air conditioner", "appliance", "gas meter", "gas regulator vent",
    )
)  # fmt: skip
"""Piping, ducts and equipment that are no part of the electrical installation."""


class Maker(NamedTuple):
    """What the maker's instructions ask; missing values where they do not say.

    Attributes:
        clearances: free space, mm, by ``left``, ``right``, ``above``, ``below``, ``front``.
        least_height: least height of the lower edge above the floor, mm.
        greatest_height: greatest height of the lower edge above the floor, mm.
        switch_height: height of its switch above its lower edge, mm.
        listings: standards that it is listed to.
        coldest: lowest temperature in use, °C.
        hottest: highest temperature in use, °C.
        place: indoors, outdoors, or both.
        chemistry: of its cells.
        holes: centres of its holes from its lower left corner, tenths.
        slot: how far a screw may sit to either side of the middle of its hole, tenths.
        between: free space between two units, mm; None where the sheet says nothing.
        stands: true where it stands on the floor and does not hang.
        unsaid: words of its clearances that have to be found out, and what to write there.
    """

    clearances: Mapping[str, Value]
    least_height: Value
    greatest_height: Value
    switch_height: Value
    listings: Value
    coldest: Value
    hottest: Value
    place: Value
    chemistry: Value
    holes: tuple[tuple[int, int], ...] = ()
    slot: int = 0
    between: Value | None = None
    stands: bool = False
    unsaid: Mapping[str, str] = {}

    @property
    def columns(self) -> list[int]:
        """The distances of its holes from its left edge, each once."""
        return sorted({x for x, _ in self.holes})


def spoken(id: str) -> str:
    """An id as a name in a sentence: ``battery-1`` is Battery 1 everywhere, other things are plain words."""
    words = id.replace("-", " ")
    return words.capitalize() if words.startswith("battery ") and words[-1].isdecimal() else words


class Unit(NamedTuple):
    """A battery unit.

    Attributes:
        id: name in verdicts.
        solid: its outline; the x axis is None while it is not placed.
        width: in tenths.
        energy: rated energy, kWh.
        place: where it stands.
        opens_into: the room that this place opens into directly.
        maker: what its maker asks.
        beyond: in another room than the one that is judged: it takes no room here, but counts.
    """

    id: str
    solid: Solid
    width: int = 0
    energy: Value | None = None
    place: Place | None = None
    opens_into: RoomKind | None = None
    maker: Maker | None = None
    beyond: bool = False

    @property
    def name(self) -> str:
        """Its name in a sentence, as drawings and labels have it."""
        return spoken(self.id)

    @property
    def stands(self) -> bool:
        """True where it stands on the floor."""
        return self.maker is not None and self.maker.stands


class Thing(NamedTuple):
    """A thing on or near the wall.

    Attributes:
        id: name in verdicts.
        kind: what it is.
        solid: its outline.
        leads_into_dwelling: opening: leads directly into the dwelling.
        opens_into: opening: what lies behind it.
        is_exit: opening: people leave by it.
        part_of_system: appliance: belongs to the storage system.
        clear_height: vehicle door: height of its opening, tenths.
        filling: gas cylinder: exchanged, or filled where it stands.
        material: barrier: what it is made of.
        leaf: door leaf: width, tenths.
        closed_towards: door leaf: where it points from the hinge when closed.
        opens_towards: door leaf: side it swings to.
        on_wall: hangs on the wall that is judged, or goes through it.
        new: added by this job.
        volts: highest voltage to ground inside it, V.
        maker: what its maker asks, for the chosen inverter.
        path: where the job speaks of it; empty outside a job.
    """

    id: str
    kind: ThingKind
    solid: Solid
    leads_into_dwelling: bool | None = None
    opens_into: Beyond | None = None
    is_exit: bool | None = None
    part_of_system: bool | None = None
    clear_height: int | None = None
    filling: Literal["exchange", "in situ"] | None = None
    material: Literal["fibre cement", "masonry", "concrete", "tile"] | None = None
    leaf: int | None = None
    closed_towards: Direction | None = None
    opens_towards: Direction | None = None
    on_wall: bool = True
    new: bool = False
    volts: Value | None = None
    maker: Maker | None = None
    path: str = ""

    @property
    def name(self) -> str:
        """Its name in a sentence."""
        return spoken(self.id)

    def lacks(self, word: str, what: str) -> str:
        """What is not known of it, with the word of the job that takes it."""
        return worded(self.path, word, what)


class Facts(NamedTuple):
    """Everything else that a rule asks, by name; lengths in tenths; where a job speaks of the wall and of its room."""

    limits_in: Literal["ft in", "mm"] = "ft in"
    zone_shape: Literal["true distance", "rectangle"] = "true distance"
    corner_measure: Literal["straight", "string"] = "straight"
    energy_counted: Literal["per place", "per dwelling"] = "per place"
    listed_spacing: Value | None = None
    spacing_test_accepted: bool | None = None
    garage_wall: Literal["back", "side"] | None = None
    garage_separated: bool | None = None
    room_lining: Literal["bare studs", "finished", "type x gypsum 5/8 in", "noncombustible"] | None = None
    m1307_3_applied: bool | None = False
    flood_hazard_area: bool | None = None
    likely_worked_on_live: bool | None = None
    volts_to_ground: Value | None = None
    facing_condition: Value | None = None
    battery: Literal["listed", "unlisted repurposed vehicle"] | None = None
    authority_approved: bool | None = None
    escape_route: Literal["none", "unprotected", "protected"] | None = None
    corridor_leads_to_exit: bool | None = None
    fire_separation: bool | None = None
    detection_interlinked: bool | None = None
    outdoors_practicable: bool | None = None
    reason_recorded: bool | None = None
    wall_build: Literal["timber frame", "steel studs", "brick veneer", "masonry", "concrete"] | None = None
    wall_lining: Literal["plasterboard", "none"] | None = None
    room_behind: Behind | None = None
    ceiling: int | None = None
    side_by_side: bool = False
    wall_from: int | None = None
    wall_to: int | None = None
    placing: Value | None = None
    wall: str = ""
    room: str = ""

    def lacks(self, word: str, what: str) -> str:
        """What is not known of the wall, with the word of the job that takes it."""
        return worded(self.wall, word, what)

    def room_lacks(self, word: str, what: str) -> str:
        """What is not known of the room from which the wall is seen."""
        return worded(self.room, word, what)


def worded(path: str, word: str, what: str) -> str:
    """What is not known behind the word of the job that takes it; alone where no job speaks of it."""
    return f"{path}.{word}: {what}" if path else what


class Studs(NamedTuple):
    """Studs behind the lining: centre lines in tenths, and how far a screw may sit off one, mm."""

    centres: tuple[int, ...]
    off_centre: Value


class Footing(NamedTuple):
    """What a unit stands on: stretch along the wall (None for a floor along all of it), depth and top in tenths."""

    x: Span | None
    depth: int | None
    top: int | None


class Room(NamedTuple):
    """What a job knows of the room and the wall beyond the facts of a layout.

    Attributes:
        detection: detector in the room.
        vehicles: whether a vehicle can reach the wall.
        protection: what is put up between vehicle and unit.
        protection_distance: clear distance from it to the front of the unit, mm.
        hottest: highest temperature in the room, °C.
        coldest: lowest temperature in the room, °C.
        stored: rated energy of other storage, by the place where it stands, kWh.
        studs: studs of the wall; None where it is no frame, or nobody knows where they are.
        unknown_studs: what has to be known before that is told; None where it is.
        owner_reach: greatest height of a handle that the owner wants to reach, mm; None without such a wish.
        owner_clear: clear width that the owner wants in front of the wall, mm; None without such a wish.
        footing: what a standing unit stands on; None where nobody said.
        accepted: answers of the authority to what a rule lets it accept, by what was asked.
    """

    detection: Value
    vehicles: bool | None
    protection: Value
    protection_distance: Value
    hottest: Value
    coldest: Value
    stored: tuple[tuple[Place, Value], ...] = ()
    studs: Studs | None = None
    owner_reach: Value | None = None
    owner_clear: Value | None = None
    footing: Footing | None = None
    accepted: Mapping[str, Value] = {}
    unknown_studs: Value | None = None


class Layout(NamedTuple):
    """Units, things and facts; `room` is what only a job knows. Things with a body are obstacles of the job.

    `others` are units of the same job on other walls, in the frame of this one; an axis on which they cannot be told
    is None.
    """

    units: tuple[Unit, ...]
    things: tuple[Thing, ...] = ()
    facts: Facts = Facts()
    room: Room | None = None
    others: tuple[Unit, ...] = ()

    @property
    def every(self) -> tuple[Unit, ...]:
        """The units of the job, on this wall and on others."""
        return self.units + self.others

    @property
    def made(self) -> list[Unit | Thing]:
        """What its maker's instructions are judged for here: the units, and a new inverter of the wall."""
        return [*self.units, *(each for each in self.things if each.maker is not None and each.on_wall)]

    def kind(self, *kinds: ThingKind) -> list[Thing]:
        """The things of some kinds."""
        return [thing for thing in self.things if thing.kind in kinds]

    @property
    def bodies(self) -> list[Thing]:
        """The things of a job that take room: not openings, levels or lines."""
        return [] if self.room is None else [each for each in self.things if each.kind in BODIES]

    @property
    def near(self) -> list[Unit]:
        """The units on other walls of the room: they take room here too."""
        return [each for each in self.others if not each.beyond]
