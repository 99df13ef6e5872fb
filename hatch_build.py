"""Fetches the browser modules of the field pages when the package is built: few files, pinned in web/package-lock.json.

They are copied into the git-ignored folder `LIB` beside the pages, with a stamp of what they were made from, so that it
happens once. An sdist and a wheel hold them, so a wheel made from an sdist needs no npm.
"""

import shutil
import subprocess
import tempfile
from hashlib import sha256
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

LIB = Path("src/standfast/web/field/static/lib")
AXE = Path("tests/web/axe")
FILES = {
    "preact/dist/preact.mjs": "preact.js",
    "preact/hooks/dist/hooks.mjs": "hooks.js",
    "preact/LICENSE": "LICENSE-preact.txt",
    "htm/dist/htm.mjs": "htm.js",
    "htm/LICENSE": "LICENSE-htm.txt",
    "zxing-wasm/dist/es/share.js": "zxing/share.js",
    "zxing-wasm/dist/es/full/index.js": "zxing/full/index.js",
    "zxing-wasm/dist/full/zxing_full.wasm": "zxing/zxing_full.wasm",
    "zxing-wasm/LICENSE": "LICENSE-zxing-wasm.txt",
}
"""File of a package, and its name in `LIB`."""
FOR_TESTS = {"axe-core/axe.min.js": "axe.min.js", "axe-core/LICENSE": "LICENSE.txt"}
BARE, NEAR = 'from"preact"', 'from"./preact.js"'
"""An import by package name, and by place: a page without inline script can have no import map."""
HOW = "Install Node 20 with npm, see that its registry can be reached, and build again."


class Missing(Exception):
    """The browser modules are not there and could not be fetched: one sentence that says why."""


class FieldModules(BuildHookInterface[Any]):
    """Runs before every build; does nothing where the files are there and their stamp agrees."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Fetch what is missing. An editable install passes without it; `standfast serve` then says what is missing."""
        editable = version == "editable"
        try:
            fetch(Path(self.root), tests=editable)
        except Missing as error:
            if not editable:
                raise SystemExit(f"standfast cannot be built: {error} {HOW}") from None
            self.app.display_warning(f"The field pages will not be served: {error} {HOW}")


def fetch(root: Path, *, tests: bool) -> None:
    """See that the modules of the lock file lie where the pages look for them.

    Args:
        root: folder of the project.
        tests: also what the tests of the pages use.

    Raises:
        Missing: where npm is needed and is not there, or does not bring a file.
    """
    wanted = [(LIB, FILES), (AXE, FOR_TESTS)] if tests and (root / "tests").is_dir() else [(LIB, FILES)]
    stamp = _stamp(root)
    if all(_is_there(root / folder, files, stamp) for folder, files in wanted):
        return
    npm = shutil.which("npm")
    if npm is None:
        raise Missing("the browser modules of the field pages are fetched by npm, which is not installed.")
    with tempfile.TemporaryDirectory() as made:
        work = Path(made)
        for name in ("package.json", "package-lock.json", ".npmrc"):
            shutil.copy(root / "web" / name, work / name)
        call = [npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"]
        done = subprocess.run(call, cwd=work, capture_output=True, text=True, check=False)
        if done.returncode:
            raise Missing(f"npm could not fetch the browser modules of the field pages ({_first(done.stderr)}).")
        for folder, files in wanted:
            _copy(work / "node_modules", root / folder, files, stamp)


def _stamp(root: Path) -> str:
    made_from = [(root / "web" / "package-lock.json").read_bytes(), repr((FILES, FOR_TESTS, BARE, NEAR)).encode()]
    return sha256(b"\0".join(made_from)).hexdigest()


def _is_there(folder: Path, files: dict[str, str], stamp: str) -> bool:
    kept = folder / "stamp.txt"
    return kept.is_file() and kept.read_text() == stamp and all((folder / name).is_file() for name in files.values())


def _copy(modules: Path, folder: Path, files: dict[str, str], stamp: str) -> None:
    shutil.rmtree(folder, ignore_errors=True)
    for source, name in files.items():
        if not (modules / source).is_file():
            raise Missing(f"the package holds no file {source} any more.")
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        if target.suffix == ".js":
            text = (modules / source).read_text("utf-8").replace(BARE, NEAR)
            target.write_text(text, "utf-8")
        else:
            shutil.copyfile(modules / source, target)
    (folder / "stamp.txt").write_text(stamp)


def _first(said: str) -> str:
    lines = [line.removeprefix("npm error").strip() for line in said.splitlines()]
    return next((line for line in lines if line and not line.startswith("code ")), "it said nothing")
