"""The folder of a job: where data sheets are looked up, and what is never written over."""

from importlib.resources import files
from pathlib import Path

import pytest

from standfast.faults import FaultsFound
from standfast.foreman.demo import write_demo
from standfast.foreman.files import write_new
from standfast.foreman.folder import open_folder
from standfast.foreman.plan import make_plan

BREAKER = (files("standfast.equipment") / "sheets" / "demo-breaker.toml").read_text("utf-8")


def interrupting(folder: Path, firm: Path | None) -> float:
    return make_plan(folder, firm).sheets["breaker"].fact("switch.interrupting", "I", "kA").quantity


def test_the_sheet_of_the_job_wins_over_the_firm_and_the_firm_over_the_package(tmp_path: Path) -> None:
    job, firm = write_demo("one-wall", tmp_path / "job"), tmp_path / "firm"
    (firm / "sheets").mkdir(parents=True)
    assert interrupting(job, firm) == 10
    (firm / "sheets" / "demo-breaker.toml").write_text(BREAKER.replace('"10 kA"', '"22 kA"'), "utf-8")
    assert interrupting(job, firm) == 22
    assert interrupting(job, None) == 10
    (job / "sheets").mkdir()
    (job / "sheets" / "demo-breaker.toml").write_text(BREAKER.replace('"10 kA"', '"42 kA"'), "utf-8")
    assert interrupting(job, firm) == 42


def test_a_firm_that_is_not_there_is_told(tmp_path: Path) -> None:
    job = write_demo("one-wall", tmp_path / "job")
    with pytest.raises(FaultsFound, match="no such folder"):
        open_folder(job, tmp_path / "nobody")


def test_nothing_that_is_there_is_written_over(tmp_path: Path) -> None:
    path = write_new(tmp_path / "a" / "job.toml", "one")
    with pytest.raises(FaultsFound, match="left as it is"):
        write_new(path, "two")
    assert path.read_text("utf-8") == "one"


def test_an_adoption_that_is_not_there_is_told_with_the_others_once(tmp_path: Path) -> None:
    job = write_demo("one-wall", tmp_path) / "job.toml"
    job.write_text(job.read_text("utf-8").replace('adoption = "us-2021"', 'adoption = "us-1066"'), "utf-8")
    with pytest.raises(FaultsFound) as refused:
        make_plan(tmp_path)
    assert str(refused.value).count("us-2021") == 1
