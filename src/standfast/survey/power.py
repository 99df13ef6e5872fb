"""The electrical side of the job file: supply, panels, circuits, loads, routes and backup."""

from typing import Literal

from pydantic import Field

from standfast.reading.quantities import (
    ApparentPower,
    Area,
    Count,
    Current,
    Id,
    Length,
    Many,
    Power,
    Ratio,
    Resistance,
    Table,
    Temperature,
    Text,
    Time,
    Voltage,
)
from standfast.survey.cables import Cable, Measured, Residual, Section, Splice
from standfast.survey.house import State
from standfast.survey.supply import Conductors, Electrode
from standfast.terms import Raceway, TradeSize

Served = Literal[
    "kitchen", "dining room", "living room", "family room", "library", "den", "bedroom", "sunroom", "recreation room",
    "closet", "hallway", "laundry", "bathroom", "garage", "basement", "attic", "utility room", "outdoors",
]  # fmt: skip
"""Rooms in which outlets of a circuit are."""


class Motor(Table):
    """A motor on a circuit, for starting from the battery."""

    rating: Power | None = None
    """Rated power: "3 hp"."""
    full_load: Current | None = None
    """Rated-load current."""
    locked_rotor: Current | None = None
    """Locked-rotor current from the nameplate: "68 A"."""
    code_letter: (
        Literal["A", "B", "C", "D", "E", "F", "G", "H", "J", "K", "L", "M", "N", "P", "R", "S", "T", "U", "V"] | None
    ) = None
    """Code letter of the nameplate, where the locked-rotor current is not stated."""
    soft_start: bool | None = None
    """true where a soft starter limits the start."""
    by_itself: bool | None = None
    """true where it starts without a person, by thermostat, float or pressure switch; false where somebody does it."""


class Circuit(Table):
    """One circuit of a panel."""

    id: Id
    """Name by which the job refers to it."""
    name: Text | None = None
    """What the panel schedule says."""
    spaces: Many[Count] = ()
    """Spaces that its breaker takes, as numbered in the panel: [2, 4]."""
    moved_from: Id | None = None
    """Panel that it is moved from by this job, by its id; absent where it stays."""
    moved_spaces: Many[Count] = ()
    """Spaces that its breaker took in the panel that it is moved from: [22]."""
    breaker: Current | None = None
    """Rating of its breaker."""
    poles: Literal[1, 2, 3] | None = None
    """Poles of its breaker."""
    load: ApparentPower | None = None
    """Connected load."""
    continuous: ApparentPower | None = None
    """The part of the load that runs three hours or more."""
    use: Literal["general", "small appliance", "laundry"] | None = None
    """What it is in the calculation of a feeder, where it is of no single appliance: general lights and receptacles,
    those of bathrooms and garage among them, a small-appliance or a laundry circuit."""
    phases: Literal["line to line", "line to neutral", "both"] | None = None
    """How its loads are connected."""
    backed_up: bool | None = None
    """true where the battery shall carry it when the grid is away."""
    motor: Motor | None = None
    """Its largest motor."""
    has_motor: bool | None = None
    """false where somebody looked and no motor is on it."""
    feeds: Id | None = None
    """What its breaker feeds where that is no load: another panel by its id, or "battery"."""
    serves: Many[Served] = ()
    """Rooms in which its outlets are; asked of circuits that are moved."""
    extended: Length | None = None
    """Length that is added to its conductors, outside enclosures and boxes: "0 ft" where they reach as they are."""
    splice: Splice | None = None
    """Where its conductors are joined to those that make it longer."""
    device: Literal["breaker", "breaker with residual current device", "fuse"] | None = None
    """What protects it, in metric countries."""
    curve: Literal["B", "C", "D"] | None = None
    """Tripping curve of its breaker, in metric countries."""
    residual: Residual | None = None
    """Residual current device of this circuit, or of the group that it is in."""
    ground_fault: bool | None = None
    """true where its breaker, or its first outlet, protects people against ground faults."""
    measured: Measured | None = None
    """What was measured or is stated of it, where it is there already."""
    arc_fault: bool | None = None
    """true where its breaker, or its first outlet, protects it against arc faults."""
    source_output: Current | None = None
    """Rated continuous output of a power source on this circuit, for instance existing PV."""
    sensitive: Many[Literal["medical equipment", "refrigerator", "alarm", "heating", "internet"]] = ()
    """What on it somebody depends on when the power is off: the owner is told, and it is kept off for a short time."""
    state: State | None = None
    """Whether it is there or is added."""


