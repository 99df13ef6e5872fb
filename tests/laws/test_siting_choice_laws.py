"""Laws of choosing a place: the fast form decides as the checks do, nothing on a grid beats it, mirrors mirror."""

import os
from collections.abc import Callable

from hypothesis import given, settings
from hypothesis import strategies as st

from standfast.design.siting.asking import bound
from standfast.design.siting.choosing import Question, cheapest, nearest
from standfast.design.siting.keepouts import ALL, SHAPES, Keepout, keepouts
from standfast.design.siting.layout import Facts, Layout, Maker, Room, Thing, ThingKind, Unit
from standfast.design.siting.rules import judge
from standfast.design.siting.ruling import rule_of
from standfast.design.siting.solid import Solid, Span
from standfast.design.siting.whole import in_force
from standfast.sheet import Value, missing
from standfast.sheet import given as stated
from standfast.shelf import adoption

LAW = settings(deadline=None, derandomize=True, max_examples=80)
PLACES = 1000 if "STANDFAST_CASES" in os.environ else 250
"""Places at which keep-outs and checks are compared; `make oracle` takes all of them."""
US = adoption("us-2021")
CASES = [id for id in SHAPES if id in in_force(US, Layout(()))]
WALL, HEIGHT = 60_000, 27_000


def mm(number: float) -> Value:
    return stated("x", number, "mm", "law")


def nothing() -> Value:
    return missing("x", "mm", "not stated")


def maker(side: float, above: float, least: float) -> Maker:
    clear = {"left": side, "right": side, "above": above, "below": above, "front": 900.0}
    free = {name: mm(each) for name, each in clear.items()}
    words = stated("w", "indoors and outdoors", "", "law")
    return Maker(free, mm(least), mm(1300), mm(900), words, mm(-20), mm(50), words, words, ((1000, 9000), (5000, 9000)))


def room(protection: str) -> Room:
    return Room(nothing(), True, stated("protection", protection, "", "law"), nothing(), mm(40), mm(0))


