"""The demo jobs as a whole, against approved outputs: a change detector, and no proof of anything.

What is compared here was once looked at and approved, not worked out by somebody else: it tells that an answer changed,
never that it is right. Published cases and laws say what is right. Numbers are rounded to four digits, and places in
files are left out, so that what changes nothing for a reader changes nothing here. `make approve` approves what comes
out now; read the difference before you commit it.
"""

from pathlib import Path
from typing import Any

import pytest
from approved import as_approved

from standfast.cli import run
from standfast.foreman.answers import answer
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import Papers, papers
from standfast.foreman.plan import JobPlan, make_plan


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> JobPlan:
    return make_plan(write_demo("one-wall", tmp_path_factory.mktemp("job")))


@pytest.fixture(scope="module")
def packed(plan: JobPlan) -> Papers:
    return papers(plan)


def rounded(side: dict[str, Any] | None) -> str:
    """A side of a check, to four digits."""
    if side is None:
        return ""
    number = side["number"]
    if isinstance(number, list):
        return ", ".join(number)
    if isinstance(number, bool) or not isinstance(number, int | float):
        return str(number)
    return f"{number:.4g} {side['unit']}".removesuffix(" 1")


def line(check: dict[str, Any]) -> str:
    """A check in one line, without the places in files."""
    compared = f"{rounded(check['demand'])} {check['relation']} {rounded(check['limit'])}".strip()
    margin = "" if check["margin"] is None else f"margin {check['margin']:.4g}"
    parts = (
        check["id"], check["verdict"], f"{check['book']} {check['edition']} {check['clause']}", compared, margin,
        check["condition"], check["basis"],
    )  # fmt: skip
    return " | ".join(part for part in parts if part)


def test_the_checks_of_the_demo(plan: JobPlan) -> None:
    data: Any = answer(plan)
    counts = ", ".join(f"{count} {verdict}" for verdict, count in data["summary"].items())
    as_approved("one_wall/checks.txt", "\n".join([counts, *map(line, data["checks"])]) + "\n")


def test_the_materials_of_the_demo(packed: Papers) -> None:
    as_approved("one_wall/materials.csv", packed.materials.replace("\r\n", "\n"))


def test_the_counter_list_of_the_demo(packed: Papers) -> None:
    rows = [
        " | ".join(part for part in (each.answer, each.code, each.document, each.remark) if part)
        for each in packed.permit.counter
    ]
    against = [f"against: {each}" for each in packed.permit.against]
    as_approved("one_wall/counter.txt", "\n".join([*rows, *against]) + "\n")


def test_the_faults_of_the_faulty_demo(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", str(write_demo("faulty", tmp_path))]) == 2
    as_approved("faulty/faults.txt", capsys.readouterr().err.replace(f"{tmp_path}/", ""))


def test_the_checks_of_the_australian_demo(tmp_path: Path) -> None:
    found: Any = answer(make_plan(write_demo("verandah", tmp_path), runner_up=False))
    counts = ", ".join(f"{count} {verdict}" for verdict, count in found["summary"].items())
    as_approved("verandah/checks.txt", "\n".join([counts, *map(line, found["checks"])]) + "\n")
