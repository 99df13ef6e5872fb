"""One-line diagrams of installations of every kind: all on paper, nothing through a text, nothing crossed in vain."""

from collections.abc import Callable, Iterator

import pytest
import topologies
from test_one_line_order import random_house
from topologies import Made

from standfast.handover.drawings.one_line import _fitted, _grown, drawings
from standfast.handover.drawings.one_line_cut import MARK
from standfast.handover.drawings.one_line_order import arrange
from standfast.handover.drawings.one_line_told import OneLine, RunWords
from standfast.handover.drawings.one_line_tree import Node, Words
from standfast.paper.board import Box
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.svg import Path, Point

Maker = Callable[[], Made]


def names(maker: Maker) -> str:
    return maker.__name__


def struck(drawing: Drawing) -> Iterator[str]:
    """Texts that a line runs through; numbers of runs stand in rings of their own."""
    segments = [
        pair
        for _, marks in drawing._groups.values()
        for mark in marks
        if isinstance(mark, Path) and mark.pen != "none"
        for pair in zip(mark.points, [*mark.points[1:], *(mark.points[:1] if mark.closed else ())], strict=False)
    ]
    for box, text in drawing.texts:
        if not text.text.isdecimal() and any(_meets(box.grown(-0.4), *pair) for pair in segments):
            yield text.text


def _meets(box: Box, one: Point, two: Point) -> bool:
    (x1, y1), (x2, y2) = one, two
    if x1 != x2 and y1 != y2:
        return False  # blades and diagonals of symbols
    across = (min(x1, x2) < box.right and box.left < max(x1, x2)) or (x1 == x2 and box.left < x1 < box.right)
    up = (min(y1, y2) < box.bottom and box.top < max(y1, y2)) or (y1 == y2 and box.top < y1 < box.bottom)
    return across and up


@pytest.mark.parametrize("maker", topologies.ALL, ids=names)
def test_a_draughtsman_would_sign_it(maker: Maker) -> None:
    for drawing in drawings(maker().told()).values():
        assert drawing.flaws() == []
        assert list(struck(drawing)) == []
        assert not drawing.notes


@pytest.mark.parametrize("maker", topologies.ALL, ids=names)
def test_every_part_and_every_run_is_drawn(maker: Maker) -> None:
    facts = maker().told()
    made = drawings(facts)
    shown = " ".join(text.text for each in made.values() for _, text in each.texts)
    for part in facts.installation.parts.values():
        grouped = part.kind == "load" or any(each.kind == "load" for each, _ in facts.installation.beside(part.id))
        assert part.name in shown or grouped, part.name


@pytest.mark.parametrize("maker", topologies.ALL, ids=names)
def test_as_few_lines_cross_as_can(maker: Maker) -> None:
    assert arrange(_grown(maker().told(), 60.0)) <= 1


def placed(maker: Maker) -> dict[str, Node]:
    facts = maker().told()
    root = _fitted(lambda wide: _grown(facts, wide), (335.0, 251.0), 8.0)
    return {node.part.id: node for node in root.parts()}


def test_a_generator_stands_above_the_transfer_switch_and_not_below_it() -> None:
    nodes = placed(topologies.generator_at_a_transfer_switch)
    assert nodes["generator"].y > nodes["generator-breaker"].y > nodes["transfer"].y > nodes["backup"].y
    assert nodes["transfer"].feeds == 1
    shown = drawings(topologies.generator_at_a_transfer_switch().told())["one-line schedule"]
    assert "transfer switch" in " ".join(text.text for _, text in shown.texts)


def test_a_backup_panel_has_both_breakers_of_its_inverters_in_its_enclosure() -> None:
    nodes = placed(topologies.two_inverters_on_one_backup_panel)
    backup = nodes["backup"]
    assert nodes["output-1"].y > backup.y > nodes["output-2"].y
    assert nodes["output-2"] in backup.children and backup.inside


def test_a_diagram_of_many_panels_goes_on_on_further_sheets_each_once() -> None:
    made = topologies.service()
    above = "main"
    for n in range(1, 9):
        made.part(f"feeder-{n}", "breaker").part(f"panel-{n}", "busbar").chain(above, f"feeder-{n}", f"panel-{n}")
        made.part(f"inverter-{n}", "inverter").part(f"source-{n}", "breaker")
        made.chain(f"panel-{n}", f"source-{n}", f"inverter-{n}")
        above = f"panel-{n}"
    sheets = drawings(made.told())
    assert {"one-line", "one-line continued", "one-line continued 2"} <= set(sheets)
    shown = [text.text for each in sheets.values() for _, text in each.texts]
    for n in range(1, 9):
        assert sum(text in (f"(E) Inverter {n}", f"(N) Inverter {n}") for text in shown) == 1
    for number in range(2, 2 + sum("continued" in name for name in sheets)):
        assert f"continued on sheet E1.{number}" in shown
    assert not any(MARK in text for text in shown)


def test_what_is_joined_to_nothing_is_drawn_all_the_same() -> None:
    nodes = placed(topologies.not_joined)
    assert nodes["inverter"].link is None and nodes["battery"].link is not None


@pytest.mark.parametrize("seed", range(12))
def test_random_installations_are_drawn_without_a_flaw_or_refused(seed: int) -> None:
    house = random_house(seed, 5 + seed % 8, seed % 4)
    said = ("60 A, interrupting 10 kA", "label L3")
    words = {part.id: Words(part.name, said) for part in house.parts.values()}
    runs = [RunWords((link.id,), link.id, ("2 × 6 AWG",)) for link in house.links]
    try:
        made = drawings(OneLine(house, words, runs, (), ()))
    except DoesNotFit as refusal:
        assert "wide" in str(refusal) and seed == 7  # of these one alone is too wide for its links
        return
    shown = [text.text for each in made.values() for _, text in each.texts]
    for drawing in made.values():
        assert drawing.flaws() == []
        assert list(struck(drawing)) == []
    for part in house.parts.values():
        assert any(text.endswith(f") {part.name}") for text in shown)
