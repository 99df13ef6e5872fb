"""Extras stay extras: nobody gets their libraries unasked, and the tests have them all."""

import re
from pathlib import Path
from typing import Any

import tomli

ROOT = Path(__file__).parents[2]
PROJECT: dict[str, Any] = tomli.loads((ROOT / "pyproject.toml").read_text("utf-8"))


def names(requirements: list[Any]) -> set[str]:
    """The packages that some requirements name."""
    return {re.split(r"[<>=!\[ ]", each)[0] for each in requirements if isinstance(each, str)}


def test_no_library_of_an_extra_is_installed_unasked() -> None:
    extras = PROJECT["project"]["optional-dependencies"]
    assert {"dxf", "xlsx"} <= set(extras)
    always = names(PROJECT["project"]["dependencies"])
    for extra, requirements in extras.items():
        assert not names(requirements) & always, extra
    makefile = (ROOT / "Makefile").read_text("utf-8")
    ready = makefile[makefile.index(".venv/.ready:") : makefile.index(".venv/.dev:")]
    assert "-e .\n" in ready
    assert "[" not in ready and "--group" not in ready


def test_the_tests_have_the_library_of_every_extra_and_its_version_is_pinned() -> None:
    groups = PROJECT["dependency-groups"]
    dev = names(groups["dev"])
    included = {each["include-group"] for each in groups["dev"] if isinstance(each, dict)}
    for group in included:
        dev |= names(groups[group])
    pinned = {line.partition("==")[0] for line in (ROOT / "constraints.txt").read_text("utf-8").splitlines()}
    for extra, requirements in PROJECT["project"]["optional-dependencies"].items():
        assert names(requirements) <= dev, extra
        assert names(requirements) <= pinned, extra
    assert dev <= pinned


def test_pins_hold_no_address() -> None:
    assert "://" not in (ROOT / "constraints.txt").read_text("utf-8")
