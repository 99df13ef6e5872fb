"""An invented stack on its slab or pad before an invented wall, as the tests of standing units use it."""

from hung_unit import BOOKS, LAG, TIMBER, lines, mm, sheet

from standfast.design.anchorage.task import Place
from standfast.design.anchorage.whole import Anchorage, anchor
from standfast.equipment.read import DataSheet
from standfast.reading import Document
from standfast.reading.quantities import amount
from standfast.sheet import Check
from standfast.survey import read as read_job
from standfast.survey.model import Job

SLAB = {
    "kind": '"concrete slab"', "depth": '"20 ft"', "thickness": '"6 in"', "height": '"0 in"',
    "concrete_strength": '"2500 psi"', "concrete_kind": '"normalweight"', "behind": '"0 in"',
    "scan": '"clear"',
}  # fmt: skip
PAD = {
    **SLAB, "kind": '"concrete pad"', "left": '"4 ft"', "width": '"6 ft"', "depth": '"3 ft"', "doweled": "true",
    "state": '"existing"',
}  # fmt: skip
SITE = {"seismic_sds": '"1.0 g"', "seismic_design_category": '"D"', "temperature_high": '"90 °F"'}
WIND = {"wind_speed": '"100 mph"', "wind_exposure": '"C"', "wind_hill": "false"}
STACK, SLAB_ANCHOR = sheet("demo-stack-15"), sheet("demo-slab-anchor-1-2")
POUNDS = amount(STACK.sheet.body.mass, "lb") if STACK.sheet.body.mass is not None else 0.0
"""Its weight, as the data sheet states it."""
LEFT_IN = 14.5 + 48 - 5.0
"""Both holes of the brace meet a stud there."""


def job(footing: dict[str, str | None] | None = None, site: dict[str, str | None] | None = None, room: str = "garage",
        wall: dict[str, str | None] | None = None, more: str = "") -> Document[Job]:  # fmt: skip
    kind = {"garage": "attached garage", "yard": "outside"}[room]
    under = "" if footing == {} else f"[walls.footing]\n{lines({**SLAB, **(footing or {})})}\n"
    text = f"""schema = 1
[job]
name = "test"
date = 2026-05-04
adoption = "us-2021"
[site]
building_height = "14 ft"
[conditions]
{lines({**SITE, **(site or {})})}
[tolerances]
placing = "10 mm"
[[rooms]]
id = "{room}"
kind = "{kind}"
[[walls]]
id = "east"
room = "{room}"
length = "20 ft"
height = "9 ft"
floor_above_grade = "0 in"
[walls.build_up]
{lines({**TIMBER, **(wall or {})})}
{under}{more}
"""
    reading = read_job(text)
    assert reading.survey is not None and not reading.faults, reading.faults
    return reading.survey


def stack(*changes: tuple[str, str]) -> DataSheet:
    return sheet("demo-stack-15", *changes)


FOOT_ONLY = ('held_by = "brace and foot"', 'held_by = "foot"')
BRACE_ONLY = ('held_by = "brace and foot"', 'held_by = "brace"')


def stand(
    at: Document[Job] | None = None,
    unit: DataSheet = STACK,
    left: float = LEFT_IN,
    anchors: tuple[DataSheet, ...] = (SLAB_ANCHOR,),
    fixings: tuple[DataSheet, ...] = (LAG,),
) -> Anchorage:
    place = Place("east", mm("left", left), mm("bottom", 0))
    return anchor(job() if at is None else at, unit, fixings, BOOKS, place, base_anchors=anchors)


def check(found: Anchorage, id: str) -> Check:
    return next(each for each in found.checks if each.id == f"anchorage.{id}")


def quantity(found: Anchorage, id: str) -> float:
    demand = check(found, id).demand
    assert demand is not None, id
    return demand.quantity


def symbol(found: Anchorage, id: str, name: str) -> float:
    demand = check(found, id).demand
    assert demand is not None, id
    return [value for value in demand.trail() if value.symbol == name and value.unit == "lb"][-1].quantity
