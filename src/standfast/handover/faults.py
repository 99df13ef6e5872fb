"""Fault currents of the house and arcs of its batteries, as tables of the permit set with their working."""

from collections.abc import Iterable, Mapping, Sequence

from standfast.design.installation import Installation
from standfast.design.whole import Design
from standfast.design.wiring import dc_capacitors
from standfast.design.wiring.dc_arc import LIMITS, ArcFlash, flashes
from standfast.design.wiring.fault_levels import Level
from standfast.design.wiring.material import Material
from standfast.equipment.read import DataSheet
from standfast.handover.working import short_ground
from standfast.paper.document import Block, Bullets, Heading, Table, Text, Words, breakable
from standfast.sheet import Value
from standfast.sheet.printed import amount, line
from standfast.shelf import Adoption
from standfast.survey.joined import INVERTER, has_inverter
from standfast.survey.read import Survey

BOOKS = ("nfpa70", "handbook", "nfpa70e", "dc_arcs")
WAIT = "Capacitors in the {} stay charged: {}."
LEVELS = (
    "Greatest: strong grid, short and cold conductors, and what every source of the house adds; it decides what "
    "devices have to break. Least: the grid alone, long and hot conductors, from a line into the equipment grounding "
    "conductor or between two lines; it has to trip a breaker. Resistances and reactances are added apart; the working "
    "stands with the checks."
)


def blocks(
    survey: Survey, adoption: Adoption, sheets: Mapping[str, DataSheet], design: Design
) -> list[Block]:  # fmt: skip
    """Both tables of a job, as far as its adoption holds the books."""
    wiring = design.wiring
    made = levels(wiring.levels, design.installation)
    if wiring.dc and all(each in adoption.books for each in BOOKS):
        nec, handbook, safety, papers = (adoption.book(each) for each in BOOKS)
        task = Material(nec, handbook, survey, sheets, INVERTER)
        made += arcs(list(flashes(task, safety, papers, wiring.dc)))
    return made


def cautions(survey: Survey, sheets: Mapping[str, DataSheet]) -> list[str]:
    """What stays charged after it is switched off, and how long, as the data sheets state it."""
    if not has_inverter(survey.job):
        return []
    found = list[str]()
    for role in ("battery", "inverter"):
        sheet = sheets.get(role)
        port = None if sheet is None else sheet.sheet.dc
        if sheet is None or port is None or not port.capacitance_charged:
            continue
        time = sheet.fact("dc.discharge_time", "t_wait", "s")
        words = f"{time.how} is not known" if time.missing else dc_capacitors.told(time)
        found.append(WAIT.format(sheet.sheet.name, words))
    return found


def levels(found: Mapping[str, Level], installation: Installation) -> list[Block]:
    """Fault currents at every place; nothing where none were worked out."""
    if not found:
        return []
    rows: list[list[Text]] = [
        [
            installation.parts[at].name if at in installation.parts else at,
            *(amount(each) for each in (one.line_line, one.line_neutral, one.added, one.greatest, one.least)),
        ]
        for at, one in found.items()
    ]
    head = ["At", "Greatest, line to line", "Greatest, line to neutral", "Sources add", "Greatest in all", "Least"]
    return [
        Heading("Fault currents", 2),
        Words(LEVELS, 8),
        Table(head, rows, [3, 2, 2, 2, 2, 2], right=[1, 2, 3, 4, 5]),
    ]


def arcs(found: Sequence[ArcFlash]) -> list[Block]:
    """Arcs at the DC side of every battery; nothing where every battery keeps its DC conductors to itself."""
    if not found:
        return []
    rows: list[list[Text]] = [
        [
            each.place, amount(each.voltage), amount(each.fault), amount(each.time), amount(each.energy),
            amount(each.boundary), amount(each.clothing), _steady(each.steady),
        ]
        for each in found
    ]  # fmt: skip
    energy = f"Energy at {amount(found[0].distance)}"
    head = ["Battery, place", "Voltage", "Bolted fault", "Arc lasts", energy, "Burns up to", "Clothing", "Steady arc"]
    return [
        Heading("Arcs of direct current", 2),
        Bullets(list(LIMITS)),
        Table(head, rows, [3, 1.2, 1.4, 1.2, 1.7, 1.4, 3, 2], size=8),
        Heading("Working of the arcs", 3),
        Table(["", "Ground"], _working(found), [5, 3], size=8),
    ]


def _steady(current: Value) -> str:
    if current.missing:
        return current.how
    return "none lasts" if current.quantity <= 0 else amount(current)


def _working(found: Iterable[ArcFlash]) -> list[list[Text]]:
    """Every line once, inputs before what uses them; the working of the bolted fault stands with its checks."""
    rows = dict[str, list[Text]]()
    for flash in found:
        before = {id(each) for each in flash.fault.trail()} - {id(flash.fault)}
        for value in (flash.energy, flash.boundary):
            for each in value.trail():
                if id(each) not in before:
                    rows.setdefault(line(each), [breakable(line(each)), breakable(short_ground(each))])
    return list(rows.values())
