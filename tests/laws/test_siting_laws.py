"""Laws of siting: symmetry, monotony, and distances against an independent library."""

import math

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from standfast.design.siting.layout import Facts, Layout, Thing, Unit
from standfast.design.siting.rules import judge
from standfast.design.siting.solid import Solid, Span, clear_mm, rectangular_mm, square
from standfast.sheet import given as stated
from standfast.shelf import adoption

LAW = settings(deadline=None, derandomize=True, max_examples=150)
AT = st.integers(-60_000, 60_000)
SIZE = st.integers(0, 30_000)
spans = st.builds(lambda low, size: Span(low, low + size), AT, SIZE)
boxes = st.builds(lambda x, z: Solid(x=x, z=z), spans, spans)
US = adoption("us-2021")


@LAW
@given(boxes, boxes)
def test_clear_distance_is_the_one_of_an_independent_library(a: Solid, b: Solid) -> None:
    assert a.x and a.z and b.x and b.z
    one, other = (box(each.x.low, each.z.low, each.x.high, each.z.high) for each in (a, b))
    assert math.isclose(clear_mm(a, b), one.distance(other) / 10, rel_tol=1e-12, abs_tol=1e-9)
    assert clear_mm(a, b) == clear_mm(b, a)
    assert rectangular_mm(a, b) <= clear_mm(a, b) <= rectangular_mm(a, b) * math.sqrt(2) + 1e-9


@LAW
@given(boxes, boxes, st.integers(0, 30_000))
def test_the_root_decides_as_the_whole_numbers_do(a: Solid, b: Solid, limit: int) -> None:
    assert (clear_mm(a, b) >= limit / 10) == (square(a, b) >= limit * limit)


def _mirrored(solid: Solid) -> Solid:
    return solid if solid.x is None else solid._replace(x=Span(-solid.x.high, -solid.x.low))


@LAW
@given(boxes, boxes, boxes, st.sampled_from(["true distance", "rectangle"]))
def test_a_mirrored_wall_has_mirrored_verdicts(unit: Solid, window: Solid, vent: Solid, shape: str) -> None:
    def verdicts(turn: bool) -> list[tuple[str, float | None]]:
        solids = [_mirrored(each) if turn else each for each in (unit, window, vent)]
        things = (
            Thing("window-1", "window", solids[1], leads_into_dwelling=True),
            Thing("vent-1", "gas regulator vent", solids[2]),
        )
        facts = Facts(zone_shape="rectangle" if shape == "rectangle" else "true distance")
        layout = Layout((Unit("unit-1", solids[0], place="exterior wall"),), things, facts)
        return [(check.verdict, check.margin) for check in judge(US, layout, ["opening-clearance", "gas-relief-vent"])]

    assert verdicts(False) == verdicts(True)


@LAW
@given(boxes, boxes, boxes, st.floats(1, 3000), st.floats(0, 3000))
def test_a_larger_spacing_never_frees_a_pair(a: Solid, b: Solid, c: Solid, spacing: float, more: float) -> None:
    def refused(apart: float) -> int:
        facts = Facts(listed_spacing=stated("s", apart, "mm", "test"), spacing_test_accepted=True)
        units = tuple(Unit(f"unit-{at}", each) for at, each in enumerate((a, b, c)))
        return sum(check.verdict == "fail" for check in judge(US, Layout(units, (), facts), ["unit-spacing"]))

    assert refused(spacing) <= refused(spacing + more)
