"""Rules of the house on its own source."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

SRC = Path(__file__).parents[2] / "src" / "standfast"
MODULES = sorted(SRC.rglob("*.py"))
NAMES = [path.relative_to(SRC).as_posix() for path in MODULES]
OUTSIDE = ("cli", "web", "foreman", "store", "devices")
"""Rooms that may meet the world."""
WORLD = {
    "asyncio", "ftplib", "glob", "http", "io.open", "multiprocessing", "os", "pathlib", "random", "requests", "secrets",
    "select", "shutil", "smtplib", "socket", "sqlite3", "ssl", "subprocess", "tempfile", "threading", "time", "urllib",
    "uuid",
}  # fmt: skip
PACKAGE_DATA = ("shelf", "equipment", "words", "paper", "proof", "reading")
"""Rooms that may read the package's own data."""
PRESS = "paper/pdf.py"
"""The one module below the foreman that hands files to a library: the typesetter reads fonts and templates by path."""
CLOCKS = {"now", "today", "utcnow", "time", "monotonic", "perf_counter"}


def room(path: Path) -> str:
    return path.relative_to(SRC).parts[0]


def imported(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module is not None and not node.level:
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_below_the_foreman_there_is_no_clock_no_chance_no_file_and_no_socket(path: Path) -> None:
    if room(path) in OUTSIDE:
        return
    tree = ast.parse(path.read_text("utf-8"))
    names = set(imported(tree))
    met = {name for name in names if name in WORLD or name.partition(".")[0] in WORLD}
    if path.relative_to(SRC).as_posix() == PRESS:
        met -= {"pathlib", "pathlib.Path", "tempfile"}
    assert not met, f"imports {met}"
    if any(name.startswith("importlib.resources") or name == "importlib.resources" for name in names):
        assert room(path) in PACKAGE_DATA, "only some rooms read package data"
    for node in ast.walk(tree):
        match node:
            case ast.Call(ast.Name("open" | "input" | "exec" | "__import__"), _, _):
                pytest.fail(f"line {node.lineno} calls {ast.unparse(node.func)}")
            case ast.Call(ast.Attribute(ast.Name("date" | "datetime" | "time"), clock), _, _) if clock in CLOCKS:
                pytest.fail(f"line {node.lineno} reads a clock")


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_no_module_is_longer_than_four_hundred_lines(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= 400


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_no_assert_no_bare_except_no_abs_in_the_source(path: Path) -> None:
    """Input is never asserted, no sign is mended, and `except Exception` stands only at the edge of the program."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        match node:
            case ast.Assert():
                pytest.fail(f"line {node.lineno} asserts")
            case ast.ExceptHandler(None) | ast.ExceptHandler(ast.Name("BaseException")):
                pytest.fail(f"line {node.lineno} catches everything")
            case ast.ExceptHandler(ast.Name("Exception")) if room(path) not in ("cli", "web"):
                pytest.fail(f"line {node.lineno} catches Exception")


@pytest.mark.parametrize("path", [each for each in MODULES if room(each) == "rulebooks"], ids=str)
def test_no_rulebook_asks_which_edition_it_has(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.If | ast.IfExp | ast.Match):
            asked = node.subject if isinstance(node, ast.Match) else node.test
            for each in ast.walk(asked):
                assert not (isinstance(each, ast.Attribute) and each.attr == "edition"), f"line {node.lineno}"


def test_rooms_have_names_of_the_trade() -> None:
    forbidden = {"utils", "util", "helpers", "helper", "common", "manager", "core", "build", "dist", "misc"}
    folders = {path.name for path in SRC.rglob("*") if path.is_dir() and path.name != "__pycache__"}
    assert not folders & forbidden
    assert not {path.stem for path in MODULES} & (forbidden - {"build"})
