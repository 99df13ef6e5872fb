"""The demo jobs: each one shows what its line says."""

import re
from pathlib import Path

import pytest
import tomli

from standfast.foreman.demo import DEMOS, job_text, write_demo
from standfast.foreman.plan import JobPlan, make_plan
from standfast.survey.read import read


def planned(name: str, folder: Path) -> JobPlan:
    return make_plan(write_demo(name, folder))


@pytest.mark.parametrize("name", [name for name in DEMOS if name != "faulty"])
def test_every_demo_says_that_it_is_invented_and_has_no_fault(name: str) -> None:
    text = job_text(name)
    survey, faults = read(text)
    assert faults == []
    assert survey is not None
    assert survey.job.job.invented
    assert "(invented)" in survey.job.job.name
    assert "An invented job" in text


@pytest.mark.parametrize("name", ["one-wall", "detached-pair", "stack-outdoors", "cabinet", "many-sources"])
def test_a_whole_demo_has_nothing_open(name: str, tmp_path: Path) -> None:
    ledger = planned(name, tmp_path).ledger
    assert [check.id for check in ledger.open] == []
    assert len(ledger) > 150


def test_the_british_demo_leaves_nothing_open_but_the_anchors_in_brick(tmp_path: Path) -> None:
    plan = planned("terrace", tmp_path)
    assert plan.adoption.name == "uk-2024"
    assert [(check.id, check.verdict) for check in plan.ledger.open] == [
        ("anchorage.wall-carries/battery-1", "cannot tell")
    ]
    assert len(plan.ledger) > 90


def test_the_failing_demo_fails_once_in_each_of_four_trades(tmp_path: Path) -> None:
    found = planned("failing", tmp_path).ledger.open
    assert [check.verdict for check in found] == ["fail"] * 4
    assert {check.id.partition(".")[0] for check in found} == {"siting", "anchorage", "wiring", "lifting"}


def test_the_half_surveyed_demo_fails_nowhere_and_asks_for_what_was_left_out(tmp_path: Path) -> None:
    plan = planned("half-surveyed", tmp_path)
    assert {check.verdict for check in plan.ledger.open} == {"cannot tell"}
    made = tomli.loads(
        (Path(__file__).parents[2] / "src/standfast/foreman/demos/half_surveyed/changes.toml").read_text("utf-8")
    )
    told = " ".join(check.reason for check in plan.ledger.open)
    for change in made["change"]:
        word = change["word"].rpartition(".")[2]
        if word != "species":
            assert re.search(word, told), word
    assert any("species" in value.how or "wood" in value.how for value in plan.ledger.assumptions())
