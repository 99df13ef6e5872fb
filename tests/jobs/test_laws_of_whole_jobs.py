"""Laws that hold for every whole demo: names change no number, and a house turned left to right is the same house."""

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from damaged_demos import WHOLE, Data, Folder, at, leaves, put, sound

from standfast.design.siting.placed import PlacedUnit
from standfast.fieldwork.materials import materials
from standfast.foreman.pack import sitework
from standfast.foreman.plan import JobPlan, make_plan
from standfast.sheet import Check, Value
from standfast.survey.cross import ENDS
from standfast.units import read

REFERS = {
    "wall", "room", "behind", "opens_into", "leads_into", "panel", "panels", "from", "to", "feeds", "fed_from",
    "moved_from", "building", "at", "id",
}  # fmt: skip
"""Words that hold the id of a thing of the house."""
NAMED = ("rooms", "walls", "panels", "routes", "arrays", "obstacles", "openings", "buildings", "marks", "circuits")
"""Lists whose ids the surveyor chooses."""
FIXED = ENDS | {"outside"}
"""Words of the file format, whatever the surveyor would call the thing."""


def renamed(folder: Folder) -> Folder:
    """Every id of a thing of the house exchanged; what came first in the alphabet comes last."""
    lists = [(way, at(folder.job, way)) for way in leaves(folder.job) if way[-1] == "id" and way[-3] in NAMED]
    ids = sorted({id for _, id in lists} - FIXED)
    new = {id: f"{chr(122 - number % 26)}{len(ids) - number}-thing" for number, id in enumerate(ids)}
    for way in leaves(folder.job):
        word = at(folder.job, way)
        if way[-1] in REFERS and isinstance(word, str) and (way[0], way[-1]) not in OWN:
            put(folder.job, way, new.get(word, word))
    return folder


OWN = {("documents", "id"), ("adders", "id"), ("wishes", "id"), ("acceptances", "id"), ("existing_defects", "id")}
"""Ids of papers, offers and answers: they name no thing of the house."""


def side(value: Value | None) -> object:
    """What a value says, where it is a number."""
    if value is None or isinstance(value.number, str | tuple):
        return None
    return value.number, value.unit


def said(check: Check) -> tuple[object, ...]:
    """A check without the names of things."""
    kind = check.id.partition("/")[0]
    return kind, str(check.clause), check.verdict, side(check.demand), side(check.limit), check.margin


def numbers(plan: JobPlan) -> dict[str, Any]:
    """Everything of a design that can be counted or measured."""
    made = plan.design
    return {
        "checks": Counter(map(said, plan.ledger)),
        "places": [(place.id, side(place.left), side(place.bottom)) for place in made.siting.places],
        "holes": [(side(hole.x), side(hole.y)) for held in made.anchorages for hole in held.holes],
        "price": round(made.choice.best.price, 6),
        "labels": len(made.labels),
        "circuits": [(side(each.need.device), side(each.length)) for each in made.wiring.circuits],
        "lifting": [(row.way, row.people, side(row.mass)) for row in plan.lifting.rows],
    }


def worked_out(folder: Folder, path: Path) -> JobPlan:
    return make_plan(folder.written(path))


@pytest.mark.parametrize("demo", WHOLE)
def test_other_names_change_no_number(demo: str, tmp_path: Path) -> None:
    plain, other = sound(demo), renamed(sound(demo))
    assert {room["id"] for room in plain.job["rooms"]}.isdisjoint(room["id"] for room in other.job["rooms"])
    one, two = worked_out(plain, tmp_path / "plain"), worked_out(other, tmp_path / "other")
    first, second = numbers(one), numbers(two)
    assert first["checks"] - second["checks"] == second["checks"] - first["checks"] == Counter()
    assert first == second
    bills = [Counter(side(row.quantity) for row in materials(sitework(plan)).rows) for plan in (one, two)]
    assert bills[0] == bills[1]


def mirrored(folder: Folder) -> Folder:
    """The house seen in a mirror: plot, walls and what is on them turned left to right.

    What a wall is faced by stays: seen from the room, its left end becomes its right end.
    """
    job = folder.job
    job["land"]["north"] = f"{-mm(job['land']['north']) % 360} deg"
    for way in list(leaves(job["land"])):
        points = at(job["land"], way)
        if way[-1] == "at":
            put(job["land"], way, turned(points))
        elif isinstance(points, list):
            put(job["land"], way, [turned(point) for point in points])
    for wall in job["walls"]:
        _turn(wall)
    return folder


def mm(text: str) -> float:
    return float(read(text).number)


def turned(point: list[str]) -> list[str]:
    """A point of the plan in the mirror that stands on x = 0; ``lot`` begins anywhere."""
    return [f"{-mm(point[0])} mm", point[1]]


def _turn(wall: Data) -> None:
    length = mm(wall["length"])
    wall["start"], wall["end"] = turned(wall["end"]), turned(wall["start"])
    for thing in (*wall.get("obstacles", ()), *wall.get("openings", ())):
        thing["left"] = f"{length - mm(thing['left']) - mm(thing['width'])} mm"
        thing["hinge"] = {"left": "right", "right": "left"}.get(thing.get("hinge", "none"), "none")
        if thing["hinge"] == "none" and "swings" not in thing:
            del thing["hinge"]
    path = wall.get("vehicle_path", {})
    if "left" in path:
        path["left"], path["right"] = f"{length - mm(path['right'])} mm", f"{length - mm(path['left'])} mm"
    pad = wall.get("footing", {})
    if "left" in pad:
        pad["left"] = f"{length - mm(pad['left']) - mm(pad['width'])} mm"
    studs = wall["build_up"]
    studs["first_stud"] = f"{(length - mm(studs['first_stud'])) % mm(studs['stud_spacing'])} mm"


SYMMETRIC = ("one-wall", "detached-pair", "stack-outdoors", "cabinet")


@pytest.mark.parametrize("demo", SYMMETRIC)
def test_a_house_in_the_mirror_costs_the_same_and_is_judged_alike(demo: str, tmp_path: Path) -> None:
    """The units of the demos are the same on their left as on their right, so that the mirror leaves them alone."""
    one = worked_out(sound(demo), tmp_path / "plain")
    two = worked_out(mirrored(sound(demo)), tmp_path / "mirrored")
    lengths = {wall.id: float(wall.length.number) for wall in one.survey.job.walls}
    first, second = one.design.siting.places, two.design.siting.places
    verdicts = [Counter((check.id, check.verdict) for check in plan.ledger) for plan in (one, two)]
    assert verdicts[0] - verdicts[1] == verdicts[1] - verdicts[0] == Counter()
    assert one.design.choice.best.price == pytest.approx(two.design.choice.best.price, abs=0.01)
    middles = sorted((place.wall, round(middle(one, place), 0)) for place in first)
    other = sorted((place.wall, round(lengths[place.wall] - middle(two, place), 0)) for place in second)
    assert middles == other
    assert sorted(place.bottom.quantity for place in first) == pytest.approx(
        sorted(place.bottom.quantity for place in second), abs=0.2
    )


def middle(plan: JobPlan, place: PlacedUnit) -> float:
    return place.left.quantity + plan.sheets["battery"].fact("body.width", "w", "mm").quantity / 2
