"""What can feed a house beside its grid and its battery, and what is agreed with the grid operator."""

from datetime import date
from typing import Literal

from standfast.reading.quantities import Current, Id, Many, Power, Table, Text
from standfast.survey.house import State


class Generator(Table):
    """A generator, fixed or on wheels. The circuit whose breaker it feeds says feeds = and this id."""

    id: Id
    """Name by which the job refers to it."""
    name: Text | None = None
    """What people call it."""
    output: Current | None = None
    """Rated output current at the voltage of the house."""
    connection: Literal["inlet", "fixed"] | None = None
    """inlet: plugged in by hand; fixed: wired in for good."""
    interlocked: bool | None = None
    """true where it and the grid cannot be joined at one time, by a mechanical interlock or a transfer switch."""
    starts_by_itself: bool | None = None
    """true where it starts without a person."""
    neutral_bonded: bool | None = None
    """true where neutral and frame are joined in the generator."""
    neutral_switched: bool | None = None
    """true where the change-over to it opens the neutral of the grid too."""
    with_battery: bool | None = None
    """true where the battery may run beside it."""
    fault_contribution: Current | None = None
    """Greatest current that it drives into a fault."""
    state: State | None = None
    """Whether it is there or is added."""


class Control(Table):
    """A control that keeps a current below a setting; it counts where it is listed for that and set."""

    id: Id
    """Name by which the job refers to it."""
    name: Text | None = None
    """What people call it."""
    limits: Id
    """What it keeps below the setting: a panel by its id (its busbar), or "service"."""
    setting: Current | None = None
    """The current that it is set to."""
    sources: Many[Id] = ()
    """Sources that it holds back: "battery-1", "inverter", a circuit that carries a source, by its id."""
    listing: Text | None = None
    """Its listing: standard and file."""
    access: Literal["qualified people", "anybody"] | None = None
    """Who can change the setting."""


class Grid(Table):
    """What is agreed with the grid operator about the sources of the house."""

    operator: Id | None = None
    """Operator whose own settings hold, by the name of its data in the program; absent: those of the standard."""
    region: Literal["Australia A", "Australia B", "Australia C", "New Zealand"] | None = None
    """Region of the settings, where the standard knows several."""
    category: Literal["I", "II", "III"] | None = None
    """Ride-through category, where the standard knows several."""
    normal_category: Literal["A", "B"] | None = None
    """Category of normal operation, which decides how reactive power follows the voltage, where there are several."""
    export_limit: Power | None = None
    """Greatest power that may flow into the grid; "0 kW" where none may."""
    import_limit: Power | None = None
    """Greatest power that the battery may draw from the grid."""
    approval: Text | None = None
    """Number or letter of the operator's answer."""
    approved_on: date | None = None
    """Date of that answer, without quotes: 2026-05-04."""
