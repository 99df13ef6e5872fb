"""Each entry that an order hangs on is there for something: taken away, it is missed, or known harmless."""

import sys
from collections import Counter
from pathlib import Path

import pytest
import tomli
from mutants import DEMOS, Job, job, mutants, verdict

from standfast.equipment.read import read, shipped
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan

HARMLESS: dict[str, str] = tomli.loads((Path(__file__).parent / "harmless.toml").read_text("utf-8"))
TOLD = Path(__file__).parents[2] / "docs" / "order.md"


@pytest.fixture(scope="module")
def jobs(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Job]:
    made = {}
    for name in sorted({demo for demo, _ in DEMOS.values()}):
        plan = make_plan(write_demo(name, tmp_path_factory.mktemp(name)), runner_up=False)
        made[name] = job(plan, sitework(plan))
    return made


def test_every_sheet_with_steps_for_a_device_is_weakened() -> None:
    sheets = {id: read(text, f"{id}.toml").sheet for id, text in shipped().items()}
    made = {id: one.sheet for id, one in sheets.items() if one is not None}
    ordered = {id for id, one in made.items() if one.steps or one.zones or one.gates or one.sensors or one.temporary}
    assert ordered == set(DEMOS)


@pytest.mark.parametrize("sheet", sorted(DEMOS))
def test_each_entry_taken_away_is_found_or_known_to_be_harmless(
    jobs: dict[str, Job], sheet: str, capsys: pytest.CaptureFixture[str]
) -> None:
    found = {each.id: verdict(each, jobs) for each in mutants(sheet)}
    counts = Counter(word or "harmless" for word in found.values())
    row = [sheet, len(found), *(counts[word] for word in ("fault", "refused", "unsafe", "asked", "check", "harmless"))]
    with capsys.disabled():
        sys.stdout.write(f"\n{sheet}: {dict(counts)} ")
    assert {id for id, word in found.items() if not word} == {id for id in HARMLESS if id.startswith(f"{sheet} ")}
    assert len(found) > 15 and "unsafe" in found.values()
    assert f"| `{row[0]}` | {' | '.join(str(each) for each in row[1:])} |" in TOLD.read_text("utf-8"), row


def test_each_harmless_one_has_its_reason() -> None:
    assert all(len(reason.split()) > 8 for reason in HARMLESS.values())
    assert {id.partition(" ")[0] for id in HARMLESS} <= set(DEMOS)
