"""A data sheet: what a maker's manual says about one piece of equipment. Every word of it, and nothing else.

One format serves every kind of equipment; each kind uses the tables that it needs. A fact that the manual does not
state is absent, or the word "not known". The sentence under each field is its help, its line in the reference and its
text when it is missing.
"""

from datetime import date
from typing import Literal

from pydantic import Field

from standfast.equipment.electrical import DcPort, Electrical, EnergyData, PvInput, Terminal
from standfast.equipment.fixing import Anchor, Fastener, Fixing, Plug
from standfast.equipment.inside import Gate, Sensor, Temporary, Zone
from standfast.equipment.link import Link
from standfast.equipment.removal import Removal
from standfast.equipment.task import Indication, Joint, Step
from standfast.equipment.translated import Translation, wordless
from standfast.reading.quantities import (
    Angle,
    Count,
    Current,
    Force,
    Id,
    Length,
    LetThrough,
    Many,
    Mass,
    Pure,
    Ratio,
    Size,
    Table,
    Temperature,
    Text,
    Time,
    Voltage,
)
from standfast.words import ENGLISH, say

Kind = Literal[
    "battery unit", "inverter", "lag screw", "wood screw", "anchor", "aid", "breaker", "disconnect", "island switch",
    "brace plug", "fuse",
]  # fmt: skip


class Source(Table):
    """Where the numbers of the sheet come from."""

    document: Text | None = None
    """Title and edition of the manual or report that was read."""
    pages: Text | None = None
    """Pages that were read."""
    checked_by: Text | None = None
    """Who compared the sheet with the document."""
    checked_on: date | None = None
    """When, without quotes: 2026-05-04."""


class Listing(Table):
    """One statement of a listing."""

    standard: Text
    """Standard: "UL 9540"."""
    statement: Text | None = None
    """What the certificate says."""
    with_: Id | None = Field(default=None, alias="with")
    """For a pair of battery and inverter: the data sheet of the other one; its own id where it holds both."""
    certificate: Text | None = None
    """Number of the certificate or report."""


class Body(Table):
    """Size and mass, as it hangs or stands."""

    width: Size | None = None
    """Width."""
    height: Size | None = None
    """Height."""
    depth: Size | None = None
    """Depth from the wall to the front, with its bracket."""
    mass: Mass | None = None
    """Mass of the whole unit as it hangs, with bracket."""
    cg_height: Length | None = None
    """Centre of gravity above the lower edge."""
    cg_left: Length | None = None
    """Centre of gravity from the left edge."""
    cg_out: Length | None = None
    """Centre of gravity out from the wall."""
    standoff: Length | None = None
    """Gap between wall and the back of the unit."""
    handles: Many[Length] = ()
    """Heights of grips above the lower edge."""
    switch_height: Length | None = None
    """Height of its switch or breaker handle above the lower edge."""
    hung: bool | None = None
    """true where it hangs on a bracket; false where it stands on the floor."""


class Environment(Table):
    """Where it may be."""

    temperature_min: Temperature | None = None
    """Lowest temperature in use."""
    temperature_max: Temperature | None = None
    """Highest temperature in use."""
    enclosure: Text | None = None
    """Enclosure type or degree of protection: "Type 3R"."""
    place: Literal["indoors", "outdoors", "indoors and outdoors"] | None = None
    """Where it may be put."""
    direct_sun: bool | None = None
    """true where it may hang in the sun."""
    altitude_max: Length | None = None
    """Highest altitude."""
    rated_ambient: Temperature | None = None
    """Ambient temperature up to which it gives its rated current."""


class Clearances(Table):
    """Free space that the maker asks for."""

    left: Length | None = None
    """Beside it, to the left."""
    right: Length | None = None
    """Beside it, to the right."""
    above: Length | None = None
    """Above it."""
    below: Length | None = None
    """Below it."""
    front: Length | None = None
    """In front of it."""
    between_units: Length | None = None
    """Between two units."""
    spacing_report: Text | None = None
    """Fire test report that shows a smaller spacing than the code's to be enough."""
    floor_max: Length | None = None
    """Greatest height of its lower edge above the floor."""
    floor_min: Length | None = None
    """Least height of its lower edge above the floor."""


