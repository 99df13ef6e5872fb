"""The firm file: its people and licences, tools with their calibration, lifting aids, prices and stock.

It stands in the folder of the firm as ``firm.toml`` and serves every job: a job states only what differs.
"""

from collections.abc import Iterator
from datetime import date
from json import dumps
from typing import Literal, NamedTuple

from pydantic import Field

from standfast.equipment.price_list import PriceTables, nameless
from standfast.faults import Fault
from standfast.reading import Document, engine
from standfast.reading import reference as _reference
from standfast.reading import schema as _schema
from standfast.reading.document import NOT_KNOWN
from standfast.reading.positions import Path
from standfast.reading.quantities import Count, Id, Length, Many, Table, Text, Torque, Voltage
from standfast.reading.template import template
from standfast.survey.pace import Day, Pace

ToolKind = Literal[
    "torque screwdriver", "torque wrench", "voltage tester", "proving unit", "multimeter", "insulation tester",
    "clamp meter", "low-resistance ohmmeter", "loop tester", "residual current tester", "earth electrode tester",
    "multifunction tester", "detector", "stud finder", "drill", "dust extractor", "other",
]  # fmt: skip
Function = Literal[
    "insulation tester", "low-resistance ohmmeter", "loop tester", "residual current tester", "earth electrode tester",
    "multimeter", "voltage tester", "clamp meter",
]  # fmt: skip
MEASURING: frozenset[ToolKind] = frozenset({
    "voltage tester", "multimeter", "insulation tester", "clamp meter", "low-resistance ohmmeter", "loop tester",
    "residual current tester", "earth electrode tester", "multifunction tester",
})  # fmt: skip
"""Kinds whose reading is put on record."""
TORQUE: frozenset[ToolKind] = frozenset({"torque screwdriver", "torque wrench"})


class Head(Table):
    """The firm itself."""

    name: Text
    """Name of the firm."""
    invented: bool = False
    """true for an example: a real job does not take it."""
    phone: Text | None = None
    """Telephone number."""
    licence: Text | None = None
    """Number and class of the contractor's licence."""
    licence_expires: date | None = None
    """Date on which the licence ends, without quotes: 2027-03-31."""
    languages: Many[Literal["en", "es"]] = ()
    """Languages in which the crew reads its papers; the work order comes in each, and always in English."""


class Member(Table):
    """Somebody who works for the firm."""

    id: Id
    """Name by which jobs refer to the person."""
    name: Text
    """Name as papers print it."""
    role: Literal["licensed electrician", "journeyman", "apprentice", "helper", "designer"] | None = None
    """What the person is."""
    licence: Text | None = None
    """Number and class of the person's licence."""
    licence_expires: date | None = None
    """Date on which it ends, without quotes: 2027-03-31."""
    electrical: bool | None = None
    """Whether the law of the place lets the person do electrical work without another beside them; absent: a licensed
    electrician and a journeyman may, nobody else."""


class FirmTool(Table):
    """A tool or instrument."""

    id: Id
    """Name by which papers refer to it."""
    kind: ToolKind
    """What it is."""
    name: Text | None = None
    """What the crew calls it."""
    serial: Text | None = None
    """Serial number."""
    torque_min: Torque | None = None
    """Torque tool: its least setting."""
    torque_max: Torque | None = None
    """Torque tool: its greatest setting."""
    functions: Many[Function] = ()
    """Multifunction tester: every instrument that it is."""
    rated_voltage: Voltage | None = None
    """Instrument: greatest voltage that it is made for; of an insulation tester its greatest test voltage."""
    calibrated_on: date | None = None
    """Date of the last calibration, without quotes: 2026-02-01."""
    calibrated_until: date | None = None
    """Date until which it counts, without quotes: 2027-02-01."""
    certificate: Text | None = None
    """Number of the calibration certificate."""


class OwnAid(Table):
    """A lifting aid that the firm owns."""

    sheet: Id
    """Its data sheet, by id."""
    count: Count | None = None
    """How many there are."""


class Stocked(Table):
    """What lies in the store."""

    sheet: Id
    """What it is, by the id of its data sheet."""
    count: Count
    """How many pieces."""


