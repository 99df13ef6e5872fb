"""Fills pages of the site with what the program itself knows: nothing of it is written down twice.

The line ``<!-- made: name -->`` of a page is replaced while the site is built (mkdocs calls `on_page_markdown`).
"""

import ast
import contextlib
import re
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any

from standfast.faults import FaultsFound, Refusal
from standfast.foreman.demo import write_demo
from standfast.foreman.opened import Job
from standfast.foreman.plan import make_plan
from standfast.foreman.remedies import remedied
from standfast.shelf import Edition, adoption, adoptions, edition

ROOT = Path(__file__).parents[1]
MARK = re.compile(r"<!-- made: (\w+)(?: ([\w-]+))? -->")


def on_page_markdown(markdown: str, page: Any, **_: Any) -> str:
    """The text of a page with everything that is made filled in."""
    text = MARK.sub(lambda found: MAKERS[found[1]](*filter(None, found.groups()[1:])), markdown)
    return in_notebook(text) if page.file.src_uri == "notebook.md" else text


def clauses() -> str:
    """Every clause in scope of every edition, with its state and why it is not done."""
    parts: list[str] = []
    for book in _editions():
        words = ("clause", "subject", "state", "reason")
        rows = [
            "| " + " | ".join(_cell(each.get(word, "")) for word in words) + " |" for each in book.coverage["clause"]
        ]
        counts = Counter(each["state"] for each in book.coverage["clause"])
        told = ", ".join(f"{count} {state}" for state, count in counts.items())
        parts += [f"## {_name(book)}", "", f"{told}.", "", "| clause | subject | state | why |", "|---|---|---|---|"]
        parts += [*rows, ""]
    return "\n".join(parts)


def support() -> str:
    """Every adoption, its books, and what comes of the demo job under it."""
    rows = ["| adoption | what it is | books | the demo job under it |", "|---|---|---|---|"]
    for name, told in _tried():
        codes = adoption(name)
        books = ", ".join(f"{book} {year}" for book, year in codes.books.items())
        rows.append(f"| `{name}` | {_cell(codes.title)} | {books} | {_cell(told)} |")
    return "\n".join(rows)


def faults() -> str:
    """What the demo job that is full of faults is told."""
    with tempfile.TemporaryDirectory() as folder:
        try:
            make_plan(write_demo("faulty", Path(folder)))
        except FaultsFound as found:
            lines = [str(fault._replace(file=Path(fault.file).name)) for fault in found.faults]
            return "\n".join(["```text", *lines, "```"])
    raise SystemExit("the faulty demo has no fault")


def sources() -> str:
    """The page about the sources, which stands at the root."""
    return (ROOT / "SOURCES.md").read_text("utf-8")


CELL = re.compile(r"```python\n(.*?)```\n", re.DOTALL)


def in_notebook(markdown: str) -> str:
    """A page of cells as a notebook shows them: below each cell what its last line shows of itself."""
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        write_demo("one-wall", Path("my-job"))
        names: dict[str, object] = {}
        return CELL.sub(lambda cell: cell[0] + _shown(cell[1], names), markdown)


def _shown(cell: str, names: dict[str, object]) -> str:
    """Runs one cell and gives what its last line shows; nothing where that line is no expression."""
    tree = ast.parse(cell)
    last = tree.body[-1]
    if not isinstance(last, ast.Expr):
        exec(compile(tree, "cell", "exec"), names)  # noqa: S102 - the cells stand in our own page
        return ""
    exec(compile(ast.Module(tree.body[:-1], []), "cell", "exec"), names)  # noqa: S102
    value = eval(compile(ast.Expression(last.value), "cell", "eval"), names)  # noqa: S307
    for form in ("_repr_svg_", "_repr_html_"):
        if hasattr(value, form):
            text = "".join(getattr(value, form)().splitlines())
            return f'\n<div class="shown">{text}</div>\n'
    return f"\n```text\n{value!r}\n```\n"


def demo(name: str) -> str:
    """What came of a demo job: what was changed in it, its verdicts, what holds it up, its wall."""
    with tempfile.TemporaryDirectory() as folder:
        job = Job(remedied(make_plan(write_demo(name, Path(folder)))))
        counts = ", ".join(f"{count} {state.replace('_', ' ')}" for state, count in job.checks.summary().items())
        parts = ["## What came of it", "", f"{len(job.checks)} checks: {counts}.", ""]
        if job.checks.open:
            parts += ["| verdict | question | what would clear it |", "|---|---|---|"]
            parts += [
                f"| {each.verdict} | {_cell(each.title)} | {_cell('; or '.join(each.remedies) or each.reason)} |"
                for each in job.checks.open
            ]
        drawn = next(each for key, each in job.drawings.items() if key.startswith("elevation"))
        svg = "".join(drawn.svg().splitlines())
        return "\n".join([*parts, "", "## The wall", "", f'<div class="shown">{svg}</div>', ""])


MAKERS: dict[str, Callable[..., str]] = {
    "clauses": clauses, "support": support, "faults": faults, "sources": sources, "demo": demo
}  # fmt: skip


def _editions() -> Iterator[Edition]:
    shelf = files("standfast.rulebooks")
    for book in sorted(each.name for each in shelf.iterdir() if (each / "editions").is_dir()):
        for year in sorted(each.name for each in (shelf / book / "editions").iterdir() if each.is_dir()):
            yield edition(book, year)


def _name(book: Edition) -> str:
    facts = book.facts
    return f"{facts['title']} ({facts['short']}, {facts['published']})"


def _tried() -> Iterator[tuple[str, str]]:
    """Each adoption with what the demo job gives under it."""
    with tempfile.TemporaryDirectory() as folder:
        job = write_demo("one-wall", Path(folder)) / "job.toml"
        text = job.read_text("utf-8")
        for name in adoptions():
            job.write_text(text.replace('adoption = "us-2021"', f'adoption = "{name}"'), "utf-8")
            try:
                counts = make_plan(job).ledger.summary()
            except FaultsFound as found:
                yield name, f"not worked out: {found.faults[0].what}"
            except Refusal as refusal:
                yield name, f"not worked out: {refusal}"
            else:
                yield name, ", ".join(f"{count} {state.replace('_', ' ')}" for state, count in counts.items() if count)


def _cell(text: object) -> str:
    """Text for a cell of a table."""
    return " ".join(str(text).split()).replace("|", "\\|").replace("<", "&lt;")
