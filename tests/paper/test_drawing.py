"""Drawings: what a draughtsman would not sign is found, and what is drawn is free of it."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.paper import dimension, furniture, labels
from standfast.paper.board import Board, Box, Spot
from standfast.paper.drawing import ARCHITECT, DoesNotFit, Drawing
from standfast.paper.sheets import ANSI_B
from standfast.paper.svg import Lettering


def wall(width: float = 6100, battery_at: float = 2700) -> Drawing:
    drawing = Drawing.fitted("Wall", "A wall", ANSI_B.drawing, (0, 0, width, 2600), (30, 75, 30, 26))
    drawing.rect(0, 0, width, 2600, "heavy")
    drawing.zone([[(0, 0), (1000, 0), (1000, 2600), (0, 2600)]], "diagonal", "too near the door")
    drawing.rect(battery_at, 900, 640, 1100, "medium", "white")
    labels.inside(drawing, (battery_at, 900, battery_at + 640, 2000), "BATTERY 1\n114 kg")
    holes = [(battery_at + x, y) for x in (78, 484.4) for y in (1000, 1900)]
    for index, hole in enumerate(holes):
        drawing.cross(hole)
        labels.ring(drawing, hole, f"H{index + 1}")
    dimension.across(drawing, [0, battery_at, battery_at + 78, battery_at + 484.4, battery_at + 640, width], 0)
    dimension.upward(drawing, [0, 900, 1000, 1900, 2000, 2600], 0)
    furniture.foot(drawing)
    furniture.north(drawing, 12, 318, 228)
    return drawing


def test_a_wall_is_drawn_without_flaws_and_with_both_units() -> None:
    drawing = wall()
    svg = drawing.svg()
    assert drawing.flaws() == []
    assert "25-3/16 in" not in svg  # the battery's own width is cut by its holes here
    assert "16 in" in svg and "406 mm" in svg
    assert "3-1/16 in (78 mm)" in svg
    assert str(drawing.scale) == "1/2 in = 1 ft (1:24)"


def test_the_same_wall_gives_the_same_bytes() -> None:
    assert wall().svg() == wall().svg()


@settings(deadline=None, derandomize=True, max_examples=25)
@given(st.integers(3000, 14000), st.integers(0, 100))
def test_no_text_overlaps_wherever_the_battery_hangs(width: int, share: int) -> None:
    drawing = wall(width, (width - 640) * share / 100)
    drawing.svg()
    assert drawing.flaws() == []


def test_flaws_are_found() -> None:
    drawing = Drawing("Flawed", "", 100, 50)
    drawing.text((10, 20), "one text")
    drawing.text((12, 21), "another text")
    drawing.text((90, 40), "far too long for the sheet")
    drawing.line((0, 0), (120, 0))
    found = "\n".join(drawing.flaws())
    assert "'one text' overlaps 'another text'" in found
    assert "'far too long for the sheet' leaves the sheet" in found
    assert "a line leaves the sheet at 120.0, 50.0" in found


def test_lettering_under_the_least_height_is_refused() -> None:
    with pytest.raises(DoesNotFit, match=r"asked 2\.4 mm high, the least is 2\.5 mm"):
        Drawing("Small", "", 100, 50).text((10, 20), "small print", 2.4)


def test_the_largest_scale_that_fits_is_taken() -> None:
    for wide, ratio in ((2400, 12), (2500, 16), (100000, 0)):
        if ratio:
            assert Drawing.fitted("W", "", (200, 100), (0, 0, wide, 100), (0, 0, 0, 0)).scale.ratio == ratio
        else:
            with pytest.raises(DoesNotFit, match="at any scale"):
                Drawing.fitted("W", "", (200, 100), (0, 0, wide, 100), (0, 0, 0, 0), ARCHITECT)


def test_lettering_is_as_high_as_it_says() -> None:
    drawing = Drawing("T", "", 100, 50)
    drawing.text((10, 20), "H")
    size = float(re.findall(r'font-size="([\d.]+)"', drawing.svg())[0])
    assert size * 0.66 == pytest.approx(2.5, abs=0.005)


def test_a_text_without_room_becomes_a_note_with_its_mark() -> None:
    drawing = Drawing("Full", "", 40, 30)
    labels.note(drawing, (20, 15), "words that are much too long for this small piece of paper", width=200)
    svg = drawing.svg()
    assert [(note.mark, note.text) for note in drawing.notes] == [
        ("1", "words that are much too long for this small piece of paper")
    ]
    assert ">1</text>" in svg and "words" not in svg


def test_a_drawing_without_any_room_is_refused() -> None:
    drawing = Drawing("Full", "", 40, 30)
    drawing.keep_clear(0, 0, 40, 30)
    labels.note(drawing, (20, 15), "words")
    with pytest.raises(DoesNotFit, match="no room for 'words'"):
        drawing.svg()


def test_hatches_stay_inside_and_leave_holes_out() -> None:
    drawing = Drawing("H", "", 100, 100)
    drawing.zone([[(10, 10), (90, 10), (90, 90), (10, 90)], [(40, 40), (60, 40), (60, 60), (40, 60)]], "cross", "zone")
    lines = [mark.points for mark in drawing._back if not mark.closed]
    assert len(lines) > 40
    for (ax, ay), (bx, by) in lines:
        assert all(9.9 <= each <= 90.1 for each in (ax, ay, bx, by))
        x, y = (ax + bx) / 2, (ay + by) / 2
        assert not (40.1 < x < 59.9 and 40.1 < y < 59.9)


def test_a_white_area_hides_the_lines_drawn_before_it() -> None:
    board = Board(Box(0, 0, 100, 100))
    board.draw([(0, 50), (100, 50)])
    assert board.crossed(Box(45, 45, 55, 55)) == 1
    board.cover(Box(40, 40, 60, 60))
    assert board.crossed(Box(45, 45, 55, 55)) == 0
    assert board.crossed(Box(20, 45, 30, 55)) == 1


def test_the_spot_that_crosses_least_wins_and_a_taken_one_never() -> None:
    board = Board(Box(0, 0, 100, 100))
    board.draw([(10, 0), (10, 100)])
    board.block(Box(40, 0, 60, 100))
    crossing, taken, free = Box(5, 5, 15, 10), Box(45, 5, 55, 10), Box(70, 5, 80, 10)
    assert board.best([Spot(crossing), Spot(taken), Spot(free, (), 5)]) == Spot(free, (), 5)
    assert board.best([Spot(taken)]) is None
    assert board.best([Spot(free, ((20, 7), (70, 7)))]) is None  # its leader would run through the taken box


def test_markup_in_a_text_stays_text() -> None:
    drawing = Drawing('<b> & "x"', "<script>", 100, 50)
    drawing.letter(Lettering((10, 20), "<tspan>5 < 6 & 7", 2.5))
    svg = drawing.svg()
    assert "&lt;tspan&gt;5 &lt; 6 &amp; 7" in svg and "<script>" not in svg
