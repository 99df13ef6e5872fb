"""The site plan: what was surveyed is on it, nothing overlaps, and what is missing is told."""

from importlib import resources

import pytest

from standfast import shelf
from standfast.design.siting.placed import Siting
from standfast.design.siting.whole import site
from standfast.equipment.read import find
from standfast.handover.drawings.site_plan import site_plan
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.survey import Survey, read

DEMO = resources.files("standfast.foreman").joinpath("demos/one_wall/job.toml").read_text("utf-8")
SHEETS = {role: find(id).sheet for role, id in (("battery", "demo-wall-10"), ("fastener", "demo-lag-5-16"))}


def survey_of(*changes: tuple[str, str]) -> Survey:
    text = DEMO
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    survey = read(text).survey
    assert survey is not None
    return survey


def place(survey: Survey) -> Siting:
    sheets = {role: sheet for role, sheet in SHEETS.items() if sheet is not None}
    return site(shelf.adoption("us-2021"), survey, sheets)


def plan_of(*changes: tuple[str, str]) -> Drawing:
    survey = survey_of(*changes)
    drawing = site_plan(survey.job, place(survey))
    drawing.svg()
    return drawing


def texts(drawing: Drawing) -> str:
    return " | ".join(mark.text for _, mark in drawing.texts)


def test_everything_surveyed_stands_on_it_without_flaws() -> None:
    drawing = plan_of()
    assert drawing.flaws() == [] and drawing.notes == []
    said = texts(drawing)
    for mark in ("electric meter", "gas meter", "emergency disconnect", "emergency shutdown", "grounding electrode"):
        assert mark in said
    assert "BATTERY 1" in said and "80 ft 0 in" in said and "N" in said.split(" | ")
    assert str(drawing.scale) == "1/16 in = 1 ft (1:192)"


def test_the_distance_to_the_property_line_follows_the_lot() -> None:
    assert "16 ft 6 in" in texts(plan_of())
    wider = plan_of(('["80 ft", "0 ft"], ["80 ft", "110 ft"]', '["83 ft", "0 ft"], ["83 ft", "110 ft"]'))
    assert "19 ft 6 in" in texts(wider)


def test_a_crooked_lot_is_drawn_with_all_its_sides() -> None:
    crooked = plan_of(('["80 ft", "110 ft"], ["0 ft", "110 ft"]]', '["86 ft", "114 ft"], ["-4 ft", "104 ft"]]'))
    assert crooked.flaws() == []
    assert texts(crooked).count(" mm") >= 5


def test_a_wall_without_a_place_in_plan_is_told() -> None:
    start, end = 'start = ["63 ft 6 in", "51 ft 6 in"]\n', 'end = ["63 ft 6 in", "30 ft 6 in"]\n'
    drawing = plan_of((start, ""), (end, ""))
    assert [note.text for note in drawing.notes] == [
        "Battery 1: on wall garage-east, whose place in plan was not surveyed."
    ]
    assert "BATTERY 1" not in texts(drawing)


def test_without_lot_and_buildings_there_is_no_site_plan() -> None:
    survey = survey_of()
    job = survey.job.model_copy(update={"land": survey.job.land.model_copy(update={"lot": (), "buildings": ()})})
    with pytest.raises(DoesNotFit, match="needs lot, buildings"):
        site_plan(job, place(survey))


def test_a_mark_that_is_nowhere_near_the_plot_is_told_and_not_drawn() -> None:
    """A slip of the pen, such as a coordinate without its point, must not keep the machine busy for hours."""
    at = 'kind = "gas meter"\nat = ["14 ft"'
    survey = survey_of((at, at.replace("14 ft", "99999999 ft")))
    with pytest.raises(DoesNotFit, match='"gas-meter" lies so far off the plot'):
        site_plan(survey.job, place(survey))