class Part(Table):
    """A part that is carried or lifted by itself."""

    id: Id
    """Name by which steps refer to it."""
    name: Text
    """What it is."""
    mass: Mass | None = None
    """Its mass."""
    width: Size | None = None
    """Its width."""
    height: Size | None = None
    """Its height."""
    depth: Size | None = None
    """Its depth."""
    count: Count | None = None
    """How many there are."""
    lifted: Literal["by hand", "with an aid", "not lifted"] | None = None
    """How the maker says that it is lifted."""
    coupling: Literal["good", "fair", "poor"] | None = None
    """How it can be gripped."""
    on: Id | None = None
    """The part that carries it; absent where it is fixed to the wall or stands on the floor."""
    at: Length | None = None
    """Stack: height of its lower edge above that of the unit; further pieces of it stand on one another."""


class Item(Table):
    """A thing that is in the box, or is not."""

    name: Text
    """What it is, with its size."""
    count: Count | None = None
    """How many."""
    use: Text | None = None
    """What it is for."""


class Box(Table):
    """What is delivered, and what is not."""

    contents: Many[Item] = ()
    """In the box."""
    not_in_box: Many[Item] = ()
    """Needed, but not in the box."""


class Switch(Table):
    """A breaker, a disconnect or an island switch."""

    ratings: Many[Current] = ()
    """Ratings that the family has."""
    voltage: Voltage | None = None
    """Rated voltage."""
    poles: Count | None = None
    """Poles."""
    interrupting: Current | None = None
    """Interrupting rating of a breaker."""
    dc_voltage: Voltage | None = None
    """Rated DC voltage, with as many poles in series as the maker says; absent where it is no DC device."""
    dc_interrupting: Current | None = None
    """Interrupting rating at that DC voltage, of a breaker or fuse."""
    dc_polarised: bool | None = None
    """true where current may flow through it in one direction only."""
    load_break: bool | None = None
    """true where a disconnect may be opened under load."""
    short_circuit_rating: Current | None = None
    """Fault current that a disconnect withstands."""
    short_circuit_with: Text | None = None
    """Protection that this rating depends on: "breaker 30 A ahead of it"."""
    series_with: Many[Text] = ()
    """Devices ahead of it with which its maker states a tested combination, as the panel label names them."""
    series_interrupting: Current | None = None
    """Interrupting rating of that combination."""
    voltage_to_ground: Voltage | None = None
    """Of a breaker with a slash rating such as 120/240 V its lower voltage; absent where it has one voltage only."""
    instantaneous: Pure | None = None
    """Multiple of its rating from which a breaker surely trips without delay, as a number: 10."""
    let_through: LetThrough | None = None
    """Greatest energy that a breaker or fuse lets through while it clears a fault up to its interrupting rating."""
    current_limiting: bool | None = None
    """true where a fuse or breaker is listed as current-limiting."""
    dc_poles_in_series: Count | None = None
    """Poles that the maker puts in series for its DC voltage: 1 where each pole has that voltage by itself."""
    dc_clearing_current: Current | None = None
    """Direct current from which a fuse or breaker clears within its clearing time."""
    dc_clearing_time: Time | None = None
    """Longest time in which it clears such a direct current."""
    curve: Literal["B", "C", "D"] | None = None
    """Tripping curve of a breaker, in metric countries."""
    residual: Literal["AC", "A", "F", "B"] | None = None
    """Type of residual current device that is part of it."""
    residual_rated: Current | None = None
    """Its rated residual current: "30 mA"."""
    backfeed: bool | None = None
    """true where it may be fed from either side."""
    continuous: Ratio | None = None
    """Part of the rating that may flow for three hours or more: "80 %" or "100 %"."""
    service_rated: bool | None = None
    """true where it is marked as suitable for use as service equipment."""
    lockable_open: bool | None = None
    """true where it can be locked open."""
    neutral_switched: bool | None = None
    """true where an island switch opens the neutral too."""
    held: Literal["bolt-on", "plug-in with fastener", "plug-in"] | None = None
    """How a breaker is held in its panel; a fastener takes more than a pull to release it."""
    spaces: Count | None = None
    """Spaces that it takes in a panel."""
    transfer_time: Time | None = None
    """Time in which an island switch changes over."""
    family: Text | None = None
    """Breaker family, as panel labels name it."""


