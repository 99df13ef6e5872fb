"""The page as a browser lays it out: nothing runs out of a phone or tablet held upright, and targets are large."""

import shutil
import subprocess
from collections.abc import Iterator
from html import escape, unescape
from json import loads
from pathlib import Path
from typing import Any

import pytest

from standfast.foreman.demo import write_demo
from standfast.foreman.pack import papers
from standfast.foreman.plan import make_plan
from standfast.paper.html import html

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
MEASURE = """
const frame = document.querySelector("iframe");
frame.addEventListener("load", () => {
  const page = frame.contentDocument, root = page.documentElement;
  const small = [...page.querySelectorAll("input, summary, nav a, label.tick")].filter(each => {
    const box = (each.type === "checkbox" ? each.closest("label") : each).getBoundingClientRect();
    return box.width > 0 && (box.height < 48 || box.width < 48);
  });
  const wide = [...page.querySelectorAll("body *")].filter(each =>
    each.getBoundingClientRect().right > root.clientWidth + 1 && !each.closest("svg") && !each.closest("thead"));
  document.title = JSON.stringify({
    scroll: root.scrollWidth, client: root.clientWidth, small: small.length,
    wide: wide.slice(0, 5).map(each => each.outerHTML.slice(0, 160)),
    steps: page.querySelectorAll("article").length, shown: page.querySelectorAll("figure svg").length,
  });
});
"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    folder: Path = tmp_path_factory.mktemp("one-wall")
    orders = papers(make_plan(write_demo("one-wall", folder)), ("es",)).work_orders.documents
    return {name: html(document) for name, document in orders.items()}


def measured(page: str, width: int, folder: Path) -> dict[str, Any]:
    """What a browser finds on a page of a width in CSS pixels."""
    frame = f'<iframe style="width:{width}px;height:900px;border:0" srcdoc="{escape(page)}"></iframe>'
    path = folder / "measured.html"
    path.write_text(
        f"<!doctype html><meta charset='utf-8'><title>none</title>{frame}<script>{MEASURE}</script>", "utf-8"
    )
    command = [
        str(CHROMIUM), "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
        f"--user-data-dir={folder}/profile",
        "--virtual-time-budget=15000", "--dump-dom", path.as_uri(),
    ]  # fmt: skip
    told = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True).stdout
    title = unescape(told.partition("<title>")[2].partition("</title>")[0])
    found: dict[str, Any] = loads(title)
    return found


@pytest.mark.skipif(CHROMIUM is None, reason="no browser is installed here")
@pytest.mark.parametrize("width", [390, 800])
def test_nothing_runs_out_of_the_page_and_every_target_is_large(
    pages: dict[str, str], width: int, tmp_path: Path
) -> None:
    for page in pages.values():
        found = measured(page, width, tmp_path)
        assert found["steps"] > 40 and found["shown"] > 5
        assert found["scroll"] <= found["client"], found["wide"]
        assert not found["wide"]
        assert found["small"] == 0


def luminance(colour: str) -> float:
    """Relative luminance of ``#rrggbb``, WCAG 2.2."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def colours(css: str) -> Iterator[tuple[str, str, str]]:
    """Each rule that sets both letters and ground, with the two."""
    for rule in css.split("}"):
        name, _, body = rule.partition("{")
        said = {key.strip(): value.strip() for key, _, value in (each.partition(":") for each in body.split(";"))}
        if said.get("color", "").startswith("#") and said.get("background", "").startswith("#"):
            yield name.strip(), said["color"], said["background"]


def test_letters_stand_out_in_sunlight(pages: dict[str, str]) -> None:
    def whole(colour: str) -> str:
        return colour if len(colour) == 7 else "#" + "".join(2 * each for each in colour[1:])

    css = pages["work-order"].partition("<style>")[2].partition("</style>")[0]
    pairs = [
        *colours(css),
        ("caution", "#000", "#fff3b0"),
        ("mark of a bar", "#ffd400", "#000"),
        ("link", "#003a8c", "#fff"),
    ]
    assert len(pairs) >= 6
    for name, *pair in pairs:
        assert all(each in css for each in pair)
        dark, light = sorted(luminance(whole(each)) for each in pair)
        assert (light + 0.05) / (dark + 0.05) >= 7, name
