"""The electrical side of a data sheet: energy, ratings at the AC and DC sides, inputs for PV, terminals."""

from typing import Literal

from standfast.reading.quantities import (
    Count,
    Current,
    Energy,
    Id,
    Length,
    Many,
    Power,
    Ratio,
    Resistance,
    Table,
    Text,
    Time,
    Torque,
    Voltage,
)
from standfast.terms import Wire


class EnergyData(Table):
    """Energy of a battery unit."""

    rated: Energy | None = None
    """Rated energy: the number that the code's limits count."""
    usable: Energy | None = None
    """Energy that can be used."""
    chemistry: (
        Literal["lithium iron phosphate", "lithium nickel manganese cobalt", "sodium ion", "lead acid", "other"] | None
    ) = None
    """Chemistry of the cells."""


class Electrical(Table):
    """Ratings of a battery unit or inverter at its terminals."""

    ac_voltage: Voltage | None = None
    """AC voltage between the ungrounded conductors."""
    output_current: Current | None = None
    """Greatest continuous AC output current."""
    charge_current: Current | None = None
    """Greatest continuous AC input current while it charges."""
    output_power: Power | None = None
    """Continuous output power."""
    charge_power: Power | None = None
    """Charging power from the AC side."""
    peak_power: Power | None = None
    """Greatest output power for a short time without the grid."""
    peak_time: Time | None = None
    """How long it holds that power."""
    motor_start_current: Current | None = None
    """Greatest locked-rotor current of a motor that it starts without the grid."""
    max_overcurrent_device: Current | None = None
    """Largest overcurrent device that the maker allows at its AC terminals."""
    parallel_max: Count | None = None
    """Greatest number of such units that may feed one house together without the grid."""
    other_sources_max: Current | None = None
    """Greatest output of other sources, such as PV, that it allows on its side of an island switch."""
    fault_contribution: Current | None = None
    """Greatest current that it adds to a fault on the AC side."""
    island_fault_current: Current | None = None
    """Greatest current that it drives into a fault while it carries a house without the grid."""
    island_fault_time: Time | None = None
    """How long it drives that current before it stops by itself."""
    residual_device: Literal["A", "F", "B", "none"] | None = None
    """Type of residual current device that the maker asks for in its circuit."""
    phases: Literal[1, 2, 3] | None = None
    """Line conductors that it feeds: 2 for both lines of a split-phase house."""
    short_circuit_rating: Current | None = None
    """Fault current on the AC side that it withstands."""
    volts_to_ground: Voltage | None = None
    """Highest voltage to ground inside it, AC or DC."""
    dc_voltage_max: Voltage | None = None
    """Highest DC voltage inside it."""
    neutral: Literal["required", "not used", "optional"] | None = None
    """Whether a neutral is connected."""
    forms_grid: bool | None = None
    """true where it can supply a house while the grid is away."""
    anti_islanding: bool | None = None
    """true where it stops by itself when the grid goes and no backup is wired."""
    neutral_bond: Literal["none", "while the grid is away", "always"] | None = None
    """When it joins neutral and ground inside."""
    bond_interlocked: bool | None = None
    """true where that joint closes only after line and neutral of the grid are open, and opens before they close."""
    live_parts_accessible: bool | None = None
    """true where live DC parts can be reached during routine maintenance; asked above 100 V DC in dwellings."""
    disconnect_inside: bool | None = None
    """true where a disconnecting means that can be locked open is part of the unit."""
    pv_switch_inside: bool | None = None
    """true where a switch that parts the PV arrays from it is part of an inverter and can be locked open."""
    emergency_shutdown: Literal["built in", "terminals for a remote switch", "none"] | None = None
    """How it is shut down in an emergency."""
    charge_limit_listed: bool | None = None
    """true where the control that limits charging by the service current is part of the listing."""
    export_limit_listed: bool | None = None
    """true where the control that limits what flows into the grid is part of the listing."""
    busbar_control: Text | None = None
    """Listing of its control that keeps a busbar of the house below a setting: standard and file."""
    power_factor: Ratio | None = None
    """Least power factor at rated power."""


