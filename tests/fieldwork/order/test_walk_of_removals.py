"""The oracle on removals of demo jobs: every order walked, sound ones and ones with a hole, with the same verdicts."""

from pathlib import Path

import pytest
from walk import walk

from standfast.aftercare.removal import Removal
from standfast.fieldwork.order.acts import Acts
from standfast.fieldwork.order.decide import unsafe
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.steps import WorkStep
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.foreman.removals import planned

NAMES = ("one_wall", "terrace")


@pytest.fixture(scope="module")
def removals(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Removal]:
    found = {}
    for name in NAMES:
        folder: Path = tmp_path_factory.mktemp("job") / name
        job = make_plan(write_demo(name, folder), runner_up=False)
        found[name] = planned(job, sitework(job))["sound"]
    return found


def cut(made: Removal, dropped: str) -> Acts:
    """The acts up to the tests of what stays, with one change or proof of every step before left out."""
    steps = [each for each in made.steps if each.stage not in ("prove", "leave")]

    def holed(each: WorkStep) -> WorkStep:
        if dropped == "prove":
            return each._replace(proves=())
        off = each.id.startswith("off.")
        return each._replace(turns=tuple(turn for turn in each.turns if not (off and turn.change == dropped)))

    return acts_of([holed(each) for each in steps])


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("dropped", ["", "lock", "prove"])
def test_walked_and_decided_agree(removals: dict[str, Removal], name: str, dropped: str) -> None:
    site, acts = removals[name].decided.house.site, cut(removals[name], dropped)
    broken, states = walk(site, acts)
    assert states > len(acts)
    assert {(act, what) for act, what, _ in broken} == {
        (each.act, each.what) for each in unsafe(site, acts) if each.act
    }
    assert bool(broken) is bool(dropped)
