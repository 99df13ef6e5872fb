"""Runs piece by piece, and protection as the codes of metric countries word it."""

from typing import Literal

from standfast.reading.quantities import (
    Area,
    Count,
    Current,
    Id,
    Length,
    Resistance,
    Table,
    Temperature,
    Time,
    Volume,
)
from standfast.terms import Raceway, Wire

Cable = Literal[
    "70 °C thermoplastic, flat with protective conductor", "70 °C thermoplastic, multicore",
    "70 °C thermoplastic, singles in conduit", "90 °C thermosetting, armoured", "90 °C thermosetting, multicore",
    "90 °C thermosetting, singles in conduit",
]  # fmt: skip
"""Copper cables of houses outside North America."""

Method = Literal["A", "B", "C", "D", "E", "F", "100", "101", "102", "103"]
"""Reference method of installation, by the letters of IEC 60364-5-52; the numbers: flat cable in insulated walls."""


class Section(Table):
    """A piece of a run in which conditions stay alike."""

    id: Id
    """Name by which the job refers to it."""
    length: Length | None = None
    """Its length."""
    ambient: Temperature | None = None
    """Highest temperature round it."""
    other_current_carrying: Count | None = None
    """Current-carrying conductors of other circuits in the same raceway or bundle; 0 where there are none."""
    raceway: Raceway | None = None
    """Raceway, where it changes along the run."""
    on_roof: bool | None = None
    """true where it lies in the sun on a roof."""
    above_roof: Length | None = None
    """Height of its lower side above that roof."""
    method: Method | None = None
    """Reference method of installation, in metric countries."""
    circuits_together: Count | None = None
    """Circuits that touch or share an enclosure there, this one counted: 1 where it runs alone."""
    circuits_light: Count | None = None
    """Of these, circuits that never carry more than a small part of what they may in the group (30 % by most rules)."""
    in_insulation: Length | None = None
    """Length that thermal insulation surrounds on all sides; "0 mm" where none does."""


class Residual(Table):
    """A residual current device."""

    type: Literal["AC", "A", "F", "B"] | None = None
    """Kinds of residual current that it sees."""
    rated: Current | None = None
    """Rated residual current: "30 mA"."""
    delayed: bool | None = None
    """true for a time-delayed (selective) one."""
    bidirectional: bool | None = None
    """true where its maker says that it may be fed from either side."""


class Measured(Table):
    """What was measured or is stated of a circuit that is there."""

    loop: Resistance | None = None
    """Earth fault loop impedance at its far end."""
    r1_r2: Resistance | None = None
    """Line and protective conductor together, at 20 °C."""
    area: Area | None = None
    """Area of its live conductors: "6 mm2"."""
    protective_area: Area | None = None
    """Area of its protective conductor."""
    longest_disconnection: Time | None = None
    """Disconnection time that the code allows it, where the job knows better than the code's own table."""


class Splice(Table):
    """Where the conductors of a moved circuit are joined to those that make it longer."""

    where: Literal["in the panel that it came from", "in a box"] | None = None
    """In the wiring space of the panel that it came from, or in a box of its own or shared with others."""
    volume: Volume | None = None
    """Inside volume of the box as it is marked, with extension rings: "42 in3"."""
    conductor: Wire | None = None
    """Largest conductor in the box."""
    conductors: Count | None = None
    """Insulated conductors that enter the box, of every circuit in it; one that is spliced counts from each side."""
    grounds: Count | None = None
    """Equipment grounding conductors that enter the box."""
    clamps: bool | None = None
    """true where cables are held by clamps inside the box."""
