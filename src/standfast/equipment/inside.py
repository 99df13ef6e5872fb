"""What is inside a battery unit or inverter, as far as it decides where power can be: terminals, covers, switches."""

from typing import Literal

from standfast.reading.quantities import Many, Table, Text

Side = Literal["ac", "dc", "pv", "cells"]
"""Where power comes in or goes out: the house, the conductors of the battery, an array, the unit's own cells."""


class Zone(Table):
    """Terminals that hands reach into together. Those of the cells can never be made dead."""

    name: Text
    """What steps call it: "ac terminals"."""
    sides: Many[Side]
    """The sides that it belongs to."""
    under: Text | None = None
    """Cover that guards it, as steps call it."""


class Gate(Table):
    """A switch, breaker, connector or fuse that parts one side of the device from its inside."""

    name: Text
    """What steps call it: "battery switch"."""
    side: Side
    """The side that it parts; of several on one side the one nearest to the terminals comes first."""
    kind: Literal["switch", "breaker", "connector", "fuse"]
    """What it is; a connector or fuse isolates when it is pulled, the others only when they are locked open too."""
    delivered: Literal["open", "closed"] = "open"
    """How it comes from the maker."""
    locks: bool | None = None
    """true where it can be locked open."""


class Sensor(Table):
    """A measuring transformer of a meter, which sits round a conductor."""

    name: Text
    """What steps call it: "transformers of the grid meter"."""
    output: Literal["current", "voltage"]
    """What its secondary gives; an open secondary that gives current makes a dangerous voltage under load."""
    measures: Literal["service", "own circuit"]
    """The conductor that it sits round."""
    shorted: Literal["inside", "no"] | None = None
    """"inside" where the transformer itself limits the voltage of its open secondary; absent where nobody knows."""
    shorting: Text | None = None
    """Temporary part that shorts its secondary while it is open: "shorting link"."""


class Temporary(Table):
    """A part that must not stay: a spacer, a cap, a transport lock."""

    name: Text
    """What steps call it: "transport lock"."""
    delivered: Literal["in place", "apart"] = "in place"
    """How it comes from the maker."""
