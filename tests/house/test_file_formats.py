"""The references of both file formats hold every word; the guide to a data sheet leads to a sheet without a fault."""

import os
import re
from pathlib import Path

import pytest

from standfast import equipment, survey
from standfast.cli import run
from standfast.equipment import schema as sheet_schema
from standfast.equipment.model import Sheet
from standfast.foreman.demo import write_demo
from standfast.foreman.plan import make_plan
from standfast.reading.quantities import Table
from standfast.reading.schema import every_table
from standfast.survey import firm
from standfast.survey import schema as job_schema
from standfast.survey.firm import Firm
from standfast.survey.model import Job

DOCS = Path(__file__).parents[2] / "docs"
MARK = "<!-- Everything below is made from the models by the tests: STANDFAST_APPROVE=1 writes it anew. -->\n\n"
GUIDE = (DOCS / "your-battery-in-30-minutes.md").read_text("utf-8")
PAGES: list[tuple[str, type[Table], str]] = [
    ("job-file.md", Job, job_schema.reference()),
    ("data-sheet.md", Sheet, sheet_schema.reference()),
    ("firm-file.md", Firm, firm.reference()),
]


@pytest.mark.parametrize(("page", "model", "reference"), PAGES, ids=["job", "sheet", "firm"])
def test_every_word_of_the_models_is_in_the_reference(page: str, model: type[Table], reference: str) -> None:
    path = DOCS / page
    intro, mark, written = path.read_text("utf-8").partition(MARK)
    assert mark, f"{page} has lost the line above which a person writes"
    if os.environ.get("STANDFAST_APPROVE"):
        path.write_text(intro + MARK + reference, "utf-8")
        written = reference
    assert written == reference, f"{page} is behind the models: run make approve"
    for table in every_table(model):
        for name, field in table.model_fields.items():
            assert f"| `{field.alias or name}` |" in written


def blocks(text: str) -> list[str]:
    return re.findall(r"```toml\n(.*?)```", text, re.DOTALL)


def test_the_example_of_the_job_file_has_no_fault() -> None:
    head, *more = blocks((DOCS / "job-file.md").read_text("utf-8"))
    assert more
    assert survey.read("\n".join([head, *more])).faults == []


def test_the_guide_ends_with_a_sheet_without_a_fault() -> None:
    *sheet, checked = blocks(GUIDE)
    text = "\n".join(sheet).replace("[[listing]]", checked + "\n[[listing]]", 1)
    document, faults = equipment.read(text, "our-battery.toml")
    assert faults == []
    assert document is not None
    assert document.has("source.checked_on")


def test_the_commands_of_the_guide_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    calls = [line.strip() for line in GUIDE.split("\n") if line.startswith("    standfast ")]
    demo, new_sheet, check = calls
    for call in (demo, new_sheet):
        words = [each or each_quoted for each_quoted, each in re.findall(r'"([^"]+)"|(\S+)', call)]
        assert run(words[1:]) in (0, 1), capsys.readouterr().err
    job = tmp_path / "trial" / "job.toml"
    text = job.read_text("utf-8").replace('battery = "demo-wall-10"', 'battery = "our-battery"')
    job.write_text(text.replace('source_output = "24 A"\n', ""), "utf-8")
    *sheet, _ = blocks(GUIDE)
    (tmp_path / "trial" / "sheets" / "our-battery.toml").write_text("\n".join(sheet), "utf-8")
    assert run(check.split()[1:]) in (0, 1), capsys.readouterr().err
    assert "checks:" in capsys.readouterr().out


def test_the_verdicts_that_the_guide_foretells_come(tmp_path: Path) -> None:
    *sheet, _ = blocks(GUIDE)
    folder = write_demo("one-wall", tmp_path)
    (folder / "sheets").mkdir()
    (folder / "sheets" / "our-battery.toml").write_text("\n".join(sheet), "utf-8")
    job = folder / "job.toml"
    text = job.read_text("utf-8").replace('battery = "demo-wall-10"', 'battery = "our-battery"')
    text = text.replace('source_output = "24 A"\n', "")
    job.write_text(text, "utf-8")
    open = {check.id: check.verdict for check in make_plan(folder).ledger.open}
    assert set(open.values()) == {"fail"}
    rows = "".join(line for line in GUIDE.split("\n") if line.startswith("| `"))
    assert set(re.findall(r"`([a-z-]+\.[a-z0-9/-]+)`", rows)) == set(open)
    job.write_text(text.replace('spaces = [10, 12]\nbreaker = "30 A"\n', "spaces = [10, 12]\n"), "utf-8")
    assert make_plan(folder).ledger["wiring.device-maker-maximum/battery-1"].verdict == "pass"
