"""Laws of several units: what the search allows the checks allow, and what it refuses they refuse, place by place."""

import os

from hypothesis import given, settings
from hypothesis import strategies as st
from walls_job import US, job, obstacle, room, sheet, wall

from standfast.design.siting.choosing import Spot
from standfast.design.siting.ground import Ground, ground, put
from standfast.design.siting.judged import judged
from standfast.design.siting.keepouts import SHAPES
from standfast.design.siting.ruling import rule_of
from standfast.design.siting.several import Standing, choose, together
from standfast.design.siting.things import Surveyed
from standfast.survey.joined import unit_ids

LAW = settings(deadline=None, derandomize=True, max_examples=200 if "STANDFAST_CASES" in os.environ else 60)
SHEET = sheet()
CHAIN = 6096 + 9144 + 100
"""From one unit to the next: its width, 3 ft, the placing tolerance."""


@st.composite
def grounds(draw: st.DrawFn) -> tuple[dict[str, Ground], int]:
    """A wall with some things on it, and how many units shall stand there."""
    things, length = [], draw(st.sampled_from([110, 140, 180, 240]))
    for number in range(draw(st.sampled_from([0, 0, 1, 2]))):
        left, wide = draw(st.integers(0, length // 20 - 1)) * 20, draw(st.integers(4, 16))
        kind = draw(st.sampled_from(["panelboard", "disconnect", "socket outlet", "shelf"]))
        things.append(obstacle(f"thing-{number}", f"{left} in", kind=f'"{kind}"', width=f'"{min(wide, 20)} in"'))
    count = draw(st.integers(2, 3))
    survey = job(room(), wall("east", *things, length=f"{length} in"), quantity=count)
    seen = Surveyed(survey, SHEET, survey.job.walls[0])
    return {"east": ground(US, seen, {"battery": SHEET})}, count


def failing(walls: dict[str, Ground], units: list[Standing]) -> set[str]:
    """Ids of the checks of the place that fail."""
    return {each.id for each in judged(US, walls, units) if each.verdict == "fail" and rule_of(each) in SHAPES}


def without_units(walls: dict[str, Ground], units: list[Standing]) -> set[str]:
    """What fails wherever the units stand: far away from everything they are in nobody's way."""
    far = [
        each._replace(unit=put(each.unit, 10**7 * (number + 1), each.spot.bottom)) for number, each in enumerate(units)
    ]
    return {each for each in failing(walls, far) if "battery-" not in each}


@LAW
@given(grounds())
def test_what_the_search_finds_the_checks_pass_and_what_it_does_not_they_fail(
    case: tuple[dict[str, Ground], int],
) -> None:
    walls, count = case
    units = unit_ids(walls["east"].seen.job.content)
    chosen = choose(US, walls, units, [["east"]] * count)
    assert chosen.proven
    places = list(chosen.units)
    found = failing(walls, places) - without_units(walls, places)
    assert bool(found) == (chosen.bound is None)


@st.composite
def corners(draw: st.DrawFn) -> tuple[dict[str, Ground], int]:
    """Two walls of a room that meet, with a thing on each, and how many units shall stand there."""
    length = draw(st.sampled_from([70, 100, 160]))
    parts = []
    for id, ends in (
        ("east", ([length, length], [length, 0])),
        ("north", ([0, length], [length, length])),
    ):
        kind, left = draw(st.sampled_from(["panelboard", "shelf"])), draw(st.integers(0, length // 10 - 3)) * 10
        thing = obstacle(f"{id}-thing", f"{left} in", kind=f'"{kind}"', width='"16 in"')
        start, end = (f'["{x} in", "{y} in"]' for x, y in ends)
        parts.append(wall(id, thing, length=f"{length} in", start=start, end=end))
    count = draw(st.integers(2, 4))
    survey = job(room(), *parts, quantity=count)
    walls = {each.id: ground(US, Surveyed(survey, SHEET, each), {"battery": SHEET}) for each in survey.job.walls}
    return walls, count


@settings(LAW, max_examples=60)
@given(corners())
def test_what_the_search_finds_round_a_corner_the_checks_pass(case: tuple[dict[str, Ground], int]) -> None:
    walls, count = case
    units = unit_ids(walls["east"].seen.job.content)
    chosen = choose(US, walls, units, [["east", "north"]] * count)
    assert chosen.proven
    places = list(chosen.units)
    found = failing(walls, places) - without_units(walls, places)
    # what stands apart diagonally may be refused by the rectangles of the search and not by the true distance
    assert not found or chosen.bound is None


@LAW
@given(grounds(), st.data())
def test_the_fast_form_of_several_units_refuses_exactly_what_the_checks_refuse(
    case: tuple[dict[str, Ground], int], data: st.DataObject
) -> None:
    walls, count = case
    at = walls["east"]
    units = unit_ids(at.seen.job.content)
    asked = together(US, walls, units, [["east"]] * count, by_test=False)
    edges = [edge for each in asked.units[0][0].keepouts for edge in (each.x.low - 6096, each.x.high)]
    fitting = [edge for edge in edges if 0 <= edge <= 12_000]
    left = data.draw(st.sampled_from(fitting or [5_000])) + data.draw(st.sampled_from([-1, 0, 0, 1]))
    spots, units_there = [], []
    for number, id in enumerate(units):
        spots.append(Spot(0, left, 4_000, "east"))
        there = put(at.unit(id), left, 4_000)
        units_there.append(Standing("east", there, asked.units[number][0], spots[-1]))
        left += data.draw(st.sampled_from([CHAIN - 1, CHAIN, CHAIN, CHAIN + 1, 20_000]))
    found = failing(walls, units_there) - without_units(walls, units_there)
    assert bool(found) == (asked.cost(spots) is None)
