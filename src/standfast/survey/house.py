"""The place in the job file: site, plot, rooms and walls.

Every length on a wall is measured on its face, seen from the room in which the work is done: to the right from the left
end, up from the floor or grade.
"""

from typing import Literal

from standfast.reading.quantities import (
    Acceleration,
    Along,
    Angle,
    Area,
    Count,
    Energy,
    Id,
    Length,
    Many,
    Point,
    Pressure,
    Size,
    Speed,
    Table,
    Temperature,
    Text,
    Voltage,
)

RoomKind = Literal[
    "attached garage", "detached garage", "detached shed", "utility closet", "utility room", "storage room", "basement",
    "closet", "bedroom", "habitable room", "living room", "kitchen", "hall", "bathroom", "laundry", "roof space",
    "outside",
]  # fmt: skip
Polygon = Many[Point]
State = Literal["existing", "new"]


class Site(Table):
    """The house and its plot."""

    address: Text | None = None
    """Postal address of the house."""
    parcel: Text | None = None
    """Parcel or lot number in the public record."""
    year_built: Count | None = None
    """Year in which the house was built: 1987."""
    floor_area: Area | None = None
    """Floor area of the dwelling by outside dimensions, without garage and open porches: "1850 ft2"."""
    dwelling: Literal["one-family", "two-family", "townhouse"] | None = None
    """Kind of dwelling."""
    building_height: Length | None = None
    """Average height of the roof above grade."""
    smoke_alarms: (
        Literal["in every place, interconnected", "in every place, not interconnected", "not in every place", "none"]
        | None
    ) = None
    """Smoke alarms of the dwelling, against the places where a new one has them: each bedroom, outside the bedrooms,
    each storey."""
    co_alarms: bool | None = None
    """true where a carbon monoxide alarm is outside each sleeping area."""
    fuel_burning: bool | None = None
    """true where gas, oil, wood or other fuel is burnt in the dwelling."""


class Conditions(Table):
    """What the place asks of the equipment, and what must be known before a wall is drilled."""

    temperature_high: Temperature | None = None
    """Highest design temperature of the place: "108 °F"."""
    temperature_low: Temperature | None = None
    """Lowest design temperature of the place: "28 °F"."""
    seismic_sds: Acceleration | None = None
    """Design spectral response SDS of the site, from the authority or a public hazard map: "1.05 g"."""
    seismic_design_category: Literal["A", "B", "C", "D", "E", "F"] | None = None
    """Seismic design category of the house; D0, D1 and D2 of the IRC are D here."""
    wind_speed: Speed | None = None
    """Basic wind speed of the site for houses, from the authority or a public hazard map: "110 mph"."""
    wind_exposure: Literal["B", "C", "D"] | None = None
    """Exposure to wind: B among houses or trees, C in open land, D at open water."""
    wind_hill: bool | None = None
    """true where the house stands on the upper half of a hill, ridge or scarp that speeds the wind up."""
    flood_hazard_area: bool | None = None
    """true where the house stands in a flood hazard area."""
    flood_elevation: Along | None = None
    """Design flood elevation above the floor level of the garage: "18 in"; needed only in a flood hazard area."""
    asbestos: Literal["found", "not found", "not needed"] | None = None
    """Survey for asbestos of what is drilled; "not needed" only where law and age of the house say so."""
    lead: Literal["found", "not found", "not needed"] | None = None
    """Survey for lead paint of what is drilled; "not needed" only where law and age of the house say so."""
    hidden_services: Literal["scanned", "not scanned"] | None = None
    """Whether the wall was scanned for cables and pipes."""


class Building(Table):
    """A building in plan."""

    id: Id
    """Name by which the job refers to it."""
    outline: Polygon
    """Corners in plan, in order: [["0 ft", "0 ft"], ["50 ft", "0 ft"], …]."""


class Mark(Table):
    """A thing in plan that the site plan must show."""

    id: Id
    """Name by which the job refers to it."""
    kind: Literal[
        "electric meter", "gas meter", "gas regulator vent", "service disconnect", "emergency disconnect",
        "emergency shutdown", "grounding electrode", "main panel", "public way", "tree",
    ]  # fmt: skip
    """What it is."""
    at: Point
    """Where it is in plan: ["12 ft", "3 ft 6 in"]."""
    height: Length | None = None
    """Height of its middle above grade or floor."""


class Land(Table):
    """The plot in plan. Any fixed point is ["0 ft", "0 ft"]; x to the right, y up the sheet."""

    north: Angle | None = None
    """Direction of north, clockwise from up the sheet: "12 deg"."""
    lot: Polygon = ()
    """Corners of the plot, in order."""
    driveway: Polygon = ()
    """Corners of the driveway, in order."""
    buildings: Many[Building] = ()
    """Buildings on the plot."""
    marks: Many[Mark] = ()
    """Meters, gas, disconnects, electrodes and panels in plan; marks = [] where there are none."""


