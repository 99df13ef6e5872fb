"""The link by which units and an inverter talk to one another, as far as somebody sets or fits it on site."""

from typing import Literal

from standfast.reading.quantities import Count, Many, Resistance, Table, Text


class Link(Table):
    """The link between several units, and to an inverter of its own."""

    kind: Literal["two-wire bus", "point to point", "none"] | None = None
    """"two-wire bus" where all are on one pair of wires, ended by a terminator at each end; "none" where none talks."""
    address: Literal["set by hand", "automatic", "fixed"] | None = None
    """How it gets its address; "fixed" where every one has the same."""
    address_switch: Text | None = None
    """What its address is set with: "rotary switch ADDR"."""
    addresses: Many[Count] = ()
    """The address of each unit along the link, that of the first one first: [1, 2, 3]."""
    terminator: Literal["switch", "plug", "always in", "automatic", "none"] | None = None
    """How the link is ended in it: by a switch or jumper, a plug, always, by itself, or it has no terminator."""
    terminator_switch: Text | None = None
    """What its terminator is set with: "switch TERM"."""
    terminator_resistance: Resistance | None = None
    """Resistance of one terminator: "120 Ω"."""
    under: Text | None = None
    """Cover behind which address and terminator are set, as steps call it."""
