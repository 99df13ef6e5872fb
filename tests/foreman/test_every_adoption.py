"""Under whatever adoption a job is asked for, it is worked out as far as the books of that one go."""

from importlib.resources import files
from pathlib import Path

import pytest

from standfast.foreman.plan import make_plan
from standfast.shelf import adoptions

TERRACE = Path(str(files("standfast.foreman") / "demos" / "terrace"))


@pytest.mark.parametrize("name", adoptions())
def test_no_adoption_refuses_a_job(name: str) -> None:
    plan = make_plan(TERRACE, codes=name, runner_up=False)
    assert plan.adoption.name == name
    told = {check.id.partition(".")[0] for check in plan.ledger}
    assert {"siting", "anchorage", "wiring", "load"} <= told
    assert all(check.reason for check in plan.ledger if check.verdict == "cannot tell")
