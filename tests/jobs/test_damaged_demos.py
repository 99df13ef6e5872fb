"""Whole demos damaged from outside give faults with their place, or every paper and answer, and never a traceback."""

import os
from collections import Counter
from pathlib import Path

import pytest
from damaged_demos import WHOLE, damaged

from standfast.cli.printing import working_lines
from standfast.faults import FaultsFound, Refusal
from standfast.foreman.answers import answer, as_json
from standfast.foreman.designed import designed
from standfast.foreman.pack import papers
from standfast.foreman.plan import JobPlan, make_plan
from standfast.paper import schedule
from standfast.sheet.wanted import wanted

CASES = 400 if "STANDFAST_CASES" in os.environ else 8
"""Damages of each demo: `make oracle` asks for the larger number."""


def answered(plan: JobPlan) -> None:
    """Everything that a job is asked for, as the commands ask for it, but for the press."""
    as_json(answer(plan))
    as_json(designed(plan))
    for check in plan.ledger:
        assert working_lines(check)
        assert check.verdict != "cannot tell" or check.reason, check.id
    found = wanted(plan.ledger)
    assert bool(found) == any(check.verdict == "cannot tell" for check in plan.ledger)
    made = papers(plan)
    assert bool(made.permit.against) >= bool(plan.ledger.open)
    assert made.work.sheets and made.defects.sheets and made.materials
    for drawing in made.drawings.values():
        assert drawing.svg().startswith("<")
    for each in made.schedules:
        assert schedule.as_csv(each)


def told(fault: Exception, folder: Path) -> None:
    """A refusal says what is wrong; a fault also where, in a file of the folder."""
    assert str(fault)
    for each in fault.faults if isinstance(fault, FaultsFound) else ():
        rows = Path(each.file).read_text("utf-8").split("\n")
        assert each.line in range(1, len(rows) + 1), each
        assert Path(each.file).is_relative_to(folder), each


@pytest.mark.parametrize("demo", WHOLE)
def test_a_damaged_demo_is_answered_or_its_faults_are_told(demo: str, tmp_path: Path) -> None:
    tally: Counter[str] = Counter()
    for seed in range(CASES):
        folder = damaged(demo, seed).written(tmp_path / str(seed))
        try:
            plan = make_plan(folder)
        except (FaultsFound, Refusal) as fault:
            told(fault, folder)
            tally["faults"] += 1
            continue
        answered(plan)
        tally["open" if plan.ledger.open else "harmless"] += 1
    # The damage must be of both kinds, or this tests nothing.
    assert tally["faults"] and tally["open"], tally
