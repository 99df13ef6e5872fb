"""The picture beside an isolating step shows every source, held off as the step says."""

from pathlib import Path

import pytest

from standfast.fieldwork.isolation import isolations
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.handover.step_pictures import step_pictures
from standfast.handover.way_marks import picture, ways


@pytest.fixture(scope="module", params=["many_sources", "cabinet", "stack_outdoors", "terrace"])
def plan(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Plan:
    name: str = request.param
    return sitework(make_plan(write_demo(name, tmp_path_factory.mktemp(name))))


def test_every_source_that_reaches_the_panel_is_drawn_and_held_off_by_an_open_switch(plan: Plan) -> None:
    for zone in isolations(plan):
        drawn = ways(plan, zone)
        held = {source for opening in (*zone.openings, *zone.kept_open) for source in opening.sources}
        assert {way.source for way in drawn} >= held
        for way in drawn:
            assert any(not at.closed for _, at in way.switches) == (way.source not in zone.live), way.source


def test_what_the_step_opens_and_locks_is_drawn_open_with_its_lock(plan: Plan) -> None:
    for zone in isolations(plan):
        stands = {name: at for way in ways(plan, zone) for name, at in way.switches}
        for id in (*zone.opened, *zone.locked):
            part = plan.installation.parts[id]
            assert not stands[part.name].closed
            assert stands[part.name].locked == (part.kind != "fuse")


def test_it_stands_beside_the_isolating_step_and_says_in_words_what_it_shows(plan: Plan) -> None:
    order = work_order(plan)
    pictures = step_pictures(plan, order)
    for zone in order.isolations:
        made = picture(plan, zone)
        if made is None:
            continue
        beside = pictures.beside[f"job.open-{zone.id}"][0]
        assert beside.description == made.told and pictures.svg[beside.name] == made.svg
        assert zone.panel in made.told and all(way.source in made.told for way in ways(plan, zone))


def test_the_service_disconnect_of_many_sources_stays_live_before_it(tmp_path: Path) -> None:
    plan = sitework(make_plan(write_demo("many_sources", tmp_path)))
    [zone] = isolations(plan)
    [grid] = [way for way in ways(plan, zone) if way.source == "Utility"]
    assert [(name, at.closed, at.locked) for name, at in grid.switches] == [("Service disconnect", False, True)]
