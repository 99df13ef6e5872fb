"""What the work needs is taken from the real design of the demo job."""

import pytest
from invented_job import ROLES, demo_text, sheet_of, survey_of

from standfast.design.whole import design
from standfast.equipment.prices import shipped
from standfast.fieldwork.derive import plan_of
from standfast.fieldwork.holes import hole_card
from standfast.fieldwork.lifts import lifts
from standfast.fieldwork.materials import materials
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import work_order
from standfast.shelf import adoption

MORE = {"fastener": "demo-lag-5-16", "anchor": "demo-anchor-3-8", "aid": "demo-wall-lift"}


def derived(text: str) -> Plan:
    survey, books = survey_of(text), adoption("us-2021")
    sheets = {role: sheet_of(id) for role, id in (ROLES | MORE).items()}
    made = design(survey, sheets, books, shipped())
    raised = lifts(survey, sheets, books, made.siting.places)
    return plan_of(survey, sheets, made, raised, books, made.checks())


def test_runs_wires_holes_and_lift_come_from_the_design() -> None:
    plan = derived(demo_text())
    assert [run.id for run in plan.runs] == ["battery-run", "disconnect-run", "backup-feeder"]
    assert {run.ends for run in plan.runs} == {("unit", "disconnect"), ("disconnect", "panel"), ("panel", "panel")}
    assert [wire.use for wire in plan.runs[0].wires] == ["line", "neutral", "ground"]
    assert len(plan.held[0].spots) == 6
    assert plan.held[0].dense is False
    assert not materials(plan).needs
    assert len(work_order(plan).holes.holes) == 6
    assert plan.lift is not None
    assert plan.lift.aid


def test_wood_of_unknown_species_has_no_lead_hole_yet() -> None:
    unknown = derived(demo_text().replace('species = "douglas fir-larch"', 'species = "not known"'))
    assert unknown.held[0].dense is None
    assert work_order(unknown).holes.holes[0].bit[1].endswith("not known")


def test_holes_are_not_drilled_before_their_place_and_bit_are_known() -> None:
    for word, need in (("species", "species of the studs"), ("first_stud", "Centre of the first stud")):
        text = demo_text()
        start = text.index(f"{word} = ")
        plan = derived(text[:start] + text[text.index("\n", start) + 1 :])
        assert any(line.startswith("Not to be drilled yet") and need in line for line in hole_card(plan).stop)
    assert hole_card(derived(demo_text())).stop == ()


def test_a_length_that_was_not_surveyed_is_asked_for() -> None:
    text = demo_text().replace('to = "disconnect"\nlength = "6 ft"', 'to = "disconnect"', 1)
    assert any("routes.battery-run.length" in need for need in materials(derived(text)).needs)


def test_conditions_of_passing_checks_come_along() -> None:
    found = [each for each in derived(demo_text()).conditions if "breaker of up to 60 A" in each.text]
    assert [each.title for each in found] == ["Short-circuit rating of the disconnect"]


def test_a_run_through_a_switch_names_it() -> None:
    through = {run.id: run.through for run in derived(demo_text()).runs}
    assert through["backup-feeder"] == ("Island switch",)
    assert through["battery-run"] == through["disconnect-run"] == ()


def test_a_hole_may_leave_the_middle_of_its_stud_no_farther_than_its_edge_allows() -> None:
    held = derived(demo_text()).held[0]
    assert held.stray is not None
    assert held.stray.quantity == pytest.approx((1.5 / 2 - 1.5 * 0.3125) * 25.4)


def test_without_crew_nobody_lifts() -> None:
    alone = derived(demo_text().replace("crew = 2", ""))
    assert alone.lift is None
