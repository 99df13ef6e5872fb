"""What cannot be told names a word that a person can write: of the job file, or of a data sheet."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from damaged_demos import DUE, WHOLE, Data, Folder, sound

from standfast.foreman.demo import write_demo
from standfast.foreman.plan import JobPlan, make_plan
from standfast.sheet import Check

WORD = re.compile(r"[a-z]\w*(?:\.[\w-]+)+|^[a-z]+(?=: )")
KEPT = {
    *DUE, "room", "wall", "length", "adoption", "date", "panel", "outline", "right", "what", "where", "danger", "feeds",
    "found_on", "action", "file", "by", "on", "accepted", "moved_from", "mode", "backed_up",
}  # fmt: skip
"""Words without which a job cannot be read, or refers to nothing."""


def bare(demo: str, *tables: str) -> Folder:
    """A demo of which hardly more than names is left, but for some tables."""
    folder = sound(demo)

    def strip(data: Data) -> None:
        for word, value in list(data.items()):
            inner = value if isinstance(value, list) else [value]
            if inner and isinstance(inner[0], dict):
                for each in inner:
                    strip(each)
            elif word not in KEPT:
                del data[word]

    for word, value in folder.job.items():
        for each in value if isinstance(value, list) else [value]:
            if word not in ("job", *tables) and isinstance(each, dict):
                strip(each)
    return folder


def words(check: Check, plan: JobPlan) -> Iterator[str]:
    """The words of job file and data sheets that the reason names."""
    for path in WORD.findall(check.reason):
        for document in (plan.survey, *plan.sheets.values()):
            try:
                document.has(path)
            except KeyError:
                continue
            yield path


def unnamed(plan: JobPlan) -> list[str]:
    """What cannot be told and names no word."""
    untold = [check for check in plan.ledger if check.verdict == "cannot tell"]
    assert untold
    return [f"{check.id}: {check.reason}" for check in untold if not any(words(check, plan))]


@pytest.mark.parametrize("tables", [("equipment", "routes"), ("equipment", "backup")])
@pytest.mark.parametrize("demo", WHOLE)
def test_a_nearly_empty_job_is_told_what_to_write(demo: str, tables: tuple[str, ...], tmp_path: Path) -> None:
    assert unnamed(make_plan(bare(demo, *tables).written(tmp_path))) == []


def test_a_half_surveyed_job_is_told_what_to_write(tmp_path: Path) -> None:
    assert unnamed(make_plan(write_demo("half-surveyed", tmp_path))) == []


def test_without_a_fixing_the_word_of_what_is_held_is_named(tmp_path: Path) -> None:
    folder = sound("cabinet")
    for word in ("inverter_fastener", "base_anchor", "fastener", "anchor"):
        folder.job["equipment"].pop(word, None)
    ledger = make_plan(folder.written(tmp_path)).ledger
    reasons = {check.id: check.reason for check in ledger if check.id.startswith("anchorage.fixing/")}
    assert "equipment.inverter_fastener" in reasons["anchorage.fixing/inverter-1"]
    assert "a anchor" not in "".join(reasons.values())


def test_the_maker_can_say_which_fasteners_carry(tmp_path: Path) -> None:
    folder = sound("one-wall")
    sheet = folder.sheets["demo-wall-10"]
    sheet["body"]["mass"] = "135 kg"
    told = {}
    for said in (None, True, False):
        sheet["fixing"].pop("lower_carry", None)
        if said is not None:
            sheet["fixing"]["lower_carry"] = said
        told[said] = make_plan(folder.written(tmp_path)).ledger["anchorage.wood-lateral/battery-1"]
    assert [told[said].verdict for said in (None, True, False)] == ["cannot tell", "pass", "fail"]
    assert "fixing.lower_carry" in told[None].reason
