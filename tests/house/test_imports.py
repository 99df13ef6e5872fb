"""Start-up is a feature: what a command does not need, it does not load."""

import subprocess
import sys
from importlib.resources import files

import pytest

HEAVY = ("shapely", "typst", "numpy", "pint", "hypothesis", "sqlalchemy", "ezdxf", "numba", "scipy", "tomlkit")
DEMO = str(files("standfast.foreman") / "demos" / "one_wall")


def loaded(script: str) -> set[str]:
    """Top-level names of the modules that a script leaves loaded."""
    code = f"{script}\nimport sys\nprint('\\n'.join(sorted({{name.partition('.')[0] for name in sys.modules}})))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60)
    return set(done.stdout.split())


@pytest.mark.parametrize("command", [["check", DEMO], ["explain", DEMO, "wiring"], ["--help"]])
def test_a_check_loads_nothing_heavy(command: list[str]) -> None:
    script = "import contextlib, io\nfrom standfast.cli import run\n"
    script += f"with contextlib.redirect_stdout(io.StringIO()): run({command!r})"
    assert not loaded(script) & set(HEAVY)


def test_books_and_sheet_load_no_reader_of_files() -> None:
    books = ("nfpa70.conductors", "aci318.tension", "nds.lateral", "niosh.equation", "asce7")
    script = "".join(f"import standfast.rulebooks.{book}\n" for book in books) + "import standfast.sheet"
    assert not loaded(script) & {*HEAVY, "pydantic", "click"}
