"""How a unit is held on a wall, and what holds it: screws, anchors and plugs."""

from typing import Literal

from standfast.reading.quantities import (
    Area,
    Count,
    Force,
    Length,
    Many,
    Mass,
    Point,
    Pressure,
    Pure,
    Size,
    Table,
    Text,
    Time,
    Torque,
)


class Fixing(Table):
    """How a unit is held on the wall."""

    holes: Many[Point] = ()
    """Centres of the holes from the lower left corner of the unit: [["4 in", "30 in"], …]."""
    base_holes: Many[Point] = ()
    """Unit that stands: centres of the holes in its foot, to the right of its left edge and out from its back."""
    base_hole: Size | None = None
    """Diameter of the holes in the foot."""
    base_plate: Size | None = None
    """Thickness of the foot at the holes."""
    base_fasteners: Many[Text] = ()
    """Anchors that the maker names for the foot, in its words."""
    feet: Many[Point] = ()
    """Unit that stands: outermost points on which it rests, to the right of its left edge and out from its back."""
    foot_area: Area | None = None
    """Area on which the foot presses: "40 in2"."""
    stands_on: Many[Literal["concrete slab", "concrete pad", "pavers", "wood floor", "earth"]] = ()
    """What the maker lets it stand on."""
    held_by: Literal["brace", "foot", "brace and foot"] | None = None
    """What holds a standing unit; "brace and foot": the brace against tipping off its wall, the foot the rest."""
    hole: Size | None = None
    """Diameter of the holes in the bracket or of the short side of its slots."""
    slot: Length | None = None
    """Length of the slots sideways; absent or "0 in" where holes are round."""
    plate: Size | None = None
    """Thickness of the bracket at the holes."""
    plate_bearing: Pressure | None = None
    """Bearing strength of the bracket, as the wood standard counts it for a steel side member."""
    bears_at: Length | None = None
    """Height above the lower edge at which the unit rests against the wall and about which it would tip."""
    holds: Many[Literal["timber frame", "steel studs", "concrete", "masonry", "brick veneer"]] = ()
    """Walls that the maker allows."""
    fasteners: Many[Text] = ()
    """Fasteners that the maker names, in its words."""
    lower_carry: bool | None = None
    """true where the maker says that the lower fasteners carry weight too, false where only the upper ones do."""
    least_fasteners: Count | None = None
    """Least number of fasteners."""
    least_studs: Count | None = None
    """Least number of studs that the fasteners must reach."""
    bracket_mass: Mass | None = None
    """Mass of the bracket."""
    level_within: Length | None = None
    """How far the bracket may be out of level over its width."""


class Fastener(Table):
    """A lag screw or wood screw."""

    diameter: Size | None = None
    """Nominal diameter (of the shank for a lag screw)."""
    root_diameter: Size | None = None
    """Diameter at the root of the thread."""
    length: Size | None = None
    """Length under the head."""
    thread: Size | None = None
    """Length of the thread, with the tip."""
    tip: Length | None = None
    """Length of the tapered tip."""
    bending_yield: Pressure | None = None
    """Bending yield strength."""
    tensile_strength: Pressure | None = None
    """Least tensile strength of the steel."""
    head: Size | None = None
    """Width across flats, or diameter, of the head."""
    washer: Size | None = None
    """Outside diameter of the washer that belongs to it."""
    pilot_soft: Size | None = None
    """Lead hole for the thread in wood of specific gravity up to 0.50."""
    pilot_hard: Size | None = None
    """Lead hole for the thread in denser wood."""
    shank_hole: Size | None = None
    """Hole for the unthreaded shank."""
    drive: Text | None = None
    """Tool that drives it: "1/2 in hex socket"."""


class Anchor(Table):
    """A post-installed anchor, with the numbers that its evaluation report gives."""

    kind: Literal["screw anchor", "expansion anchor", "undercut anchor", "adhesive anchor"] | None = None
    """How it holds."""
    cure: Time | None = None
    """Adhesive anchor: time from setting it to loading it, at the temperature of the job: "2 h"."""
    report: Text | None = None
    """Evaluation report: number, date and pages."""
    base: Many[Literal["concrete", "grouted block", "hollow block", "solid brick"]] = ()
    """What it is evaluated for."""
    cracked: bool | None = None
    """true where it is evaluated for cracked concrete."""
    seismic: bool | None = None
    """true where it is evaluated for earthquake."""
    category: Literal[1, 2, 3] | None = None
    """Anchor category of the report."""
    ductile: bool | None = None
    """true where the report calls its steel ductile."""
    diameter: Size | None = None
    """Outside diameter da."""
    length: Size | None = None
    """Length under the head."""
    nominal_embedment: Size | None = None
    """Depth of the anchor in the base, hnom."""
    effective_embedment: Size | None = None
    """Effective depth hef."""
    steel_area: Area | None = None
    """Effective steel area Ase."""
    tensile_strength: Pressure | None = None
    """Specified tensile strength futa."""
    yield_strength: Pressure | None = None
    """Specified yield strength fya."""
    steel_tension: Force | None = None
    """Steel strength in tension Nsa, where the report states it."""
    steel_shear: Force | None = None
    """Steel strength in shear Vsa."""
    steel_shear_seismic: Force | None = None
    """Steel strength in shear for earthquake Vsa,eq."""
    k_cracked: Pure | None = None
    """Factor kc for cracked concrete (pounds and inches)."""
    k_uncracked: Pure | None = None
    """Factor kc for uncracked concrete (pounds and inches)."""
    pullout_cracked: Force | None = None
    """Pullout strength in cracked concrete at 2,500 psi; absent where the report says that pullout does not decide."""
    pullout_uncracked: Force | None = None
    """Pullout strength in uncracked concrete at 2,500 psi."""
    pullout_seismic: Force | None = None
    """Pullout strength for earthquake at 2,500 psi."""
    pullout_decides: bool | None = None
    """false where the report says that pullout does not decide."""
    critical_edge: Size | None = None
    """Critical edge distance cac."""
    least_edge: Size | None = None
    """Least edge distance cmin."""
    least_spacing: Size | None = None
    """Least spacing smin."""
    least_thickness: Size | None = None
    """Least thickness of the base hmin."""
    hole: Size | None = None
    """Diameter of the drilled hole."""
    hole_depth: Size | None = None
    """Depth of the drilled hole."""
    fixture_hole: Size | None = None
    """Greatest hole in the part that is held."""
    torque: Torque | None = None
    """Setting torque, or greatest torque for a screw anchor."""
    drive: Text | None = None
    """Tool that sets it."""


class Plug(Table):
    """A plug that holds a brace against tilting and nothing else."""

    diameter: Size | None = None
    """Diameter of the drilled hole."""
    depth: Size | None = None
    """Depth of the drilled hole."""
    screw: Size | None = None
    """Diameter of its screw."""
    use: Literal["tilt only", "hanging"] | None = None
    """What it may carry."""
    holds: Many[Literal["concrete", "solid brick", "grouted block", "hollow block", "aerated concrete"]] = ()
    """What it is made for."""
