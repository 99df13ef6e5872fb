"""Signs of the invented terraced house: which go where, and what they tell."""

from importlib.resources import files
from pathlib import Path

import pytest

from standfast.design.labels.schedule import BLANK
from standfast.foreman.demo import write_demo
from standfast.foreman.plan import JobPlan, make_plan

TERRACE = Path(str(files("standfast.foreman") / "demos" / "terrace"))


@pytest.fixture(scope="module")
def plan() -> JobPlan:
    return make_plan(TERRACE)


def test_signs_stand_at_the_origin_at_every_board_that_sources_feed_and_at_isolators(plan: JobPlan) -> None:
    at = {(each.why, each.at) for each in plan.design.labels}
    assert {where for why, where in at if why == "dual supply at units"} == {"Consumer unit", "Backup board"}
    assert {where for why, where in at if why == "standby supply"} == {"Backup board"}
    assert {where for why, where in at if why == "isolation point"} == {"Battery 1 isolator"}
    assert any(why == "earth electrode" for why, _ in at)


def test_the_sign_at_the_origin_tells_where_each_other_source_is_isolated(plan: JobPlan) -> None:
    (text,) = [each.wording for each in plan.design.labels if each.why == "dual supply"]
    assert "PV ON THE ROOF" in text
    assert "BATTERY 1 ISOLATOR OUTDOORS" in text


def test_the_fire_service_is_told_by_the_book_on_fire(plan: JobPlan) -> None:
    (sign,) = [each for each in plan.design.labels if each.why == "battery on the premises"]
    assert sign.clause.book == "PAS 63100"
    assert "01632 960101" in sign.wording


def test_heights_of_letters_are_metric(plan: JobPlan) -> None:
    assert {each.metric for each in plan.design.labels} == {True}
    assert {round(each.letters_in * 25.4, 2) for each in plan.design.labels} == {4.75, 5.0}


def test_a_telephone_that_nobody_stated_cannot_be_told(tmp_path: Path) -> None:
    path = write_demo("terrace", tmp_path) / "job.toml"
    path.write_text(path.read_text("utf-8").replace('phone = "01632 960101"\n', ""), "utf-8")
    found = make_plan(tmp_path)
    assert [check.id for check in found.ledger.open if check.id.startswith("labels.")] == ["labels.emergency-telephone"]
    assert any(BLANK in each.wording for each in found.design.labels)