class Panel(Table):
    """A panelboard or load centre."""

    id: Id
    """Name by which the job refers to it."""
    name: Text | None = None
    """What people call it."""
    wall: Id | None = None
    """Wall it hangs on."""
    state: State | None = None
    """Whether it is there or is added."""
    busbar: Current | None = None
    """Rating of its busbar."""
    main: Current | None = None
    """Rating of the device that protects its busbar."""
    fed_from: Id | None = None
    """Panel that feeds it, or "utility"."""
    fed_by: Literal["breaker", "feed-through lugs", "tap"] | None = None
    """What feeds it in the panel above: a breaker, the lugs at the far end of that busbar, or a tap on its feeder."""
    main_lugs: bool | None = None
    """true where it has no main device of its own."""
    fed_through: Literal["island switch"] | None = None
    """Device in its feed: the island switch parts it from the grid while the battery carries it."""
    feed: Literal["end", "centre"] | None = None
    """Where its busbar is fed."""
    source_position: Literal["opposite end", "same end", "elsewhere"] | None = None
    """Where the breaker of the battery shall sit, seen from the feed of the busbar."""
    spaces: Count | None = None
    """Number of spaces in it."""
    free_spaces: Count | None = None
    """Number of free spaces: as found, before the work; in a new panel as it will be."""
    short_circuit_rating: Current | None = None
    """Short-circuit current rating of the panelboard."""
    breaker_interrupting: Current | None = None
    """Least interrupting rating of the breakers in it."""
    series_label: Many[Text] = ()
    """Devices ahead of it with which its label states a series rating of its breakers, where they are there, as that
    label names them; absent where it states none."""
    series_rating: Current | None = None
    """That series rating of the breakers in it."""
    terminals: Literal["60 °C", "75 °C", "60/75 °C", "90 °C"] | None = None
    """Temperature mark of its terminals."""
    bending_space: Length | None = None
    """Least distance from the terminals of its breakers to the wall they face; asked for new wires from 8 AWG."""
    neutral_bonded: bool | None = None
    """true where neutral and ground are joined in it; in a new panel, where they shall be."""
    building: Id | None = None
    """Building of [land] that it is in, where that is not the building of the service."""
    building_disconnect: Literal["in the panel", "outside on the building", "none"] | None = None
    """Where the disconnect of the feeder is at that other building; in the panel, where the feeder enters near it."""
    electrodes: Many[Electrode] = ()
    """Grounding electrodes of that other building."""
    electrode_conductor: Conductors | None = None
    """Conductor from the panel to those electrodes."""
    directory: bool | None = None
    """true where its circuit directory names what every breaker feeds, so that each can be told from all others."""
    openings_closed: bool | None = None
    """true where no open breaker space and no open knock-out lets a finger in."""
    surge_protection: bool | None = None
    """true where a surge-protective device is in it or right beside it."""
    accepts: Many[Text] = ()
    """Breaker families that the label of the panel allows, by the word that the sheet of a breaker gives as its family,
    not by the id of the sheet: ["W"]."""
    circuits: Many[Circuit] = ()
    """Its circuits, every one; circuits = [] where there are none."""


class Appliance(Table):
    """An appliance of the load calculation."""

    id: Id
    """Name by which the job refers to it."""
    name: Text | None = None
    """What people call it."""
    kind: Literal["cooking", "dryer", "water heater", "fastened in place", "motor", "vehicle charger", "pool", "other"]
    """How the calculation counts it."""
    rating: ApparentPower | None = None
    """Nameplate. Write a nameplate of 12 kW as "12 kVA": the dwelling calculation counts them alike."""
    phases: Literal["line to line", "line to neutral", "both"] | None = None
    """How it is connected, for the load of the neutral; one that says nothing is counted on the neutral in full."""
    state: State | None = None
    """Whether it is there or is added."""


class Climate(Table):
    """Heating or cooling of the dwelling."""

    kind: (
        Literal[
            "none",
            "central electric",
            "separate units",
            "heat pump",
            "heat pump with supplement",
            "air conditioner",
            "gas",
        ]
        | None
    ) = None
    """What heats or cools."""
    rating: ApparentPower | None = None
    """Nameplate of all of it, of a heat pump without its supplement; of gas the electric nameplate of its blower, with
    "0 kVA" where it has none."""
    supplement: ApparentPower | None = None
    """Supplementary heat of a heat pump."""
    supplement_together: bool | None = None
    """true where heat pump and supplement can run together."""
    units: Count | None = None
    """Number of units with their own control."""
    phases: Literal["line to line", "line to neutral", "both"] | None = None
    """How it is connected, for the load of the neutral; what says nothing is counted on the neutral in full."""
    state: State | None = None
    """Whether it is there or is added."""


class Loads(Table):
    """The load calculation of the dwelling."""

    method: Literal["existing", "new", "measured", "standard"] | None = None
    """Which calculation: optional for an existing or a new dwelling, by recorded demand, or the standard one."""
    small_appliance_circuits: Count | None = None
    """Number of small-appliance branch circuits: 2 or more."""
    laundry_circuits: Count | None = None
    """Number of laundry branch circuits."""
    lighting_points: Count | None = None
    """Number of lighting points, in countries that count the load of lights by them."""
    socket_outlets: Count | None = None
    """Number of socket-outlets, in countries that count them; a double one is two."""
    appliances: Many[Appliance] = ()
    """Appliances with their nameplates; appliances = [] where there are none."""
    heating: Climate | None = None
    """Heating of the dwelling."""
    cooling: Climate | None = None
    """Cooling of the dwelling."""
    hvac_in_pool: bool | None = None
    """Method "existing", heating and cooling that stay: true where the authority counts them in the pool that is
    taken at 40 % above its first part (220.83(A)); false counts the larger of them in full beside it."""
    measured_max: ApparentPower | None = None
    """Highest recorded demand over the period that the code asks."""
    measured_over: Time | None = None
    """Length of that record: "365 d"."""
    measured_by: Literal["15-minute averages", "hourly averages", "peak register"] | None = None
    """How the demand was recorded."""
    charging_limit: Current | None = None
    """Service current at which a listed control stops charging; absent where there is no such control."""
    charging_control: Text | None = None
    """Listing of that control: standard and file."""


