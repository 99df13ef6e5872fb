"""Start-up is a feature: what a command does not need, it does not load."""

import subprocess
import sys
from importlib.resources import files

import pytest

import standfast

HEAVY = (
    "shapely",
    "typst",
    "numpy",
    "pint",
    "hypothesis",
    "sqlalchemy",
    "alembic",
    "psycopg",
    "cryptography",
    "starlette",
    "uvicorn",
    "jinja2",
    "argon2",
    "segno",
    "ezdxf",
    "openpyxl",
    "mkdocs",
    "numba",
    "scipy",
    "tomlkit",
)
DEMO = str(files("standfast.foreman") / "demos" / "one_wall")


def loaded(script: str) -> set[str]:
    """Top-level names of the modules that a script leaves loaded."""
    code = f"{script}\nimport sys\nprint('\\n'.join(sorted({{name.partition('.')[0] for name in sys.modules}})))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60)
    return set(done.stdout.split())


@pytest.mark.parametrize("command", [["check", DEMO], ["explain", DEMO, "wiring"], ["import", "--help"], ["--help"]])
def test_a_check_loads_nothing_heavy(command: list[str]) -> None:
    script = "import contextlib, io\nfrom standfast.cli import run\n"
    script += f"with contextlib.redirect_stdout(io.StringIO()): run({command!r})"
    assert not loaded(script) & set(HEAVY)


def test_books_and_sheet_load_no_reader_of_files() -> None:
    books = ("nfpa70.conductors", "aci318.tension", "nds.lateral", "niosh.equation", "asce7")
    script = "".join(f"import standfast.rulebooks.{book}\n" for book in books) + "import standfast.sheet"
    assert not loaded(script) & {*HEAVY, "pydantic", "click"}


def test_the_door_of_the_house_is_closed() -> None:
    """`import standfast` loads itself and nothing more: its promised names come when they are asked for."""
    script = "import sys\nbefore = set(sys.modules)\nimport standfast\nafter = set(sys.modules) - before\n"
    found = subprocess.run(
        [sys.executable, "-c", script + "print(*sorted(after))"], capture_output=True, text=True, check=True, timeout=60
    )
    ours = {name for name in found.stdout.split() if name.partition(".")[0] not in sys.stdlib_module_names}
    assert ours == {"standfast"}


@pytest.mark.parametrize("name", standfast.__all__)
def test_every_promised_name_is_behind_the_door(name: str) -> None:
    assert getattr(standfast, name).__name__ == name


def test_a_name_that_is_not_promised_is_refused() -> None:
    with pytest.raises(AttributeError, match="promises no name"):
        standfast.open_the_vault  # noqa: B018
