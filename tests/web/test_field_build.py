"""The browser modules of the field pages: fetched once, pinned, without an address, and missed in one sentence."""

import json
import shutil
import sys
from collections.abc import Iterator
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType
from typing import Any, Generic, TypeVar

import pytest

ROOT = Path(__file__).parents[2]
PLUGIN = "hatchling.builders.hooks.plugin.interface"


class Said:
    """Keeps what a build warns of."""

    def __init__(self) -> None:
        self.warnings: list[str] = []

    def display_warning(self, text: str) -> None:
        self.warnings.append(text)


@pytest.fixture
def hook(monkeypatch: pytest.MonkeyPatch) -> Iterator[ModuleType]:
    """The build hook; the builder that calls it is no library of ours, so the class it fills in is stood in for."""

    class Interface(Generic[TypeVar("T")]):  # type: ignore[misc]
        pass

    for name in [PLUGIN.rsplit(".", each)[0] for each in range(4, -1, -1)]:
        monkeypatch.setitem(sys.modules, name, ModuleType(name))
    sys.modules[PLUGIN].BuildHookInterface = Interface  # type: ignore[attr-defined]
    spec = spec_from_file_location("hatch_build", ROOT / "hatch_build.py")
    assert spec and spec.loader
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    yield module


def builds(hook: ModuleType, root: Path, version: str) -> Said:
    """Run the hook for a build."""
    made: Any = object.__new__(hook.FieldModules)
    made.root, made.app = str(root), Said()
    made.initialize(version, {})
    said: Said = made.app
    return said


@pytest.fixture
def bare(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A clone that was never built, on a machine without npm."""
    shutil.copytree(ROOT / "web", tmp_path / "web")
    monkeypatch.setenv("PATH", str(tmp_path))
    return tmp_path


def test_a_wheel_without_npm_stops_with_one_sentence_that_says_what_to_do(hook: ModuleType, bare: Path) -> None:
    with pytest.raises(SystemExit) as stopped:
        builds(hook, bare, "standard")
    assert "npm, which is not installed" in str(stopped.value)
    assert "\n" not in str(stopped.value)


def test_an_editable_install_without_npm_passes_and_says_what_will_not_be_served(hook: ModuleType, bare: Path) -> None:
    said = builds(hook, bare, "editable")
    assert [text for text in said.warnings if "field pages will not be served" in text]
    assert not (bare / hook.LIB).exists()


def test_what_was_fetched_once_is_not_fetched_again_and_a_lost_file_is_missed(hook: ModuleType, bare: Path) -> None:
    shutil.copytree(ROOT / hook.LIB, bare / hook.LIB)
    assert builds(hook, bare, "standard").warnings == []
    (bare / hook.LIB / "preact.js").unlink()
    with pytest.raises(SystemExit):
        builds(hook, bare, "standard")


def test_another_lock_file_asks_for_its_own_modules(hook: ModuleType, bare: Path) -> None:
    shutil.copytree(ROOT / hook.LIB, bare / hook.LIB)
    lock = bare / "web" / "package-lock.json"
    lock.write_text(lock.read_text("utf-8").replace("11.2.0", "11.2.1"), "utf-8")
    with pytest.raises(SystemExit):
        builds(hook, bare, "standard")


def test_the_lock_pins_every_package_exactly_and_holds_no_address_of_a_registry() -> None:
    asked = json.loads((ROOT / "web" / "package.json").read_text("utf-8"))
    locked = json.loads((ROOT / "web" / "package-lock.json").read_text("utf-8"))["packages"]
    for name, version in {**asked["dependencies"], **asked["devDependencies"]}.items():
        assert locked[f"node_modules/{name}"]["version"] == version
    for name, package in locked.items():
        assert "resolved" not in package, name
        assert not name or package["integrity"].startswith("sha512-"), name
    assert "omit-lockfile-registry-resolved=true" in (ROOT / "web" / ".npmrc").read_text("utf-8").splitlines()


def test_no_module_that_was_fetched_imports_by_a_name_that_a_page_cannot_know(hook: ModuleType) -> None:
    for path in (ROOT / hook.LIB).rglob("*.js"):
        assert 'from"preact"' not in path.read_text("utf-8"), path.name


def test_a_server_without_the_modules_says_so_in_one_sentence(tmp_path: Path) -> None:
    from standfast.web.shipped import lacking

    assert lacking() == ""
    assert "install Node 20 with npm" in lacking(tmp_path)
    assert "\n" not in lacking(tmp_path)
