"""The job file: what was surveyed and what was chosen. Every word of it, and nothing else.

A fact that was not surveyed is absent, or the word "not known"; both read as None here and neither is ever filled in.
The sentence under each field is its help in the editor, its line in the reference and its text when it is missing.
"""

from datetime import date
from typing import Literal

from pydantic import Field

from standfast.reading.quantities import (
    Angle,
    Count,
    Id,
    Length,
    Many,
    Ratio,
    Table,
    Text,
    Time,
)
from standfast.survey.existing import Adder, Defect
from standfast.survey.house import Conditions, Land, Room, Site, Wall
from standfast.survey.power import Array, Backup, Loads, Panel, Route
from standfast.survey.sources import Control, Generator, Grid
from standfast.survey.supply import Supply
from standfast.survey.visit import Visit


class Head(Table):
    """The job itself: its name, date and the codes in force."""

    name: Text
    """Name of the job, printed on every sheet."""
    invented: bool = False
    """true for an example: every sheet then says that the job is invented."""
    date: date
    """Date of this revision, without quotes: 2026-05-04. The set carries it; no clock is read."""
    revision: Text = "A"
    """Letter or number of this revision."""
    adoption: Text
    """The codes in force at the place, by name: "us-2021"; or the word of a country, "uk" or "au", for those that are
    in force there on the date of the job."""
    scope: Text | None = None
    """What is done, in one sentence, for the permit."""


class Person(Table):
    """Somebody the set names: owner, authority or utility."""

    name: Text | None = None
    """Name of the person, office or firm."""
    phone: Text | None = None
    """Telephone number."""
    account: Text | None = None
    """Customer or account number at the utility."""


class Contractor(Table):
    """The firm that does the work."""

    firm: Text | None = None
    """Name of the firm."""
    licence: Text | None = None
    """Number and class of the contractor's licence."""
    licence_expires: date | None = None
    """Date on which the licence ends, without quotes: 2027-03-31."""
    responsible: Text | None = None
    """The licensed person who answers for the work."""
    people: Many[Id] = ()
    """People of the firm who do the work, by their ids in the firm file."""
    phone: Text | None = None
    """Telephone number of the firm."""


class Chosen(Table):
    """Equipment that was chosen, each by the id of its data sheet."""

    battery: Id | None = None
    """Battery unit."""
    quantity: Count | None = None
    """Number of battery units."""
    inverter: Id | None = None
    """Inverter, where it is not inside the battery unit."""
    fastener: Id | None = None
    """Screw or anchor that holds the unit."""
    anchor: Id | None = None
    """Anchor for concrete, where the wall is concrete."""
    breaker: Id | None = None
    """Breaker family for the battery circuit."""
    island_switch: Id | None = None
    """Switch that parts the backed-up circuits from the grid, where it is not inside the battery unit."""
    disconnect: Id | None = None
    """Disconnect of the battery."""
    disconnect_fastener: Id | None = None
    """Screw that holds the disconnect."""
    aid: Id | None = None
    """Lifting aid."""
    plug: Id | None = None
    """Plug of a brace, where one is put in."""
    dc_disconnect: Id | None = None
    """Disconnect between a battery and its inverter, where it is not inside one of them."""
    dc_overcurrent: Id | None = None
    """Fuse or breaker of the DC conductors of a battery, where it is not inside the battery."""
    inverter_fastener: Id | None = None
    """Screw or anchor that holds the inverter."""
    base_anchor: Id | None = None
    """Anchor that holds the foot of a standing unit to its slab or pad."""


class UnitWish(Table):
    """Where one unit of several shall be, as far as it is fixed beforehand."""

    id: Literal["battery-1", "battery-2", "battery-3", "battery-4", "battery-5", "battery-6", "battery-7", "battery-8"]
    """Name of the unit: battery-1, battery-2 and so on."""
    wall: Id | None = None
    """Wall on which it shall be."""
    left: Length | None = None
    """Its left edge from the left end of that wall."""
    bottom: Length | None = None
    """Its lower edge above the floor."""


class Wishes(Table):
    """What the owner and the installer would like."""

    wall: Id | None = None
    """Wall on which the unit shall hang; absent: the cheapest of those that are allowed."""
    left: Length | None = None
    """Left edge of the unit from the left end of that wall, where it is fixed beforehand."""
    bottom: Length | None = None
    """Lower edge of the unit above the floor, where it is fixed beforehand."""
    handle_height: Length | None = None
    """Greatest height of a switch or handle above the floor that the owner wants to reach."""
    keep_clear: Length | None = None
    """Clear width that shall stay in front of the wall."""
    units: Many[UnitWish] = ()
    """Where each of several units shall be; what is absent is chosen."""