class Room(Table):
    """A room, or a place outdoors, that the work touches or lies beside."""

    id: Id
    """Name by which walls and openings refer to it."""
    kind: RoomKind
    """What the room is used as; "outside" for a place outdoors."""
    ceiling: Length | None = None
    """Height of the ceiling above the floor, or of the eave above grade."""
    lining: Literal["bare studs", "finished", "type x gypsum 5/8 in", "noncombustible"] | None = None
    """What walls and ceiling of the room are covered with."""
    separated: bool | None = None
    """Garage: true where the gypsum board and doors that the code asks between it and the dwelling are there."""
    opens_into: Id | None = None
    """Room that this one opens into directly, or "outside"."""
    detection: (
        Literal["smoke alarm, interconnected", "heat detector, interconnected", "smoke alarm, alone", "none"] | None
    ) = None
    """Detection in this room, and whether it sounds in the dwelling."""
    other_storage: Energy | None = None
    """Rated energy of other storage that already stands in this room: "0 kWh" where there is none."""
    escape_route: Literal["none", "protected", "unprotected"] | None = None
    """Whether it is part of a way out of the dwelling in a fire, or opens onto one; "none" where it is not."""
    fire_separation: bool | None = None
    """true where construction that resists fire parts it from the rest of the dwelling."""
    floor: Literal["concrete slab", "wood", "earth", "paving"] | None = None
    """What the floor is."""
    ambient_high: Temperature | None = None
    """Highest temperature in this room, where it is not the design temperature of the place."""
    ambient_low: Temperature | None = None
    """Lowest temperature in this room, where it is not the design temperature of the place: of a heated room."""
    flammables: bool | None = None
    """true where fuel, gas cylinders or other flammables are kept in the room."""


class BuildUp(Table):
    """What a wall is made of, from the side where the work is done."""

    kind: Literal["timber frame", "steel studs", "concrete", "masonry", "brick veneer"] | None = None
    """What carries the load."""
    lining: Literal["gypsum board", "wood panel", "none"] | None = None
    """Board on the side of the work. Board counts as a gap: it carries nothing."""
    lining_thickness: Length | None = None
    """Thickness of all the board together: "1/2 in"."""
    stud_spacing: Size | None = None
    """Distance of studs, centre to centre: "16 in"."""
    first_stud: Length | None = None
    """Centre of the first stud from the left end of the wall, found on site."""
    stud_width: Size | None = None
    """Width of a stud across the wall's face: "1-1/2 in"."""
    stud_depth: Size | None = None
    """Depth of a stud into the wall: "3-1/2 in"."""
    species: (
        Literal[
            "douglas fir-larch",
            "douglas fir-south",
            "hem-fir",
            "southern pine",
            "spruce-pine-fir",
            "spruce-pine-fir (south)",
            "western woods",
            "redwood",
        ]
        | None
    ) = None
    """Species group of the studs, from the grade stamp."""
    moisture: Literal["dry", "wet"] | None = None
    """Moisture of the wood in service: dry up to 19 %."""
    concrete_strength: Pressure | None = None
    """Specified strength of the concrete: "3000 psi"."""
    concrete_kind: Literal["normalweight", "sand-lightweight", "all-lightweight"] | None = None
    """Weight class of the concrete."""
    concrete_thickness: Size | None = None
    """Thickness of the concrete or of the solid masonry."""
    cracked: bool | None = None
    """true where the concrete may crack in service, false only where an engineer's analysis shows that it does not."""
    masonry: Literal["grouted block", "hollow block", "solid brick", "hollow brick", "stone"] | None = None
    """What the masonry is."""


class Opening(Table):
    """A door, window or other hole in a wall."""

    id: Id
    """Name by which verdicts refer to it."""
    kind: Literal["door", "window", "garage door", "vent", "air brick", "access hatch"]
    """What it is."""
    left: Length
    """Left edge of the clear opening from the left end of the wall."""
    bottom: Length
    """Lower edge above the floor."""
    width: Size
    """Width of the clear opening."""
    height: Size
    """Height of the clear opening."""
    leads_into: Id | None = None
    """Room on the other side, or "outside"."""
    exit: bool | None = None
    """true where people leave by it."""
    hinge: Literal["left", "right", "none"] | None = None
    """Side on which the leaf hangs, seen from the side of the work."""
    swings: Literal["into this room", "away", "does not swing"] | None = None
    """Where the leaf goes when it is opened."""


