"""From a job that was worked out to the contents of its permit set."""

from importlib import resources

import pytest

from standfast import shelf
from standfast.design.whole import Design, design
from standfast.equipment import prices
from standfast.equipment.read import DataSheet, find
from standfast.handover import gather as gathering
from standfast.handover.contents import Contents
from standfast.handover.gather import gather
from standfast.handover.permit_set import permit_set
from standfast.paper.drawing import DoesNotFit
from standfast.sheet import Ledger
from standfast.survey import Survey, read

DEMO = resources.files("standfast.foreman").joinpath("demos/one_wall/job.toml").read_text("utf-8")
US = shelf.adoption("us-2021")
ROLES = ("battery", "breaker", "disconnect", "island_switch", "fastener", "anchor", "aid")


@pytest.fixture(scope="module")
def worked() -> tuple[Survey, dict[str, DataSheet], Design]:
    survey = read(DEMO).survey
    assert survey is not None
    found = {role: find(getattr(survey.job.equipment, role)).sheet for role in ROLES}
    sheets = {role: sheet for role, sheet in found.items() if sheet is not None}
    return survey, sheets, design(survey, sheets, US, prices.shipped())


def contents(worked: tuple[Survey, dict[str, DataSheet], Design]) -> Contents:
    survey, sheets, made = worked
    return gather(survey, DEMO, US, sheets, made, Ledger(made.checks()), {})


def test_the_schedule_lists_each_new_device_under_its_name(worked: tuple[Survey, dict[str, DataSheet], Design]) -> None:
    items = {item.tag: item for item in contents(worked).equipment}
    new = [part for part in worked[2].installation.of_kind("battery", "breaker", "disconnect") if not part.existing]
    assert {part.name for part in new} <= set(items)
    battery = items["Battery 1"]
    assert battery.model == "Invented Works Wall Unit 10 (invented)" and "10.2 kWh" in battery.ratings
    assert battery.listing.startswith("UL 9540, invented-9540-001; UL 1741")
    assert items["Battery 1 inverter"].model == "inside the battery unit"
    assert items["Service disconnect"].place == "existing"


def test_the_load_calculation_is_told_line_by_line_and_checked(
    worked: tuple[Survey, dict[str, DataSheet], Design],
) -> None:
    found = contents(worked)
    assert found.load == [check.id for check in worked[2].load.checks]
    made = permit_set(found)
    assert {each.id: each.answer for each in made.counter}["load"] == "in the set"


def test_a_drawing_that_does_not_fit_is_missing_with_its_reason(
    worked: tuple[Survey, dict[str, DataSheet], Design], monkeypatch: pytest.MonkeyPatch
) -> None:
    def too_wide(told: object) -> None:
        raise DoesNotFit("the one-line diagram is 900 mm wide")

    monkeypatch.setattr(gathering, "one_line_drawings", too_wide)
    found = contents(worked)
    assert "one-line" not in found.drawings
    asked = {each.id: each for each in permit_set(found).counter}["one-line"]
    assert (asked.answer, asked.remark) == ("missing", "the one-line diagram is 900 mm wide")


def test_cautions_of_the_unit_stand_beside_those_of_every_job(
    worked: tuple[Survey, dict[str, DataSheet], Design],
) -> None:
    assert "Nobody stands or reaches under the unit." in contents(worked).cautions
