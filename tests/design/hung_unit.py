"""An invented wall with an invented unit on it, as the tests of the anchorage use them."""

from standfast.design.anchorage.task import Place
from standfast.design.anchorage.whole import Anchorage, anchor
from standfast.equipment import read
from standfast.equipment.read import DataSheet, shipped
from standfast.reading import Document
from standfast.sheet import Check, Value, given
from standfast.shelf import adoption
from standfast.survey import read as read_job
from standfast.survey.model import Job

BOOKS = adoption("us-2021")
TIMBER = {
    "kind": '"timber frame"', "lining": '"gypsum board"', "lining_thickness": '"1/2 in"', "stud_spacing": '"16 in"',
    "first_stud": '"14-1/2 in"', "stud_width": '"1-1/2 in"', "stud_depth": '"3-1/2 in"',
    "species": '"douglas fir-larch"', "moisture": '"dry"',
}  # fmt: skip
CONCRETE = {
    "kind": '"concrete"', "lining": '"none"', "concrete_strength": '"2500 psi"', "concrete_kind": '"normalweight"',
    "concrete_thickness": '"8 in"',
}  # fmt: skip
SITE = {"seismic_sds": '"1.05 g"', "seismic_design_category": '"D"', "temperature_high": '"90 °F"'}
DOOR = """[[walls.openings]]
id = "door"
kind = "door"
left = "52 in"
bottom = "0 in"
width = "36 in"
height = "80 in"
"""


def lines(facts: dict[str, str | None]) -> str:
    return "\n".join(f"{word} = {value}" for word, value in facts.items() if value is not None)


def job(wall: dict[str, str | None], site: dict[str, str | None] | None = None, more: str = "") -> Document[Job]:
    conditions = lines({**SITE, **(site or {})})
    text = f"""schema = 1
[job]
name = "test"
date = 2026-05-04
adoption = "us-2021"
[site]
building_height = "14 ft"
[conditions]
{conditions}
[tolerances]
placing = "10 mm"
[[rooms]]
id = "garage"
kind = "attached garage"
[[walls]]
id = "east"
room = "garage"
length = "20 ft"
height = "9 ft"
floor_above_grade = "4 in"
{more}
[walls.build_up]
{lines(wall)}
"""
    reading = read_job(text)
    assert reading.survey is not None, reading.faults
    return reading.survey


def sheet(id: str, *changes: tuple[str, str]) -> DataSheet:
    text = shipped()[id]
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    reading = read(text, f"{id}.toml")
    assert reading.sheet is not None, reading.faults
    return reading.sheet


def place(left_in: float = 10.5, bottom_in: float = 24.0) -> Place:
    return Place("east", mm("left", left_in), mm("bottom", bottom_in))


def mm(symbol: str, inches: float) -> Value:
    return given(symbol, inches * 25.4, "mm", "test")


LAG, SCREW, ANCHOR, UNIT = (sheet(id) for id in ("demo-lag-5-16", "demo-screw-10", "demo-anchor-3-8", "demo-wall-10"))


def on_wood(left: float = 10.5, battery: DataSheet = UNIT, fixings: tuple[DataSheet, ...] = (LAG,), more: str = "",
            site: dict[str, str | None] | None = None, **wall: str | None) -> Anchorage:  # fmt: skip
    return anchor(job({**TIMBER, **wall}, site, more), battery, fixings, BOOKS, place(left))


def on_concrete(left: float = 60.0, fixings: tuple[DataSheet, ...] = (ANCHOR,), more: str = "",
                site: dict[str, str | None] | None = None, **wall: str | None) -> Anchorage:  # fmt: skip
    return anchor(job({**CONCRETE, **wall}, site, more), UNIT, fixings, BOOKS, place(left))


def of(found: Anchorage, rule: str) -> Check:
    return next(check for check in found.checks if check.id.startswith(f"anchorage.{rule}/"))


def used(found: Anchorage, rule: str) -> float:
    demand = of(found, rule).demand
    assert demand is not None
    return demand.quantity
