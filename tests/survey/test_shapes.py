"""Outlines against an independent library of plane geometry."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from standfast.survey.shapes import flaw

CORNERS = st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), min_size=3, max_size=7)


@given(CORNERS)
def test_an_outline_without_flaw_is_a_valid_polygon_and_no_other(corners: list[tuple[int, int]]) -> None:
    shape = Polygon(corners)
    simple = shape.is_valid and shape.area > 0 and len(set(corners)) == len(corners)
    assert (flaw([(Fraction(x), Fraction(y)) for x, y in corners]) == "") == simple


@given(CORNERS, st.integers(0, 6))
def test_where_an_outline_begins_and_which_way_it_goes_does_not_matter(
    corners: list[tuple[int, int]], start: int
) -> None:
    points = [(Fraction(x), Fraction(y)) for x, y in corners]
    turned = points[start % len(points) :] + points[: start % len(points)]
    assert (flaw(points) == "") == (flaw(turned) == "") == (flaw(points[::-1]) == "")