class Ware(Table):
    """Raceway or conductor that lies on the van or in the store."""

    what: Text
    """What it is, in the words of the price list: "emt 3/4", "cu 10"."""
    length: Length
    """How much of it there is in whole lengths that can be used."""
    each: Length | None = None
    """Length of one stick, spool or drum of it: pieces are cut from such lengths instead of the usual ones."""


class FirmPrices(PriceTables):
    """What things cost the firm, net, in one currency. A price here goes before the invented one of the program."""

    currency: Text | None = None
    """Currency of every price: "USD"."""


class Firm(Table):
    """The whole firm file."""

    schema_: Literal[1] = Field(alias="schema")
    """Version of this format: 1."""
    firm: Head
    """The firm itself."""
    people: Many[Member] = ()
    """Its people."""
    tools: Many[FirmTool] = ()
    """Its tools and instruments."""
    aids: Many[OwnAid] = ()
    """Its lifting aids."""
    stock: Many[Stocked] = ()
    """What lies in its store."""
    wares: Many[Ware] = ()
    """Raceways and conductors that lie there."""
    minutes: Pace = Pace.model_construct()
    """How long its people take for each kind of work."""
    day: Day = Day.model_construct()
    """Its working day."""
    prices: FirmPrices = FirmPrices()
    """Its prices."""


class FirmFile(Document[Firm]):
    """A firm file as read."""

    __slots__ = ()

    @property
    def firm(self) -> Firm:
        """The model of the whole file."""
        return self.content


class Reading(NamedTuple):
    """What came out of a firm file; `firm` is None where not even its head could be understood."""

    firm: FirmFile | None
    faults: list[Fault]


_STAND_IN: dict[Path, object] = {("schema",): 1, ("firm",): {}, ("firm", "name"): NOT_KNOWN}
"""Lets the rest of a file with a faulty head be looked at for faults. Never comes out of `read`."""


def read(text: str, file: str) -> Reading:
    """Read a firm file: everything that is wrong, at once."""
    document, faults, headed = engine.read(text, file, Firm, _STAND_IN)
    if document is None:
        return Reading(None, faults)
    firm = FirmFile(file, document.content, document.index, document.unknown, document.raw)
    return Reading(firm if headed else None, engine.in_order([*faults, *_crossed(firm)]))


def _crossed(firm: FirmFile) -> Iterator[Fault]:
    """Faults between words that are each in order by themselves."""
    for word in ("people", "tools"):
        yield from engine.doubles(firm, word)
    yield from nameless(firm, firm.firm.prices, ("prices",))
    for number, tool in enumerate(firm.firm.tools):
        on, until = tool.calibrated_on, tool.calibrated_until
        if on is not None and until is not None and until < on:
            what = f'calibration of "{tool.id}" ends on {until.isoformat()}, before it was made'
            yield firm.fault(("tools", number, "calibrated_until"), what, "", "check both dates")
        least, most = tool.torque_min, tool.torque_max
        if least is not None and most is not None and least.number >= most.number:
            what = f'"{tool.id}" begins at {least.text} and ends at {most.text}'
            yield firm.fault(("tools", number, "torque_max"), what, "", "check both and their units")
        if tool.kind not in TORQUE and (least is not None or most is not None):
            what = f'"{tool.id}" is a {tool.kind} and has a torque'
            yield firm.fault(("tools", number, "kind"), what, "only torque tools have one", "check its kind")
        if tool.kind != "multifunction tester" and tool.functions:
            what = f'"{tool.id}" is a {tool.kind} and has functions'
            yield firm.fault(
                ("tools", number, "functions"), what, "", "call it a multifunction tester, or leave them out"
            )


_INTRO = """The firm file of standfast: people and licences, tools with their calibration, aids, time, prices, stock.
It lies beside sheets/ in the folder that is named with --firm or in the variable STANDFAST_FIRM.
Take the # away before a word and write the fact; leave out what is not known: nothing is ever filled in for you."""


def new(name: str) -> str:
    """The text of a new firm file, every word explained."""
    filled = {"schema": "1", "firm.name": dumps(name, ensure_ascii=False)}
    return "#:schema ./firm.schema.json\n" + template(Firm, _INTRO, filled)


def schema() -> _schema.Schema:
    """JSON Schema of the firm file, for ``#:schema ./firm.schema.json``."""
    return _schema.schema(Firm, "standfast firm file")


def reference() -> str:
    """Every word of the firm file as Markdown."""
    return f"## Every word\n\n{_reference.reference(Firm)}"
