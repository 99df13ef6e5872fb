"""The public door: a job opened in a script or notebook, and what its parts show of themselves."""

import re
import runpy
from pathlib import Path
from xml.etree import ElementTree

import pytest

import standfast
from standfast.foreman.demo import write_demo

DOCS = Path(__file__).parents[2] / "docs"


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> standfast.Job:
    return standfast.open_job(write_demo("one-wall", tmp_path_factory.mktemp("opened") / "house"))


def test_every_promised_name_is_there() -> None:
    for name in standfast.__all__:
        assert getattr(standfast, name) is not None


def test_a_job_shows_every_check_and_those_that_hold_it_up_first(job: standfast.Job) -> None:
    shown = ElementTree.fromstring(f"<div>{job._repr_html_()}</div>")
    rows = [[cell.text or "" for cell in row] for row in shown.iter("tr")][1:]
    assert len(rows) == len(job.checks)
    verdicts = [row[0] in ("fail", "cannot tell") for row in rows]
    assert verdicts == sorted(verdicts, reverse=True)


def test_a_check_shows_question_verdict_clause_and_working(job: standfast.Job) -> None:
    check = job.check("wiring.conductor-ampacity/battery-1")
    shown = check._repr_html_()
    ElementTree.fromstring(f"<div>{shown}</div>")
    assert check.limit is not None
    assert all(text in shown for text in (check.verdict, str(check.clause), check.id, "working", check.limit.symbol))


def test_the_part_of_an_id_must_name_one_check(job: standfast.Job) -> None:
    with pytest.raises(KeyError, match="checks hold 'siting'"):
        job.check("siting")
    with pytest.raises(KeyError, match="none"):
        job.check("no such check")


def test_drawings_show_themselves_and_say_what_they_show(job: standfast.Job) -> None:
    drawn = ElementTree.fromstring(job.drawings["elevation"]._repr_svg_())
    assert drawn.tag.endswith("svg")


def test_text_of_a_job_is_never_taken_for_markup(tmp_path: Path) -> None:
    folder = write_demo("one-wall", tmp_path / "house")
    text = (folder / "job.toml").read_text("utf-8")
    (folder / "job.toml").write_text(re.sub(r'\nname = ".*?"', '\nname = "<b>&A</b>"', text, count=1), "utf-8")
    shown = standfast.open_job(folder)._repr_html_()
    assert "<b>&A" not in shown
    assert "&lt;b&gt;&amp;A" in shown


def test_the_cells_of_the_page_run_and_show_something() -> None:
    made = runpy.run_path(str(DOCS / "made.py"))
    page = (DOCS / "notebook.md").read_text("utf-8")
    shown = made["in_notebook"](page)
    cells = page.count("```python")
    assert shown.count('<div class="shown">') + shown.count("```text") == cells - 1