class Route(Table):
    """A run of conductors between two things."""

    id: Id
    """Name by which the job refers to it."""
    from_: Id = Field(alias="from")
    """Where it starts: a panel, "battery" or "battery-1" and so on, "disconnect" or "disconnect-1", "inverter",
    "dc-disconnect" or "dc-disconnect-1", "fuse" or "fuse-1" (the DC fuse or breaker of a battery), an array,
    "island-switch", "utility" or "service-tap" (the service conductors ahead of the service disconnect)."""
    to: Id
    """Where it ends."""
    length: Length | None = None
    """Length one way, along the run; absent where it follows from `along`."""
    along: Literal["wall"] | None = None
    """"wall": it runs on the surface of the walls of one room, across and up between the middles of its two ends, so
    that its length follows the place of the unit. A length that is written goes before it."""
    extra: Length | None = None
    """With along: what is added for bends and terminations at both ends together: "2 ft"."""
    ambient: Temperature | None = None
    """Highest temperature round it."""
    wet: bool | None = None
    """true where any of it is outdoors or damp."""
    raceway: Raceway | None = None
    """Raceway: emt, fmc, imc, rmc, pvc-40 or pvc-80."""
    raceways: Many[Raceway] = ()
    """Where raceway is left open: the kinds that may be used here; the cheapest choice is taken."""
    trade_size: TradeSize | None = None
    """Trade size; worked out where it is absent."""
    conductors: Conductors | None = None
    """Conductors; the size is worked out where it is absent."""
    sections: Many[Section] = ()
    """The run piece by piece, where conditions change along it; together they are as long as the run."""
    cable: Cable | None = None
    """Kind of cable, in metric countries."""
    area: Area | None = None
    """Area of its live conductors in metric countries: "10 mm2"; worked out where it is absent."""
    protective_area: Area | None = None
    """Area of its protective conductor in metric countries; worked out where it is absent."""
    method: Literal["A", "B", "C", "D", "E", "F", "100", "101", "102", "103"] | None = None
    """Reference method of installation in metric countries, where it is one all along."""
    circuits_together: Count | None = None
    """Circuits that touch or share an enclosure, this one counted, in metric countries: 1 where it runs alone."""
    circuits_light: Count | None = None
    """Of these, circuits that never carry more than a small part of what they may in the group (30 % by most rules)."""
    in_insulation: Length | None = None
    """Length that thermal insulation surrounds on all sides; "0 mm" where none does."""
    mechanical_protection: bool | None = None
    """true where what it runs in, or where it runs, keeps it from being damaged."""
    other_current_carrying: Count | None = None
    """Current-carrying conductors of other circuits in the same raceway: 0 where there are none."""
    state: State | None = None
    """Whether it is there or is added."""


class Array(Table):
    """A PV array of equal strings on one input of the inverter."""

    id: Id
    """Name by which the job refers to it."""
    name: Text | None = None
    """What people call it."""
    input: Id | None = None
    """Input of the inverter's data sheet that it is on."""
    modules: Count | None = None
    """Modules in series in one string."""
    strings: Count | None = None
    """Strings in parallel."""
    open_circuit_voltage: Voltage | None = None
    """Open-circuit voltage of one module at 25 °C."""
    short_circuit_current: Current | None = None
    """Short-circuit current of one module at 25 °C."""
    voltage_rise: Ratio | None = None
    """How much that voltage rises for each °C below 25 °C, as the maker of the module states it: "0.27 %"."""
    rapid_shutdown: bool | None = None
    """true where the conductors on the roof are shut down from the ground."""
    state: State | None = None
    """Whether it is there or is added."""


class Backup(Table):
    """What the battery carries when the grid is away."""

    mode: Literal["none", "circuits", "whole house"] | None = None
    """No backup, the circuits that say backed_up = true, or the whole house."""
    transfer: Literal["automatic", "manual"] | None = None
    """How the change-over is made."""
    sheds: Many[Id] = ()
    """Circuits that a listed control drops before the source is overloaded, by their ids."""
    shedding: Text | None = None
    """Listing of that control: standard and file."""
    own_electrode: bool | None = None
    """true where the consumer has an earth electrode of his own that serves while the grid is away."""
    electrode_resistance: Resistance | None = None
    """Resistance of that electrode, measured."""
    bonding_jumper: Conductors | None = None
    """Wire that joins neutral and ground on the side of the battery, where its switch opens the neutral of the grid."""
    electrode_conductor: Conductors | None = None
    """Conductor from there to the grounding electrodes of the building."""
