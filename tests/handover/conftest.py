"""A whole permit set: the demo job file, its own load checks, and drawings made for the tests."""

from collections.abc import Callable, Iterator
from importlib import resources

import pytest

from standfast import shelf
from standfast.design.installation.build import build
from standfast.design.labels.schedule import schedule
from standfast.design.wiring.backup import backup_load
from standfast.design.wiring.load import service_load
from standfast.equipment.read import DataSheet, shipped
from standfast.equipment.read import read as read_sheet
from standfast.fieldwork.plan import Held, Lift, Plan, Run, Spot, Use, Wire
from standfast.handover.contents import Contents, Item
from standfast.paper import dimension, furniture, labels
from standfast.paper.drawing import Drawing
from standfast.paper.pdf import Press
from standfast.paper.sheets import ANSI_B
from standfast.sheet import Clause, Ledger, Value, assumed, at_least, at_most, cannot_tell, given, not_applicable, work
from standfast.survey import read

DEMO = resources.files("standfast.foreman").joinpath("demos/one_wall/job.toml").read_text("utf-8")
NEC = Clause("NEC", "2023", "110.9")


@pytest.fixture(scope="session")
def press() -> Iterator[Press]:
    with Press() as open_press:
        yield open_press


def sheet(id: str) -> DataSheet:
    reading = read_sheet(shipped()[id], f"{id}.toml")
    assert reading.sheet is not None
    return reading.sheet


def elevation() -> Drawing:
    drawing = Drawing.fitted("Wall elevation", "Garage wall", ANSI_B.drawing, (0, 0, 6400, 2743), (30, 75, 30, 26))
    drawing.rect(0, 0, 6400, 2743, "heavy")
    drawing.rect(2700, 900, 610, 1041, "medium", "white")
    labels.inside(drawing, (2700, 900, 3310, 1941), "BATTERY 1\n118 kg")
    drawing.zone([[(0, 0), (1000, 0), (1000, 2743), (0, 2743)]], "diagonal", "working space")
    dimension.across(drawing, [0, 2700, 3310, 6400], 0)
    dimension.upward(drawing, [0, 900, 1941, 2743], 0)
    furniture.foot(drawing)
    return drawing


def ledger(*, settled: bool) -> Ledger:
    """Checks of the demo job's load, with one that cannot be told unless settled."""
    reading = read(DEMO)
    assert reading.survey is not None
    book, sheets = shelf.edition("nfpa70", "2023"), {"battery": sheet("demo-wall-10")}
    whole = service_load(book, reading.survey, sheets)
    backup = backup_load(book, reading.survey, sheets, whole.house)
    found = Ledger([*whole.checks, *backup.checks])
    fault, rating = given("I_f", 9.4, "kA", "job.toml:1:1"), given("I_cn", 22.0, "kA", "job.toml:2:1")
    found.add(at_most("wiring.interrupting/main", "Can the main break the fault?", NEC, fault, rating))
    wood = assumed("G", 0.35, "1", "species not stated", Clause("NDS", "2018", "12.3.3"), bounding=True)
    held = work("W", "1800 * G**(3/2)", "lb", Clause("NDS", "2018", "12.2.1"), G=wood)
    least = given("T", 100.0, "lb", "worked before")
    found.add(at_least("anchorage.withdrawal/H1", "Does the screw hold?", Clause("NDS", "2018", "12.2"), held, least))
    found.add(not_applicable("siting.flood/battery-1", "Is it above the flood?", NEC, "no flood hazard area"))
    if not settled:
        found.add(
            cannot_tell("siting.detection/garage", "Is there detection?", NEC, "add detection in [[rooms]] garage")
        )
    return found


@pytest.fixture(scope="session")
def contents() -> Callable[..., Contents]:
    """A function that makes the contents of a set from changes of the job text."""

    def make(*changes: tuple[str, str], settled: bool = True, files: dict[str, bytes] | None = None) -> Contents:
        text = DEMO
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new)
        reading = read(text)
        assert reading.survey is not None, reading.faults
        survey = reading.survey
        installation = build(survey, {"battery": sheet("demo-wall-10")})
        checks = ledger(settled=settled)
        drawings = {
            part: elevation() for part in ("site plan", "elevation", "plan details", "fixing detail", "one-line")
        }
        item = Item(
            "B1", "Battery unit", "Invented Works Wall Unit 10", "1", "10.2 kWh, 24 A", "UL 9540", "garage-east"
        )
        return Contents(
            survey.job,
            text.encode(),
            shelf.adoption("us-2021"),
            checks,
            drawings,
            [item],
            schedule(shelf.edition("nfpa70", "2023"), installation, {"backup": 2}, backup=True),
            [check.id for check in checks if check.id.startswith("load.")],
            PAPERS if files is None else files,
        )

    return make


def picture(text: str) -> bytes:
    """A page for the documents of the tests."""
    drawing = Drawing(text, text, 150, 200)
    drawing.text((10, 100), text)
    return drawing.svg().encode()


PAPERS = {
    name: picture(name)
    for name in ("battery-cut-sheet.svg", "battery-instructions.svg", "battery-listing.svg", "fault-current-letter.svg")
}


ROLES = {
    "battery": "demo-wall-10",
    "breaker": "demo-breaker",
    "disconnect": "demo-disconnect-60",
    "island_switch": "demo-island-switch",
    "aid": "demo-wall-lift",
}


USES: tuple[tuple[Use, int], ...] = (("line", 2), ("neutral", 1), ("ground", 1))


def word(symbol: str, text: str) -> Value:
    return given(symbol, text, "", "made for the tests")


def in_mm(symbol: str, mm: float) -> Value:
    return given(symbol, mm, "mm", "made for the tests")


@pytest.fixture(scope="session")
def plan() -> Plan:
    """The work of the demo job, with holes, runs and a lift made for the tests."""
    reading = read(DEMO)
    assert reading.survey is not None
    sheets = {role: sheet(id) for role, id in ROLES.items()}
    installation = build(reading.survey, sheets)
    spots = tuple(Spot(in_mm("x", 2700 + x), in_mm("y", 900 + y)) for y in (152, 864, 940) for x in (102, 508))
    lag = sheet("demo-lag-5-16")
    held = Held("battery-1", "Battery 1", "garage-east", "wood", lag, in_mm("t", 3), in_mm("t", 12.7), False, spots)
    wires = tuple(
        Wire(use, word("size", "10"), word("material", "cu"), word("insulation", "thhn"), number)
        for use, number in USES
    )
    run = Run(
        "battery-run", "Battery 1 to battery disconnect", ("unit", "disconnect"), given("l", 6.6, "ft", "job"),
        False, word("raceway", "emt"), word("trade_size", "3/4"), wires,
    )  # fmt: skip
    return Plan(
        reading.survey, sheets, installation, [run], [held],
        schedule(shelf.edition("nfpa70", "2023"), installation, {"backup": 2}, backup=True),
        Lift(2, "Wall lift", "one person: lifting index 4.9"), {"battery-1": given("I_n", 30.0, "A", "job")},
        shelf.edition("practice", "2026"),
    )  # fmt: skip
