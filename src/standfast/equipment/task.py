"""The work that a maker's manual asks: joints, steps and what the unit then shows."""

from typing import Literal

from pydantic import Field

from standfast.reading.quantities import Count, Id, Many, Size, Table, Text, Time, Torque

Change = Literal[
    "open", "close", "lock", "unlock", "remove cover", "fit cover", "plug in", "unplug", "fit", "wait", "prove dead",
    "mark", "drill", "put in", "take out", "none",
]  # fmt: skip


class Joint(Table):
    """A bolted joint."""

    id: Id
    """Name by which steps refer to it."""
    name: Text | None = None
    """What it joins."""
    joins: Many[Id] = ()
    """The parts that it joins, by id."""
    bolt: Literal["M4", "M5", "M6", "M8", "M10", "M12", "1/4-20", "5/16-18", "3/8-16"] | None = None
    """Thread of the bolt."""
    class_: Literal["4.8", "5.8", "8.8", "10.9", "12.9", "A2-70", "A4-70", "A4-80", "grade 2", "grade 5"] | None = (
        Field(default=None, alias="class")
    )
    """Property class of the bolt."""
    torque: Torque | None = None
    """Tightening torque."""
    count: Count | None = None
    """How many bolts."""
    across_flats: Size | None = None
    """Width of the bolt's head across flats."""
    tool: Text | None = None
    """Tool that fits."""


class Does(Table):
    """The one change that a step makes."""

    change: Change
    """What is done."""
    to: Text | None = None
    """To which switch, lock, cover, connector or part."""
    time: Time | None = None
    """For a wait: how long."""


class Reads(Table):
    """A reading that a step asks for."""

    what: Text
    """What is read: "voltage of the module"."""
    unit: Literal["V", "A", "Ω", "MΩ", "°C"] | None = None
    """Unit of the reading; absent where it is a mark or a word."""
    limit: Text | None = None
    """What it is compared with, in the maker's words: "all within 0.5 V of one another"."""
    count: Count | None = None
    """How many of them: one for each module."""


class Step(Table):
    """One step of the manual."""

    id: Id
    """Name by which other steps refer to it."""
    text: Text
    """What is done, in one or two sentences."""
    after: Many[Id] = ()
    """Steps that must be done before."""
    tools: Many[Text] = ()
    """Tools."""
    parts: Many[Text] = ()
    """Parts that are used up or fitted, by id or name."""
    people: Count | None = None
    """People it takes."""
    duration: Time | None = None
    """How long it takes them, as the maker says: "20 min"."""
    states: Many[Text] = ()
    """Isolation that must hold meanwhile: "ac dead", "battery switch open"."""
    does: Does | None = None
    """The one change of a switch, lock, cover, connector or temporary part that it makes."""
    touches: Many[Text] = ()
    """Zones that hands reach into: "ac terminals"."""
    joint: Id | None = None
    """Joint or terminal that is tightened."""
    indication: Id | None = None
    """What the unit then shows."""
    within: Time | None = None
    """Time in which it shows it."""
    cautions: Many[Text] = ()
    """What can hurt, and how not to be hurt."""
    reads: Many[Reads] = ()
    """Readings that are written down at it, one by one."""
    evidence: Many[Literal["photo", "reading", "signature", "serial number"]] = ()
    """What is kept as proof."""


class Indication(Table):
    """What a lamp or display says."""

    id: Id
    """Name by which steps refer to it."""
    shows: Text
    """What is seen."""
    meaning: Text
    """What it means."""
    within: Time | None = None
    """Time in which it should show."""
    good: bool | None = None
    """true where this is as it should be."""
