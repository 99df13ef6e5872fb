"""Placing several units: near fits, lattices, mirrors, working space, corners, order, budget, room for another."""

import builtins
import random
from itertools import islice, product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from search_walls import equal, garage, gridded, room

from standfast.design.siting.choosing import cheapest as alone
from standfast.design.siting.keepouts import ALL, END, Keepout
from standfast.design.siting.question import Question, Spot
from standfast.design.siting.search import (
    Apart,
    Corner,
    Strip,
    Together,
    beside,
    cheapest,
    in_order,
    room_for_another,
)
from standfast.design.siting.solid import Span

UNIT = Question(6060, 9000, (), (0, 0))


def bare(width: int, height: int = 12_000, *things: Keepout, **more: Any) -> Question:
    """A unit on a bare wall, with its run to the left end."""
    return UNIT._replace(keepouts=(*room(width, height), *things), **more)


def slot(more: int, start: int) -> Question:
    """A wall that is taken but for a slot some tenths wider than the unit."""
    high = start + UNIT.width + more
    return bare(60_000, 12_000, Keepout("thing", "a", Span(0, start), ALL), Keepout("thing", "b", Span(high, END), ALL))


def test_48_slots_that_fit_nearly_are_found_and_a_grid_misses_them() -> None:
    slots = [(more, 10_000 + 137 * at) for at, more in enumerate(list(range(0, 40, 5)) * 6)]
    assert len(slots) == 48
    missed = 0
    for more, start in slots:
        ask = slot(more, start)
        answer = cheapest(Together([[ask]], Apart(0, 0)))
        assert answer.proven and [spot.left for spot in answer.spots] == [start]
        missed += gridded(Together([[ask]], Apart(0, 0)), 10**9) == 10**9
    reached = [more for more, start in slots if start % 100 == 0 or start // 100 != (start + more) // 100]
    assert missed == 48 - len(reached) and missed >= 35


def test_two_units_in_a_slot_exactly_as_wide_as_both() -> None:
    start, wide = 5371, 2 * UNIT.width + 3000
    ask = bare(60_000, 12_000, Keepout("t", "a", Span(0, start), ALL), Keepout("t", "b", Span(start + wide, END), ALL))
    answer = cheapest(Together([[ask]] * 2, Apart(3000, 3000)))
    assert [spot.left for spot in answer.spots] == [start, start + UNIT.width + 3000]
    tight = ask._replace(width=UNIT.width + 1)
    refused = cheapest(Together([[tight]] * 2, Apart(3000, 3000)))
    assert refused.proven and not refused.spots and refused.cost is None and refused.bound is None


STEP = 1000


@pytest.mark.parametrize("seed", range(60))
def test_a_lattice_that_holds_every_vertex_gives_the_same_cost(seed: int) -> None:
    chance = random.Random(seed)
    walls = ["east", "north"][: chance.choice((1, 2))]
    high, sizes = 12 * STEP, [(chance.randint(2, 5) * STEP, chance.randint(3, 6) * STEP) for _ in range(2)]
    if chance.random() < 0.5:
        sizes[1] = sizes[0]
    grounds = {}
    for wall in walls:
        things = room(16 * STEP, high)
        for _ in range(chance.randint(1, 4)):
            x, z = chance.randint(0, 14) * STEP, chance.randint(0, 10) * STEP
            size = chance.randint(1, 4) * STEP, chance.randint(1, 4) * STEP
            things.append(Keepout("thing", "t", Span(x, x + size[0]), Span(z, z + size[1])))
        target = (chance.randint(0, 16) * STEP, chance.randint(0, 12) * STEP)
        grounds[wall] = things, target, chance.randint(0, 3) * STEP
    units = [
        [
            Question(2 * wide // 2, tall, things, (at[0] + wide // 2 % STEP, at[1]), wall=wall, wall_cost=dear)
            for wall, (things, at, dear) in grounds.items()
        ]
        for wide, tall in sizes
    ]
    corner = Corner("east", Span(12 * STEP, END), "north", Span(-END, 4 * STEP))
    apart = Apart(chance.randint(0, 2) * STEP, chance.randint(0, 2) * STEP, (corner,) if len(walls) > 1 else ())
    left = chance.randint(4, 8) * STEP
    strip = Strip("east", Span(left, left + STEP), 4 * STEP, Span(0, 9 * STEP), 0, 16 * STEP)
    asked = Together(units, apart, (strip,) if chance.random() < 0.5 else ())
    answer = cheapest(asked)
    assert answer.proven
    assert answer.cost == lattice(asked, 16, 12)
    if answer.spots:
        assert asked.cost(answer.spots) == answer.cost


def lattice(asked: Together, wide: int, high: int) -> int | None:
    """The least cost of two units with edges at multiples of half a step."""
    half = STEP // 2
    places = [
        sorted(
            Spot(ask.cost(left, bottom), left, bottom, ask.wall)
            for ask in asks
            for left, bottom in product(range(0, wide * STEP + 1, half), range(0, high * STEP + 1, half))
            if ask.free(left, bottom)
        )
        for asks in asked.units
    ]
    best: int | None = None
    for one in places[0]:
        for other in places[1]:
            if best is not None and one.cost + other.cost >= best:
                break
            if asked.cost((one, other)) is not None:
                best = one.cost + other.cost
    return best


@pytest.mark.parametrize("seed", range(12))
def test_a_mirrored_wall_has_the_mirrored_feasible_set_and_the_same_cost(seed: int) -> None:
    wall = garage(seed, things=8)
    ask, chance = wall.ask, random.Random(seed)

    def turned(x: Span) -> Span:
        return Span(wall.width - x.high, wall.width - x.low)

    assert ask.target is not None
    mirror = ask._replace(
        keepouts=[each._replace(x=turned(each.x)) for each in ask.keepouts],
        target=(wall.width - ask.target[0], ask.target[1]),
        studs=tuple(sorted(wall.width - each for each in ask.studs)),
        columns=tuple(sorted(ask.width - each for each in ask.columns)),
    )
    strip = Strip("", wall.panel, 7620, Span(0, 20_000), 0, wall.width)
    other = strip._replace(x=turned(strip.x))
    for n, spacing in ((2, 3000), (3, 9144)):
        one, two = equal(wall, n, spacing)._replace(strips=(strip,)), Together([[mirror]] * n, Apart(spacing, spacing))
        two = two._replace(strips=(other,))
        assert cheapest(one).cost == cheapest(two).cost
        for _ in range(200):
            spots = [Spot(0, chance.randint(0, wall.width), chance.randint(0, 20_000)) for _ in range(n)]
            back = [spot._replace(left=wall.width - ask.width - spot.left) for spot in spots]
            assert one.cost(spots) == two.cost(back)


def test_two_units_that_each_leave_working_space_can_block_it_together() -> None:
    # the panel is 4000 wide and needs 7620: a unit right beside it leaves that on the other side, two do not
    panel = Span(20_000, 24_000)
    strip = Strip("", panel, 7620, Span(0, 20_000), 0, 44_000)
    ask = bare(44_000, 12_000, Keepout("overlap", "panel", panel, ALL))
    near = Spot(0, panel.low - UNIT.width, 0), Spot(0, panel.high, 0)
    asked = Together([[ask]] * 2, Apart(0, 0), (strip,))
    assert all(Together([[ask]], Apart(0, 0), (strip,)).cost([spot]) is not None for spot in near)
    assert asked.cost(near) is None
    between = bare(
        27_620,
        12_000,
        Keepout("o", "panel", panel, ALL),
        Keepout("t", "left", Span(0, 12_000), ALL),
        target=(22_000, 0),
    )._replace(width=3000)
    pair = Together([[between]] * 2, Apart(0, 0))
    assert {spot.left for spot in cheapest(pair).spots} == {17_000, 24_000}
    kept = cheapest(pair._replace(strips=(strip._replace(low=12_000, high=27_620),)))
    assert kept.proven and kept.spots and {spot.left for spot in kept.spots} != {17_000, 24_000}
    lefts = sorted(spot.left for spot in kept.spots)
    assert lefts == [13_380, 24_000] or lefts[1] <= 20_000
    assert kept.cost == (pair.cost(kept.spots))


def test_a_strip_with_no_place_has_no_placement() -> None:
    strip = Strip("", Span(5000, 9000), 7620, Span(0, 20_000), 4000, 10_000)
    answer = cheapest(Together([[bare(60_000)]], Apart(0, 0), (strip,)))
    assert answer.proven and not answer.spots


def test_a_unit_that_may_stand_on_no_wall_has_no_placement() -> None:
    asked = Together([[bare(60_000)], []], Apart(0, 0))
    answer = cheapest(asked)
    assert answer.proven and not answer.spots and not list(in_order(asked))


def test_units_meet_at_a_corner_of_two_walls() -> None:
    east = bare(7000, wall="east", target=(7000, 0))
    north = bare(9000, wall="north", wall_cost=1)
    free = cheapest(Together([[east, north]] * 2, Apart(3000, 3000)))
    assert [(spot.wall, spot.left) for spot in free.spots] == [("east", 940), ("north", 0)]
    corner = Corner("east", Span(3000, END), "north", Span(-END, 2000))
    kept = cheapest(Together([[east, north]] * 2, Apart(3000, 3000, (corner,))))
    assert [(spot.wall, spot.left) for spot in kept.spots] == [("east", 940), ("north", 2000)]


def test_placements_come_in_order_and_each_once() -> None:
    asked = equal(garage(3), 2, 3000)
    found = list(islice(in_order(asked), 300))
    costs = [each.cost for each in found]
    assert costs == sorted(costs) and len({each.spots for each in found}) == len(found) == 300
    assert found[0].cost == cheapest(asked).cost
    assert all(asked.cost(each.spots) == each.cost for each in found)


def test_one_unit_on_one_wall_is_placed_as_by_itself() -> None:
    for seed in range(20):
        ask = garage(seed, stray=seed % 2).ask
        assert cheapest(equal(garage(seed, stray=seed % 2), 1, 0)).spots == (alone(ask),)
        assert next(in_order(Together([[ask]], Apart(0, 0)))).spots == (alone(ask),)


def test_a_fixed_edge_is_kept_and_the_other_unit_goes_by_it() -> None:
    ask = bare(60_000)
    fixed = Together([[ask._replace(left=7777, bottom=0)], [ask]], Apart(3000, 3000))
    assert [spot.left for spot in cheapest(fixed).spots] == [7777, 7777 + UNIT.width + 3000]
    roomy = fixed._replace(units=[[ask._replace(left=9060, bottom=0)], [ask]])
    assert [spot.left for spot in cheapest(roomy).spots] == [9060, 0]


def test_a_solver_finishes_what_the_budget_leaves_open() -> None:
    asked = equal(garage(18), 4, 3000)
    whole = cheapest(asked)
    short = cheapest(asked, nodes=50)
    assert short.nodes == 50 and short.proven
    assert short.cost == whole.cost == short.bound and asked.cost(short.spots) == whole.cost


def test_without_a_solver_the_answer_says_what_bound_was_reached(monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def absent(name: str, *more: Any) -> Any:
        if name == "highspy":
            raise ImportError(name)
        return real(name, *more)

    asked = equal(garage(18), 4, 3000)
    whole = cheapest(asked)
    monkeypatch.setattr(builtins, "__import__", absent)
    short = cheapest(asked, nodes=50)
    assert not short.proven and "opt" in short.need
    assert short.bound is not None and whole.cost is not None and short.bound <= whole.cost
    assert short.cost is not None and short.cost >= whole.cost and asked.cost(short.spots) == short.cost


def test_eight_equal_units_in_a_row_are_proven_in_few_nodes() -> None:
    ask = bare(84_000, 12_000, Keepout("thing", "t", Span(30_000, 31_000), ALL), target=(42_000, 3000))
    answer = cheapest(Together([[ask]] * 8, Apart(3000, 3000)))
    assert answer.proven and len(answer.spots) == 8 and answer.nodes < 100


@pytest.mark.parametrize("seed", range(8))
def test_round_zones_leave_nothing_cheaper_on_a_grid(seed: int) -> None:
    chance = random.Random(seed)
    things = [
        Keepout("opening", "w", Span(x, x + 9000), Span(8000, 16_000), chance.randint(3000, 9144) ** 2)
        for x in (chance.randint(0, 20_000), chance.randint(20_000, 50_000))
    ]
    ask = bare(60_000, 24_000, *things, target=(chance.randint(0, 60_000), 12_000))
    asked = Together([[ask]] * 2, Apart(3000, 3000))
    answer = cheapest(asked)
    assert answer.proven and answer.cost is not None and asked.cost(answer.spots) == answer.cost
    places = sorted(
        (ask.cost(x, z), x, z) for x in range(0, 60_000, 500) for z in range(0, 24_000, 500) if ask.free(x, z)
    )
    for one, x, z in places:
        if 2 * one >= answer.cost:
            break
        for other, x2, z2 in places:
            if one + other >= answer.cost:
                break
            assert asked.cost((Spot(one, x, z), Spot(other, x2, z2))) is None


def test_three_units_among_round_zones_that_may_stand_above_one_another_are_not_called_proven() -> None:
    ask = bare(60_000, 24_000, Keepout("opening", "w", Span(20_000, 29_000), Span(8000, 16_000), 9144**2))
    answer = cheapest(Together([[ask]] * 3, Apart(3000, 3000)))
    assert answer.spots and not answer.proven and answer.need
    assert answer.bound is not None and answer.cost is not None and answer.bound <= answer.cost


@pytest.mark.parametrize("seed", range(10))
def test_room_for_another_is_where_a_second_unit_still_has_a_place(seed: int) -> None:
    wall = garage(seed, things=14)
    first = wall.ask._replace(studs=())
    second, apart, chance = first._replace(width=7000), Apart(3000, 3000), random.Random(seed)
    closed = room_for_another(first, second, apart)
    left_over = 0
    for _ in range(60):
        spot = Spot(0, chance.randint(0, wall.width - first.width), chance.randint(0, 15_000))
        taken = beside(first, spot, second, apart)
        assert taken is not None
        fits = alone(second._replace(keepouts=[*second.keepouts, taken])) is not None
        x, z = Span(spot.left, spot.left + first.width), Span(spot.bottom, spot.bottom + first.height)
        assert fits == (closed is None or not closed.refuses(x, z))
        left_over += fits
    assert left_over or closed is not None


def test_a_wall_with_one_place_leaves_no_room_for_another_there() -> None:
    first = slot(0, 12_345)
    closed = room_for_another(first, first, Apart(3000, 3000))
    assert closed is not None and not first._replace(keepouts=(closed,)).free(12_345, 0)
    assert first._replace(keepouts=(closed,)).free(12_345 + UNIT.width + 3000, 0)
    nowhere = room_for_another(first, first._replace(width=UNIT.width + 1), Apart(0, 0))
    assert nowhere is not None and nowhere.x == nowhere.z == ALL
    assert beside(first, Spot(0, 0, 0, "north"), first, Apart(0, 0)) is None


@given(st.lists(st.integers(0, 9000), max_size=6), st.lists(st.integers(0, 900), max_size=3), st.integers(0, 9000))
def test_what_columns_off_the_studs_cost_is_what_their_distances_say(
    studs: list[int], columns: list[int], left: int
) -> None:
    ask = Question(100, 100, (), None, tuple(sorted(studs)), tuple(columns), off_allowed=15, off_cost=700, stray_cost=3)
    due = sum(700 if off > 15 else 3 * off for off in ask.strays(left))
    assert ask.off_studs(left) == 2 * due
