"""The breaker of a generator is locked open for the work, and stays open when the grid comes back."""

from pathlib import Path

import pytest

from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan


@pytest.fixture(scope="module")
def steps(tmp_path_factory: pytest.TempPathFactory) -> list[WorkStep]:
    folder: Path = tmp_path_factory.mktemp("job")
    return list(work_order(sitework(make_plan(write_demo("many-sources", folder)))).steps)


BREAKER = "meter-main/generator-inlet"


def test_it_is_opened_and_locked_with_every_other_source(steps: list[WorkStep]) -> None:
    opening = next(step for step in steps if step.id == "job.open-main")
    assert "Generator inlet breaker" in opening.text
    assert {turn.change for turn in opening.turns if turn.gate == BREAKER} == {"open", "lock"}


def test_it_stays_open_when_the_grid_comes_back(steps: list[WorkStep]) -> None:
    restore = next(step for step in steps if step.id == "job.restore")
    assert "Close Service disconnect, then PV inverter breaker" in restore.text
    assert "Generator inlet breaker" not in restore.text
    assert any("Generator inlet breaker stays open" in each for each in restore.cautions)
    assert {turn.change for turn in restore.turns if turn.gate == BREAKER} == {"unlock"}
    assert not [turn for step in steps for turn in step.turns if turn == (BREAKER, "close")]