class Aid(Table):
    """A lifting aid."""

    kind: Literal["lift table", "stacker", "wall lift", "stair climber", "hand truck", "hoist"] | None = None
    """What it is."""
    rated_load: Mass | None = None
    """Rated load."""
    lift_min: Length | None = None
    """Lowest height of its platform."""
    lift_max: Length | None = None
    """Greatest height of its platform."""
    steps: bool | None = None
    """true where it is rated for steps."""
    slope_max: Angle | None = None
    """Greatest slope it is rated for."""
    floor: Many[Literal["level and dry", "sloped", "gravel", "wet"]] = ()
    """Floors it is made for."""
    width: Size | None = None
    """Width it needs on the way."""
    operators: Count | None = None
    """People it takes."""
    push_force: Force | None = None
    """Force to start it with the rated load on a level floor."""


class Sheet(Table):
    """The whole data sheet."""

    schema_: Literal[1] = Field(alias="schema")
    """Version of this format: 1."""
    id: Id
    """Name by which a job asks for this sheet."""
    kind: Kind
    """What it is."""
    invented: bool
    """true for an example that no maker sells; false for a sheet made from a real manual."""
    maker: Text
    """Who makes it."""
    name: Text
    """What the maker calls it."""
    source: Source = Source.model_construct()
    """Where the numbers come from."""
    listing: Many[Listing] = ()
    """What the certificates say."""
    energy: EnergyData | None = None
    """Energy of a battery unit."""
    electrical: Electrical | None = None
    """Ratings at the terminals."""
    dc: DcPort | None = None
    """The DC side of a battery unit, or the battery port of an inverter."""
    pv_inputs: Many[PvInput] = ()
    """Inputs of an inverter for PV arrays."""
    terminals: Many[Terminal] = ()
    """Terminals for conductors."""
    zones: Many[Zone] = ()
    """Terminals that hands reach into together, and the cover that guards them."""
    gates: Many[Gate] = ()
    """Switches, breakers, connectors and fuses inside, that part a side from the rest."""
    sensors: Many[Sensor] = ()
    """Measuring transformers of its meter."""
    temporary: Many[Temporary] = ()
    """Parts that must not stay: spacers, caps, transport locks."""
    link: Link | None = None
    """The link of several units, and to an inverter."""
    body: Body = Body.model_construct()
    """Size and mass."""
    fixing: Fixing | None = None
    """How it is held on the wall."""
    environment: Environment = Environment.model_construct()
    """Where it may be."""
    clearances: Clearances = Clearances.model_construct()
    """Free space it asks for."""
    parts: Many[Part] = ()
    """Parts that are lifted by themselves."""
    box: Box = Box.model_construct()
    """What is delivered."""
    joints: Many[Joint] = ()
    """Bolted joints."""
    steps: Many[Step] = ()
    """Steps of the installation, from the manual."""
    indications: Many[Indication] = ()
    """What lamps and displays say."""
    removal: Removal | None = None
    """How it is taken down again."""
    fastener: Fastener | None = None
    """A lag screw or wood screw."""
    anchor: Anchor | None = None
    """An anchor for concrete or masonry."""
    plug: Plug | None = None
    """A plug of a brace."""
    switch: Switch | None = None
    """A breaker, disconnect or island switch."""
    aid: Aid | None = None
    """A lifting aid."""
    translations: Many[Translation] = ()
    """Its texts in other languages."""

    def told(self, text: str, language: str) -> str:
        """A text of the sheet in a language; its English, marked as such, where the sheet does not hold it there."""
        if language == ENGLISH or wordless(text):
            return text
        said = (getattr(each, language, None) for each in self.translations if each.text == text)
        return next(said, None) or say("common.in_english", language, text=text)