spot = st.tuples(st.integers(0, WALL // 50), st.integers(0, 400)).map(lambda at: (at[0] * 50, at[1] * 50))
KINDS: list[ThingKind] = ["panel", "water heater", "socket outlet", "window", "door", "gas regulator vent", "shelf"]


@st.composite
def things(draw: st.DrawFn) -> tuple[Thing, ...]:
    found = []
    for number in range(draw(st.integers(1, 3))):
        kind = draw(st.sampled_from(KINDS))
        left, bottom = draw(spot)
        wide, high = draw(st.integers(20, 200)) * 50, draw(st.integers(10, 200)) * 50
        flat = kind in ("window", "door")
        deep = 0 if flat else draw(st.integers(0, 100)) * 50
        out = draw(st.sampled_from([0, 0, 3000])) if kind == "gas regulator vent" else 0
        solid = Solid(Span(left, left + wide), Span(out, out + deep), Span(bottom, bottom + high))
        leads = draw(st.booleans()) if flat else None
        found.append(Thing(f"thing-{number}", kind, solid, leads_into_dwelling=leads))
    if draw(st.booleans()):
        hinge, opens = draw(st.integers(0, WALL)), draw(st.integers(0, 9000))
        way = "plus x" if draw(st.booleans()) else "minus x"
        at = Solid(Span(hinge, hinge), Span(opens, opens), Span(0, 20_000))
        leaf = Thing("leaf", "door leaf", at, leaf=8000, closed_towards="minus y", opens_towards=way)
        found.append(leaf)
    return tuple(found)


@st.composite
def layouts(draw: st.DrawFn) -> Layout:
    unit = Unit(
        "battery-1",
        Solid(None, Span(0, 1900), Span(0, 9000)),
        6000,
        place=draw(st.sampled_from(["attached garage", "exterior wall"])),
        maker=maker(*(draw(st.integers(0, most)) * 10.0 for most in (20, 20, 40))),
    )
    facts = Facts(
        garage_wall=draw(st.sampled_from(["back", "side"])),
        flood_hazard_area=False,
        ceiling=HEIGHT,
        wall_from=0,
        wall_to=WALL,
        placing=draw(st.sampled_from([mm(10), mm(10), None])),
    )
    return Layout((unit,), draw(things()), facts, room(draw(st.sampled_from(["none", "bollard"]))))


def at(layout: Layout, left: int, bottom: int) -> Layout:
    (unit,) = layout.units
    solid = Solid(Span(left, left + unit.width), unit.solid.y, Span(bottom, bottom + 9000))
    return layout._replace(units=(unit._replace(solid=solid),))


def question(layout: Layout, target: tuple[int, int] | None = None) -> Question:
    (unit,) = layout.units
    return Question(unit.width, 9000, keepouts(in_force(US, layout), layout, unit), target)


def refused_by_checks(layout: Layout) -> set[str]:
    protected = layout.room is not None and layout.room.protection.word != "none"
    found = [check for check in judge(US, layout, CASES) if check.verdict == "fail" or check.condition]
    return {rule_of(check) for check in found if not (check.condition and protected)}


def near_an_edge(data: st.DataObject, asked: Question) -> tuple[int, int]:
    """A place near the edges of two keep-outs, where verdicts change."""
    by = st.sampled_from([-60, -1, 0, 1, 60])
    one, other = (data.draw(st.sampled_from(asked.keepouts)) for _ in range(2))
    lefts = [one.x.low - asked.width, one.x.high, one.x.high + one.reach, 30_000]
    bottoms = [other.z.low - asked.height, other.z.high, 12_000, 5_000]
    left, bottom = (data.draw(st.sampled_from([at for at in line if abs(at) < 10**6])) for line in (lefts, bottoms))
    return left + data.draw(by), bottom + data.draw(by)


@settings(LAW, max_examples=PLACES)
@given(layouts(), st.data())
def test_keep_outs_refuse_exactly_what_the_checks_refuse(layout: Layout, data: st.DataObject) -> None:
    asked = question(layout)
    where = near_an_edge(data, asked)
    already = refused_by_checks(at(layout, 10**7, 15_000)) & {"working-width"}
    refusing, refused = {each.rule for each in asked.refusing(*where)}, refused_by_checks(at(layout, *where))
    if 0 <= where[0] <= WALL - asked.width:
        assert refusing - already == refused - already
    else:
        assert "overlap" in refusing and "overlap" in refused


@LAW
@given(layouts(), spot, st.integers(0, WALL), st.integers(0, HEIGHT))
def test_the_chosen_place_is_free_and_no_other_free_place_is_cheaper(
    layout: Layout, other: tuple[int, int], x: int, z: int
) -> None:
    asked = question(layout, (x, z))
    best = cheapest(asked)
    if best is None:
        assert asked.refusing(*other)
    else:
        assert asked.free(best.left, best.bottom)
        assert best.cost == asked.cost(best.left, best.bottom)
        if asked.free(*other):
            assert best.cost <= asked.cost(*other)


GRID = 100
cells = st.integers(0, 100)


@st.composite
def lattice(draw: st.DrawFn) -> Question:
    """A small wall on which every length is a multiple of 10 mm, so that a grid of 10 mm holds every vertex."""
    ends = [Keepout("end", "e", Span(-(10**9), 0), ALL), Keepout("end", "e", Span(4000, 10**9), ALL)]
    ends += [Keepout("end", "e", ALL, Span(-(10**9), 0)), Keepout("end", "e", ALL, Span(3000, 10**9))]
    for _ in range(draw(st.integers(0, 8))):
        x, z = draw(cells) * 40 // GRID * GRID, draw(cells) * 30 // GRID * GRID
        size = draw(st.tuples(st.integers(1, 12), st.integers(1, 12)))
        ends.append(Keepout("thing", "t", Span(x, x + size[0] * GRID), Span(z, z + size[1] * GRID)))
    studs = tuple(range(draw(st.integers(0, 4)) * GRID, 4000, 4 * GRID))
    target = (draw(cells) * 40 // GRID * GRID, draw(cells) * 30 // GRID * GRID)
    wide = draw(st.integers(2, 6)) * 2 * GRID
    asked = Question(wide, draw(st.integers(1, 6)) * 2 * GRID, ends, target, studs, (GRID, wide - GRID), 0, 5000, 10)
    return asked._replace(off_allowed=draw(st.sampled_from([0, GRID])))


@LAW
@given(lattice())
def test_a_grid_that_holds_every_vertex_finds_the_same_cost(asked: Question) -> None:
    places = [(x, z) for x in range(0, 4001, GRID) for z in range(0, 3001, GRID)]
    costs = [asked.cost(*each) for each in places if asked.free(*each)]
    best = cheapest(asked)
    assert (best.cost if best else None) == min(costs, default=None)


@LAW
@given(layouts(), spot, st.floats(0, 500))
def test_a_larger_distance_never_frees_a_place(layout: Layout, where: tuple[int, int], more: float) -> None:
    (unit,) = layout.units
    assert unit.maker is not None
    wider = {side: mm(each.quantity + more) for side, each in unit.maker.clearances.items()}
    larger = layout._replace(units=(unit._replace(maker=unit.maker._replace(clearances=wider)),))
    asked, stricter = question(layout), question(larger)
    assert len(stricter.refusing(*where)) >= len(asked.refusing(*where))
    assert asked.free(*where) or not stricter.free(*where)


def _mirror(layout: Layout) -> Layout:
    def turned(solid: Solid) -> Solid:
        return solid if solid.x is None else solid._replace(x=Span(WALL - solid.x.high, WALL - solid.x.low))

    turn: Callable[[Thing], Thing] = lambda each: each._replace(  # noqa: E731
        solid=turned(each.solid),
        opens_towards={"plus x": "minus x", "minus x": "plus x"}.get(each.opens_towards or "", each.opens_towards),
    )
    return layout._replace(things=tuple(turn(each) for each in layout.things))


@LAW
@given(layouts(), spot)
def test_a_mirrored_wall_has_a_mirrored_free_space(layout: Layout, where: tuple[int, int]) -> None:
    (unit,) = layout.units
    assert question(layout).free(*where) == question(_mirror(layout)).free(WALL - where[0] - unit.width, where[1])


@LAW
@given(layouts(), spot)
def test_the_way_to_a_free_place_is_the_shortest_of_those_tried(layout: Layout, where: tuple[int, int]) -> None:
    asked = question(layout)
    near = nearest(asked, 20_000, 10_000)
    if near is None or not asked.free(*where):
        assert near is not None or asked.refusing(*where)
        return
    way = abs(near.left - 20_000) + abs(near.bottom - 10_000)
    assert way <= abs(where[0] - 20_000) + abs(where[1] - 10_000) + 2


def test_every_shape_belongs_to_a_rule() -> None:
    assert all(bound(US, id).rule == id for id in CASES)
    assert len(CASES) >= 11