class Obstacle(Table):
    """A thing on a wall, or in front of it, that takes room or asks for room."""

    id: Id
    """Name by which verdicts refer to it."""
    kind: Literal[
        "panelboard", "disconnect", "fuse", "meter", "inverter", "socket outlet", "light switch", "junction box",
        "water heater", "heat pump", "air conditioner", "appliance", "gas meter", "gas regulator vent", "gas pipe",
        "water pipe", "duct", "shelf", "fuel store", "other",
    ]  # fmt: skip
    """What it is."""
    left: Length
    """Left edge from the left end of the wall."""
    bottom: Length
    """Lower edge above the floor."""
    width: Length
    """Width; "0 in" for a point or line."""
    height: Length
    """Height; "0 in" for a point or line."""
    depth: Length | None = None
    """How far it stands out from the wall."""
    volts_to_ground: Voltage | None = None
    """Highest voltage to ground inside it: "120 V"."""
    panel: Id | None = None
    """For a panelboard: which one of [[panels]] it is."""
    state: State | None = None
    """Whether it is there or is added by this job."""
    ignition_source: bool | None = None
    """true where it has a flame, an igniter or a switching arc within 18 in of the floor."""


class VehiclePath(Table):
    """The strip of a garage wall that a vehicle can reach."""

    left: Length
    """Left edge of the strip straight behind the vehicle door, from the left end of the wall."""
    right: Length
    """Right edge of that strip."""
    clear_height: Size | None = None
    """Clear height of the vehicle door."""
    wall: Literal["end wall", "side wall"] | None = None
    """Whether the wall faces the vehicle door or runs beside the vehicle."""
    protection: Literal["none", "bollard", "wheel stop", "barrier"] | None = None
    """What is put up between vehicle and unit."""
    protection_distance: Length | None = None
    """Clear distance from that protection to the front of the unit."""


class Footing(Table):
    """What a standing unit stands on at a wall."""

    kind: Literal["concrete slab", "concrete pad", "pavers", "wood floor", "earth"] | None = None
    """What the unit stands on."""
    left: Length | None = None
    """Pad: its left edge from the left end of the wall; absent where the floor runs along the whole wall."""
    width: Size | None = None
    """Pad: its width along the wall."""
    depth: Size | None = None
    """How far it reaches out from the wall."""
    thickness: Size | None = None
    """Thickness of the concrete."""
    behind: Length | None = None
    """How far the concrete goes on behind the face of the wall: "0 in" where it ends there."""
    scan: Literal["clear", "tendons or pipes", "not scanned"] | None = None
    """What was found in the concrete where it is drilled; "clear" also where it is known how it was cast."""
    doweled: bool | None = None
    """Pad: true where bars tie it to the slab or foundation of the house."""
    state: State | None = None
    """Pad: whether it is there or is cast for this job."""
    height: Length | None = None
    """Its top above the floor or grade that heights on the wall are measured from: "0 in" for a floor."""
    concrete_strength: Pressure | None = None
    """Specified strength of the concrete: "2500 psi"."""
    concrete_kind: Literal["normalweight", "sand-lightweight", "all-lightweight"] | None = None
    """Weight class of the concrete."""
    cracked: bool | None = None
    """true where it may crack, false only where an engineer's analysis shows that it does not."""


class Wall(Table):
    """One face of a wall, seen from the room in which the work is done."""

    id: Id
    """Name by which the job refers to it."""
    room: Id
    """Room, or place outdoors, from which this face is seen."""
    behind: Id | None = None
    """Room on the other side, or "outside"."""
    length: Size
    """Length of the face, inside corner to inside corner."""
    height: Size | None = None
    """Height of the face above the floor or grade."""
    start: Point | None = None
    """Its left end in plan, seen facing the wall."""
    end: Point | None = None
    """Its right end in plan, seen facing the wall."""
    floor_above_grade: Along | None = None
    """Level of the floor at this wall above grade outside: "0 in" at grade."""
    facing: Length | None = None
    """Distance to the wall, fence or parked thing that faces it."""
    facing_is: Literal["bare", "insulated wall", "grounded wall", "live parts"] | None = None
    """What faces it: concrete, brick and tile count as grounded."""
    build_up: BuildUp = BuildUp.model_construct()
    """What the wall is made of."""
    openings: Many[Opening] = ()
    """Doors, windows and other holes in it; openings = [] where somebody looked and there are none."""
    obstacles: Many[Obstacle] = ()
    """Things on it; obstacles = [] where somebody looked and there are none."""
    vehicle_path: VehiclePath | None = None
    """The strip that a vehicle can reach; absent where none can."""
    footing: Footing | None = None
    """What a standing unit stands on."""
    vehicles: bool | None = None
    """false where no vehicle can reach this wall."""