class Handling(Table):
    """How the unit gets from the vehicle to the wall."""

    crew: Count | None = None
    """Number of people who lift."""
    carry: Length | None = None
    """Way from the vehicle to the wall."""
    steps: Count | None = None
    """Number of steps on that way."""
    reach: Length | None = None
    """Horizontal distance of the hands from the ankles while lifting: "16 in"."""
    lift_from: Length | None = None
    """Height of the hands where the lift begins."""
    lift_to: Length | None = None
    """Height of the hands where the lift ends; absent: from the place of the unit."""
    turn: Angle | None = None
    """How far the body turns while lifting."""
    lifts: Count | None = None
    """Number of lifts."""
    duration: Time | None = None
    """Time over which the lifts are spread."""
    coupling: Literal["good", "fair", "poor"] | None = None
    """How the load can be gripped."""
    floor: Literal["level and dry", "sloped", "gravel", "wet"] | None = None
    """What the way is like."""


class Tolerances(Table):
    """How well the survey was measured."""

    placing: Length | None = None
    """Placing tolerance of tape and level: "10 mm"."""
    route: Ratio | None = None
    """Tolerance of route lengths: "10 %"."""


class Acceptance(Table):
    """An answer of the authority that a rule of the code asks for."""

    id: Id
    """Name by which the job refers to it."""
    what: Literal["unit spacing", "ignition height", "method", "other"]
    """What was asked: a smaller spacing by fire test report, how the ignition height is read, a method, another."""
    accepted: bool | None = None
    """true where the authority accepted it (for the ignition height: a lower unit), false where it refused."""
    by: Text | None = None
    """Who answered."""
    on: date | None = None
    """When, without quotes: 2026-05-04."""
    document: Id | None = None
    """The document of the job that proves it."""
    note: Text | None = None
    """What was answered, in a sentence."""


class Paper(Table):
    """A document that is bound into the permit set unchanged."""

    id: Id
    """Name by which the set refers to it."""
    kind: Literal[
        "cut sheet", "instructions", "listing certificate", "fire test report", "evaluation report", "utility letter",
        "photo", "other",
    ]  # fmt: skip
    """What it is."""
    of: Literal["battery", "inverter"] | None = None
    """Equipment that it is about, where an inverter of its own is chosen beside the battery unit."""
    title: Text
    """Title, as the index of the set prints it."""
    file: Text | None = None
    """File in the folder documents/ of the job."""
    pages: Count | None = None
    """Number of pages."""


class Job(Table):
    """The whole job file."""

    schema_: Literal[1] = Field(alias="schema")
    """Version of this format: 1."""
    job: Head
    """The job itself."""
    owner: Person = Person.model_construct()
    """The owner."""
    site: Site = Site.model_construct()
    """The house and its plot."""
    contractor: Contractor = Contractor.model_construct()
    """The firm that does the work."""
    authority: Person = Person.model_construct()
    """The authority that issues the permit."""
    utility: Person = Person.model_construct()
    """The utility."""
    conditions: Conditions = Conditions.model_construct()
    """What the place asks."""
    land: Land = Land.model_construct()
    """The plot in plan."""
    rooms: Many[Room] = ()
    """Rooms and places outdoors."""
    walls: Many[Wall] = ()
    """Faces of walls on which the unit or other parts can hang."""
    supply: Supply = Supply.model_construct()
    """What the utility delivers, and the service."""
    panels: Many[Panel] = ()
    """Panelboards and their circuits."""
    loads: Loads = Loads.model_construct()
    """The load calculation."""
    equipment: Chosen = Chosen.model_construct()
    """What was chosen."""
    routes: Many[Route] = ()
    """Runs of conductors."""
    arrays: Many[Array] = ()
    """PV arrays on the inverter; arrays = [] where there are none."""
    generators: Many[Generator] = ()
    """Generators that can feed the house; generators = [] where there are none."""
    controls: Many[Control] = ()
    """Listed controls that keep a current below a setting."""
    grid: Grid = Grid.model_construct()
    """What is agreed with the grid operator."""
    backup: Backup = Backup.model_construct()
    """What the battery carries when the grid is away."""
    wishes: Wishes = Wishes.model_construct()
    """What is wished."""
    handling: Handling = Handling.model_construct()
    """How the unit is moved."""
    visit: Visit = Visit.model_construct()
    """The day of the visit."""
    tolerances: Tolerances = Tolerances.model_construct()
    """How well it was measured."""
    acceptances: Many[Acceptance] = ()
    """Answers of the authority."""
    adders: Many[Adder] = ()
    """Work on the existing house that is offered with the job."""
    defects: Many[Defect] = ()
    """What is wrong with the house as it stands."""
    documents: Many[Paper] = ()
    """Documents bound into the set."""
