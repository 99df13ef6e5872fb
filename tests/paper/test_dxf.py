"""DXF: the marks of the SVG at the same places, read back by the library that others read it with."""

import io
import re
import sys
from math import cos, isclose, radians, sin
from xml.etree import ElementTree

import pytest
from ezdxf.document import Drawing as File
from ezdxf.filemanagement import read
from ezdxf.tools.text import plain_text
from hypothesis import given, settings
from hypothesis import strategies as st
from test_drawing import wall

from standfast.paper import dxf, labels
from standfast.paper.drawing import Drawing
from standfast.paper.extras import NotInstalled
from standfast.paper.hatching import HATCHES, HatchName, hatch
from standfast.paper.svg import PENS, Path

SVG = "{http://www.w3.org/2000/svg}"


def opened(drawing: Drawing) -> File:
    return read(io.StringIO(drawing.dxf()))


def of_kind(file: File, kind: str) -> list[object]:
    return list(file.modelspace().query(kind))


def test_a_wall_is_read_back_without_an_error_to_mend() -> None:
    found = opened(wall()).audit()
    assert found.errors == []
    assert found.fixes == []


def test_every_text_of_the_svg_stands_at_the_same_place() -> None:
    drawing = wall()
    shown = sorted(each.text or "" for each in ElementTree.fromstring(drawing.svg()).iter(f"{SVG}text"))
    file = opened(drawing)
    texts = file.modelspace().query("TEXT")
    assert sorted(each.dxf.text for each in texts) == shown
    assert "25-3/16 in" not in shown and "406 mm" in shown
    by_text = {each.dxf.text: each for each in texts}
    for box, mark in drawing.texts:
        entity = by_text[mark.text]
        if shown.count(mark.text) > 1:
            continue
        start, end = entity.dxf.insert, entity.dxf.align_point
        assert entity.dxf.height == mark.height
        if mark.turn:
            assert isclose(start.x, mark.at[0], abs_tol=1e-5)
            assert isclose(end.y - start.y, box.bottom - box.top, abs_tol=1e-5)
        else:
            assert isclose(start.x, box.left, abs_tol=1e-5) and isclose(end.x, box.right, abs_tol=1e-5)
            assert isclose(start.y, drawing.height - mark.at[1], abs_tol=1e-5)


def test_signs_that_dxf_reads_as_orders_are_shown() -> None:
    drawing = Drawing("Signs", "", 200, 50)
    for row, text in enumerate(("100%%d", "a^Ib", "125 % of 5 %", "Ω µ ² Ø é")):
        drawing.text((10, 10 * row), text)
    texts = opened(drawing).modelspace().query("TEXT")
    assert [plain_text(each.dxf.text) for each in texts] == ["100%%d", "a^Ib", "125 % of 5 %", "Ω μ ² Ø é"]


@settings(deadline=None, derandomize=True, max_examples=8)
@given(st.integers(3000, 14000), st.integers(0, 100))
def test_any_wall_is_read_back_without_an_error(width: int, share: int) -> None:
    found = opened(wall(width, (width - 640) * share / 100)).audit()
    assert (found.errors, found.fixes) == ([], [])


def test_every_line_of_the_svg_is_there_with_its_weight_as_layer() -> None:
    drawing = Drawing("Lines", "", 100, 50)
    for place, pen in enumerate(PENS):
        if pen != "none":
            drawing.line((10, 5 * place), (90, 5 * place), pen=pen)
    file = opened(drawing)
    lines = file.modelspace().query("LWPOLYLINE")
    assert len(lines) == len(PENS) - 1
    for place, (pen, (width, dashes)) in enumerate((pen, each) for pen, each in PENS.items() if pen != "none"):
        (line,) = (each for each in lines if each.dxf.layer == dxf.layer_of(pen))
        layer = file.layers.get(line.dxf.layer)
        assert layer.dxf.lineweight == round(width * 100)
        assert [tuple(point) for point in line.get_points("xy")] == [(10, 5 * place), (90, 5 * place)]
        pattern = file.linetypes.get(layer.dxf.linetype).pattern_tags.tags
        drawn = [tag.value for tag in pattern if tag.code == 49]
        assert [abs(each) for each in drawn] == list(dashes)


