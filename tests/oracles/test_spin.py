"""The decision on a demo job against spin, which walks every order of the exported model; Debian has spin and gcc.

Most steps of a whole job do not change or watch power: they are left out of the model, with what waits for them tied to
what they wait for.
"""

import shutil
import subprocess
from pathlib import Path

import pytest
from promela import model

from standfast.fieldwork.order.acts import Act, Acts
from standfast.fieldwork.order.decide import unsafe
from standfast.fieldwork.work_order import Decided, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan

pytestmark = [
    pytest.mark.oracle,
    pytest.mark.skipif(shutil.which("spin") is None or shutil.which("gcc") is None, reason="spin and gcc are missing"),
]


def matter(act: Act) -> bool:
    """Whether an act changes or watches power."""
    return bool(act.gate or act.touches or act.proves or act.waits)


def thinned(acts: Acts) -> Acts:
    """The acts that change or watch power, each after all of those that were before it."""
    kept = [(place, act) for place, act in enumerate(acts.all) if matter(act)]
    return Acts(
        act._replace(after=tuple(other.id for at, other in kept if acts.precedes(at, place)), uncovers="", covers="",
                     reaches=(), shut=())
        for place, act in kept
    )  # fmt: skip


def errors(folder: Path, text: str) -> int:
    """How many errors spin finds in a model, stopping at the first."""
    (folder / "work.pml").write_text(text, "utf-8")
    for call in (
        ["spin", "-o1", "-o2", "-o3", "-a", "work.pml"],
        ["gcc", "-O2", "-DSAFETY", "-DCOLLAPSE", "-o", "pan", "pan.c"],
    ):
        subprocess.run(call, cwd=folder, check=True, capture_output=True)
    told = subprocess.run(["./pan", "-m100000"], cwd=folder, check=True, capture_output=True, text=True).stdout
    (line,) = [each for each in told.splitlines() if "errors:" in each]
    return int(line.rpartition("errors:")[2])


@pytest.fixture(scope="module")
def decided(tmp_path_factory: pytest.TempPathFactory) -> Decided:
    return work_order(sitework(make_plan(write_demo("one_wall", tmp_path_factory.mktemp("spin"))))).decided


def test_spin_finds_the_demo_safe_too(decided: Decided, tmp_path: Path) -> None:
    assert decided.unsafe == ()
    assert errors(tmp_path, model(decided.house.site, thinned(decided.acts))) == 0


@pytest.mark.parametrize("loose", ["battery-1.wire-lines", "job.connect-battery-1-disconnect", "job.pull#0"])
def test_spin_finds_what_is_let_loose_too(decided: Decided, tmp_path: Path, loose: str) -> None:
    acts = thinned(decided.acts)
    name = loose if loose in acts.number else loose.partition("#")[0]
    loosened = Acts(act._replace(after=()) if act.id == name else act for act in acts.all)
    assert {each.act for each in unsafe(decided.house.site, loosened)} >= {name}
    assert errors(tmp_path, model(decided.house.site, loosened)) == 1
