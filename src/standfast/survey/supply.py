"""What the utility delivers: system, service, its conductors, grounding electrodes and bonding jumpers."""

from typing import Literal

from standfast.reading.quantities import (
    ApparentPower,
    Count,
    Current,
    Length,
    Many,
    Pure,
    Ratio,
    Resistance,
    Table,
    Text,
    Voltage,
)
from standfast.terms import Raceway, Wire

Material = Literal["cu", "al"]
Insulation = Literal["thhn", "xhhw", "xhhw-2", "thw"]


Electrode = Literal[
    "metal water pipe", "concrete-encased electrode", "ground ring", "ground rods", "plate", "building steel"
]  # fmt: skip


class Conductors(Table):
    """Conductors that are there or are chosen; what is absent in a new route is worked out."""

    size: Wire | None = None
    """Size of the ungrounded conductors: AWG up to "4/0", then kcmil."""
    material: Material | None = None
    """cu or al."""
    materials: Many[Material] = ()
    """In a new route, where material is left open: the metals that may be used; the cheapest choice is taken."""
    insulation: Insulation | None = None
    """thhn (with thwn-2), xhhw, xhhw-2 (the mark -2 counts in wet places and on roofs) or thw."""
    sets: Count | None = None
    """Number of parallel sets."""
    length: Length | None = None
    """Length one way."""
    raceway: Raceway | None = None
    """Raceway they run in; steel or not matters for fault current."""
    ground: Wire | None = None
    """Size of the equipment grounding conductor that runs with them, of their material."""
    neutral: Wire | Literal["none"] | None = None
    """Size of the neutral that runs with conductors that are there, of their material; "none" where none runs."""


class Transformer(Table):
    """The utility's transformer, where the utility states it instead of a fault current."""

    rating: ApparentPower | None = None
    """Rated power: "25 kVA"."""
    impedance: Ratio | None = None
    """Impedance: "1.5 %"."""
    tolerance: Ratio | None = None
    """Tolerance of the impedance: "10 %"."""
    x_over_r: Pure | None = None
    """Ratio of its reactance to its resistance, as a number: 1.5."""
    primary_fault: ApparentPower | None = None
    """Fault level of the grid before it: "100000 kVA"; absent: taken as infinitely strong."""


class Supply(Table):
    """What the utility delivers, and the service."""

    system: Literal[
        "120/240 V single-phase", "120/208 V single-phase", "120/208 V three-phase", "230 V single-phase",
        "230/400 V three-phase",
    ] | None = None  # fmt: skip
    """System at the house."""
    voltage: Voltage | None = None
    """Voltage between the ungrounded conductors: "240 V"."""
    voltage_to_ground: Voltage | None = None
    """Highest voltage to ground: "120 V"."""
    service: Current | None = None
    """Rating of the service: "200 A"."""
    main: Current | None = None
    """Rating of the service disconnecting means."""
    main_interrupting: Current | None = None
    """Interrupting rating of the service overcurrent device: "22 kA"."""
    busbar: Current | None = None
    """Rating of the busbar of the service equipment."""
    fault_current: Current | None = None
    """Available fault current at the service, as stated by the utility: "9.4 kA"."""
    fault_x_over_r: Pure | None = None
    """Ratio of reactance to resistance of the grid up to the service, where the utility states it: 1.2."""
    least_fault_current: Current | None = None
    """Least fault current at the service, as stated by the utility; what must still trip a device."""
    fault_current_source: Text | None = None
    """Who stated the fault current, and when."""
    transformer: Transformer | None = None
    """The utility's transformer, instead of a stated fault current."""
    conductors: Conductors | None = None
    """Service conductors from the transformer to the service equipment."""
    electrodes: Many[Electrode] = ()
    """Grounding electrodes that are there."""
    electrode_conductor: Conductors | None = None
    """Grounding electrode conductor."""
    main_bonding: Literal["screw or strap of the maker", "wire"] | None = None
    """What joins neutral and ground in the service equipment."""
    main_bonding_jumper: Conductors | None = None
    """Main bonding jumper, where it is a wire."""
    supply_side_jumper: Conductors | None = None
    """Bonding jumper run with the service conductors, where the service equipment or its raceway needs one."""
    water_pipe_bonded: bool | None = None
    """true where metal water pipe is bonded."""
    gas_pipe_bonded: bool | None = None
    """true where metal gas pipe is bonded."""
    water_bond: Conductors | None = None
    """Bonding jumper of the metal water pipe."""
    gas_bond: Conductors | None = None
    """Bonding jumper of the metal gas pipe."""
    gas_circuit: Current | None = None
    """Rating of the largest breaker whose circuit goes to an appliance on the gas pipe."""
    metal_water_pipe: bool | None = None
    """false where no metal water pipe is in the building."""
    metal_gas_pipe: bool | None = None
    """false where no metal gas pipe is in the building."""
    electrodes_joined: bool | None = None
    """true where all grounding electrodes that are there are joined to one another and to the service."""
    intersystem_bonding: bool | None = None
    """true where there is a terminal for intersystem bonding."""
    earthing: Literal["TN-C-S", "TN-S", "TT", "multiple earthed neutral"] | None = None
    """How the supply is earthed, in metric countries."""
    loop_impedance: Resistance | None = None
    """Earth fault loop impedance of the supply, measured or declared by the operator: "0.35 ohm"."""
    electrode_resistance: Resistance | None = None
    """Resistance of the consumer's own earth electrode."""
    emergency_disconnect: Literal["at the meter", "in the service equipment outdoors", "none"] | None = None
    """Where the emergency disconnect of the dwelling is, outdoors and readily accessible."""
    emergency_disconnect_mark: Literal["service disconnect", "meter disconnect", "not service equipment"] | None = None
    """What the emergency disconnect at the meter is marked as: a service disconnect joins neutral and ground."""
