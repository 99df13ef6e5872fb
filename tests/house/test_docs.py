"""The documents say what the program does."""

import re
from importlib import import_module
from pathlib import Path

import pytest

from standfast.cli import COMMANDS, module_of, run

ROOT = Path(__file__).parents[2]
PAGES = [*sorted((ROOT / "docs").glob("*.md")), *sorted(ROOT.glob("[A-Z]*.md"))]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_is_in_the_docs_and_has_help_with_an_example(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = (ROOT / "docs" / "commands.md").read_text("utf-8").splitlines()
    (row,) = [row for row in rows if row.startswith(f"| `standfast {name} ")]
    command = import_module(module_of(name)).command
    assert all(option in row for each in command.params for option in each.opts if option.startswith("--"))
    assert run([name, "--help"]) == 0
    assert f"Example: standfast {name}" in capsys.readouterr().out


@pytest.mark.parametrize("page", PAGES, ids=[page.name for page in PAGES])
def test_links_between_pages_lead_somewhere(page: Path) -> None:
    for target in re.findall(r"\]\((?!https?:)([^)#]+)[^)]*\)", page.read_text("utf-8")):
        assert (page.parent / target).exists(), f"{page.name} links to {target}, which is not there"


def test_every_book_is_in_the_sources() -> None:
    text = (ROOT / "SOURCES.md").read_text("utf-8")
    books = [path.parent.name for path in (ROOT / "src" / "standfast" / "rulebooks").glob("*/editions")]
    assert books
    for book in books:
        assert f"`{book}`" in text