class DcPort(Table):
    """The DC side: of a battery unit its output, of an inverter the port that the battery is joined to."""

    voltage_min: Voltage | None = None
    """Lowest voltage in use; an inverter takes nothing below it."""
    voltage_nominal: Voltage | None = None
    """Nominal voltage."""
    voltage_max: Voltage | None = None
    """Highest voltage, of a battery while it is charged; an inverter withstands no more."""
    discharge_current: Current | None = None
    """Greatest continuous current out of the battery: that it gives, or that the inverter draws."""
    charge_current: Current | None = None
    """Greatest continuous current into the battery: that it takes, or that the inverter gives."""
    short_circuit_current: Current | None = None
    """Greatest current that a battery drives into a fault at its terminals."""
    short_circuit_rating: Current | None = None
    """Fault current that an inverter withstands at this port."""
    internal_resistance: Resistance | None = None
    """Least internal resistance of a battery: new, warm, fully charged."""
    precharge: Literal["built in", "by hand", "none"] | None = None
    """How the capacitors beyond are charged before the contacts close."""
    capacitance_charged: bool | None = None
    """true where capacitors stay charged after it is switched off, so that somebody has to wait."""
    discharge_time: Time | None = None
    """How long to wait until they are discharged, as the label says."""
    overcurrent_device: Current | None = None
    """Rating of the overcurrent device inside a battery that protects the conductors of its port."""
    overcurrent_kind: Literal["fuse", "breaker"] | None = None
    """What that device is: fuses or a breaker."""
    interrupting: Current | None = None
    """Interrupting rating of that device at the highest voltage."""
    max_overcurrent_device: Current | None = None
    """Largest overcurrent device that the maker allows at this port."""
    efficiency: Ratio | None = None
    """Least efficiency of an inverter from this port to its AC side at rated power."""
    ports: Count | None = None
    """Number of such ports of an inverter, one battery to each."""
    ports_joined: bool | None = None
    """true where those ports are one busbar inside, so that every battery feeds into a fault of the others."""
    grounding: Literal["ungrounded", "negative grounded", "positive grounded"] | None = None
    """How the DC conductors stand to ground."""
    fault_detection: bool | None = None
    """true where a ground fault of the DC conductors is detected and shown."""
    reverse_protected: bool | None = None
    """true where crossed polarity does no harm."""


class PvInput(Table):
    """One input of an inverter for a PV array."""

    id: Id
    """Name by which an array of the job refers to it."""
    voltage_max: Voltage | None = None
    """Highest DC voltage that it withstands."""
    voltage_min: Voltage | None = None
    """Lowest voltage at which it starts."""
    current_max: Current | None = None
    """Greatest current that it uses."""
    short_circuit_max: Current | None = None
    """Greatest short-circuit current of an array that may be joined to it."""
    strings: Count | None = None
    """Number of strings that it takes."""
    arc_fault: bool | None = None
    """true where it detects an arc on the DC side and stops."""
    ground_fault: bool | None = None
    """true where it detects a ground fault of the array, stops and shows it."""


class Terminal(Table):
    """One group of equal terminals."""

    id: Id
    """Name by which joints and steps refer to it."""
    name: Text | None = None
    """What stands beside it."""
    wire_min: Wire | None = None
    """Smallest conductor it takes."""
    wire_max: Wire | None = None
    """Largest conductor it takes."""
    materials: Many[Literal["cu", "al"]] = ()
    """Conductor materials it takes."""
    temperature: Literal["60 °C", "75 °C", "60/75 °C", "90 °C"] | None = None
    """Temperature mark."""
    torque: Torque | None = None
    """Tightening torque."""
    strip: Length | None = None
    """Length of insulation to strip, of a terminal that clamps the conductor itself."""
    stud: Literal["M5", "M6", "M8", "M10", "M12", "1/4", "5/16", "3/8", "1/2"] | None = None
    """Thread of its stud, where conductors land with lugs; 1/4 and so on in inches."""
    bending_space: Length | None = None
    """Distance from the terminal to the wall of the enclosure that it faces."""
    count: Count | None = None
    """Number of such terminals."""
    use: Literal["ac line", "ac neutral", "ground", "dc", "pv", "signal"] | None = None
    """What is connected; "dc" is the battery side: its count is of all lugs, those of both poles and both sides."""
