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