def test_circles_and_arcs_keep_their_side() -> None:
    drawing = Drawing("Round", "", 100, 50)
    drawing.circle((20, 30), 5)
    drawing.arc((60, 30), 10, 0, 90)
    drawing.dot((80, 10))
    file = opened(drawing)
    (circle,), (arc,), (dot,) = (of_kind(file, kind) for kind in ("CIRCLE", "ARC", "HATCH"))
    assert (tuple(circle.dxf.center)[:2], circle.dxf.radius) == ((20, 30), 5)  # type: ignore[attr-defined]
    start, end = arc.start_point, arc.end_point  # type: ignore[attr-defined]
    assert (round(start.x), round(start.y)) == (70, 30)
    assert (round(end.x), round(end.y)) == (60, 40)
    assert dot.has_solid_fill  # type: ignore[attr-defined]


def test_what_is_white_hides_what_is_behind_it_on_any_ground() -> None:
    drawing = Drawing("Mask", "", 100, 50)
    drawing.rect(10, 10, 20, 20, "medium", "white")
    (mask,) = of_kind(opened(drawing), "WIPEOUT")
    corners = {(round(x), round(y)) for x, y, *_ in mask.boundary_path_wcs()}  # type: ignore[attr-defined]
    assert corners == {(10, 10), (30, 10), (30, 30), (10, 30)}


@pytest.mark.parametrize("name", HATCHES)
def test_a_hatch_falls_where_the_svg_draws_it(name: HatchName) -> None:
    rings = [[(10.0, 5.0), (90.0, 5.0), (90.0, 45.0), (10.0, 45.0)]]
    height = 50.0
    drawn = hatch(rings, name)
    assert len(drawn) > 10
    families = dxf.pattern(name, height)
    for line in drawn:
        assert any(on_family(line, family, height) for family in families), line.points


def on_family(line: Path, family: tuple[float, dxf.Point, dxf.Point, list[float]], height: float) -> bool:
    """True where a line of the SVG lies on a line of a family of the pattern, and on its dashes."""
    angle, (bx, by), (ox, oy), dashes = family
    c, s = cos(radians(angle)), sin(radians(angle))
    across_one = -ox * s + oy * c
    for x, y in line.points:
        dx, dy = x - bx, height - y - by
        count = (-dx * s + dy * c) / across_one
        if not isclose(count, round(count), abs_tol=1e-6):
            return False
        if dashes:
            along = dx * c + dy * s - round(count) * (ox * c + oy * s)
            into = (along + 1e-6) % (dashes[0] - dashes[1])
            if into > dashes[0] + 2e-6:
                return False
    return True


def test_a_hatch_keeps_its_outline_and_its_hole() -> None:
    drawing = Drawing("H", "", 100, 100)
    drawing.zone([[(10, 10), (90, 10), (90, 90), (10, 90)], [(40, 40), (60, 40), (60, 60), (40, 60)]], "cross", "zone")
    file = opened(drawing)
    (found,) = of_kind(file, "HATCH")
    assert len(found.paths) == 2  # type: ignore[attr-defined]
    assert found.dxf.pattern_name == "SF-CROSS"  # type: ignore[attr-defined]
    assert len(of_kind(file, "LWPOLYLINE")) == 2


def test_a_text_without_room_stands_below_the_paper_with_its_mark() -> None:
    drawing = Drawing("Full", "", 40, 30)
    text = "words that are much too long for this small piece of paper"
    labels.note(drawing, (20, 15), text, width=200)
    texts = {each.dxf.text: each.dxf.insert.y for each in opened(drawing).modelspace().query("TEXT")}
    assert set(texts) == {"1", f"1  {text}"}
    assert texts[f"1  {text}"] < 0 < texts["1"]


def test_the_file_says_its_unit_its_scale_and_what_it_shows() -> None:
    file = opened(wall())
    facts = dict(file.header.custom_vars)
    assert facts == {
        "Title": "Wall", "Shows": "A wall", "Scale": "1/2 in = 1 ft (1:24)", "Unit": "mm on paper"
    }  # fmt: skip
    assert file.units == 4


def test_the_same_wall_gives_the_same_text_without_a_clock() -> None:
    one = wall().dxf()
    assert one == wall().dxf()
    years = set(re.findall(r"\b(20[0-9]{2})-\d\d-\d\d", one))
    assert years <= {"2000"}, years


def test_without_the_library_it_is_said_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in [each for each in sys.modules if each.partition(".")[0] == "ezdxf"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(NotInstalled, match="DXF needs ezdxf: install standfast with its extra dxf, or ezdxf beside it"):
        wall().dxf()
