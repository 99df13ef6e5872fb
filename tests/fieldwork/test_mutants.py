"""Each entry of the steps of a data sheet is there for something: taken away, it is missed, or known harmless."""

import sys
from collections import Counter
from pathlib import Path

import pytest
import tomli
from mutants import DEMOS, mutants, verdict

from standfast.equipment.read import read, shipped
from standfast.fieldwork.plan import Plan
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan

HARMLESS: dict[str, str] = tomli.loads((Path(__file__).parent / "harmless.toml").read_text("utf-8"))


@pytest.fixture(scope="module")
def plans(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Plan]:
    names = {demo for demo, _ in DEMOS.values()}
    return {name: sitework(make_plan(write_demo(name, tmp_path_factory.mktemp(name)))) for name in sorted(names)}


def test_every_sheet_with_steps_for_a_device_is_weakened() -> None:
    kinds = ("battery unit", "inverter")
    sheets = {id: read(text, f"{id}.toml").sheet for id, text in shipped().items()}
    stepped = {id for id, each in sheets.items() if each is not None and each.sheet.kind in kinds and each.sheet.steps}
    assert stepped == set(DEMOS)


@pytest.mark.parametrize("sheet", sorted(DEMOS))
def test_each_entry_taken_away_is_found_or_known_to_be_harmless(
    plans: dict[str, Plan], sheet: str, capsys: pytest.CaptureFixture[str]
) -> None:
    found = {each.id: verdict(each, plans) for each in mutants(sheet)}
    with capsys.disabled():
        sys.stdout.write(f"\n{sheet}: {dict(Counter(word or 'harmless' for word in found.values()))} ")
    assert {id for id, word in found.items() if not word} == {id for id in HARMLESS if id.startswith(f"{sheet} ")}
    assert len(found) > 15 and "unsafe" in found.values()


def test_each_harmless_one_has_its_reason() -> None:
    assert all(len(reason.split()) > 8 for reason in HARMLESS.values())
