"""The search against CP-SAT and a 1 cm grid on random walls. `make oracle` runs all of them."""

import math
import os
import random
from collections import Counter

import pytest
from search_walls import Undecided, equal, garage, gridded, solved

from standfast.design.siting.question import Question
from standfast.design.siting.search import Apart, Strip, Together, cheapest
from standfast.design.siting.solid import Span

ALL_OF_THEM = "STANDFAST_CASES" in os.environ
WALLS = 130 if ALL_OF_THEM else 6
SPACINGS = (3000, 9144)
PATIENCE = 5 if ALL_OF_THEM else 1
"""How long CP-SAT may think about one wall, on its own clock."""


def compare(asked: Together, tally: Counter[str]) -> None:
    """The search and CP-SAT give the same cost, or both say that nothing fits."""
    answer = cheapest(asked)
    assert answer.proven and answer.cost == answer.bound
    if answer.spots:
        assert asked.cost(answer.spots) == answer.cost
    try:
        least = solved(asked, PATIENCE)
    except Undecided as met:
        assert answer.cost is None or answer.cost <= met.cost
        assert answer.spots or met.cost == math.inf
        tally["undecided by CP-SAT"] += 1
        return
    assert answer.cost == least
    tally["infeasible" if least is None else "feasible"] += 1


def report(what: str, tally: Counter[str]) -> None:
    """For the reader of `make oracle` (pytest -s): what fitted, what did not, and what CP-SAT left open."""
    print(f"{what}: {dict(tally)}")  # noqa: T201


@pytest.mark.oracle
@pytest.mark.parametrize("n", [1, 2, 3, 4])
def test_no_solver_and_no_grid_finds_a_cheaper_placement(n: int) -> None:
    tally: Counter[str] = Counter()
    walls = 180 if ALL_OF_THEM and n == 4 else WALLS
    for seed in range(walls):
        wall = garage(seed, studs=bool(seed % 3))
        asked = equal(wall, n, SPACINGS[seed % 2])
        compare(asked, tally)
        cost = cheapest(asked).cost
        if cost is not None and n < 3:  # three and more: what CP-SAT proves holds for the points of a grid too
            assert gridded(asked, cost) == cost
    report(f"{n} units", tally)
    assert tally["feasible"] >= (100 if ALL_OF_THEM else 3)
    assert tally["undecided by CP-SAT"] <= walls // (10 if ALL_OF_THEM else 3)


@pytest.mark.oracle
def test_where_holes_want_the_middles_of_studs() -> None:
    tally: Counter[str] = Counter()
    for seed in range(WALLS // 2):
        compare(equal(garage(500 + seed, stray=10), 1 + seed % 2, SPACINGS[seed // 2 % 2]), tally)
    report("middles of studs", tally)
    assert tally["feasible"] >= (50 if ALL_OF_THEM else 2)


def mixed(seed: int) -> Together:
    """Two or three units of unlike size, some pairs with their own distance, on one wall."""
    chance = random.Random(seed)
    ask = garage(seed).ask
    sizes = [(chance.randint(3000, 8000), chance.randint(5000, 11_000)) for _ in range(chance.choice((2, 3)))]
    units = [
        [ask._replace(width=wide, height=high, columns=(800, wide - 700), lift_cost=chance.choice((0, 1, 3)))]
        for wide, high in sizes
    ]
    if chance.random() < 0.3:
        units[-1] = [units[-1][0]._replace(bottom=chance.randint(4000, 9000))]
    pairs = {(0, 1): Apart(chance.randint(0, 9144), chance.randint(0, 9144))} if chance.random() < 0.5 else {}
    return Together(units, Apart(chance.randint(0, 5000), chance.randint(0, 5000)), pairs=pairs)


@pytest.mark.oracle
def test_units_of_unlike_size() -> None:
    tally: Counter[str] = Counter()
    for seed in range(WALLS):
        compare(mixed(1000 + seed), tally)
    report("unlike size", tally)
    assert tally["feasible"] >= (100 if ALL_OF_THEM else 4)


def stripped(seed: int) -> Together:
    """Some units, alike or not, and one or two panels whose working space they leave free together."""
    chance = random.Random(seed)
    wall = garage(seed, things=6)
    base = equal(wall, chance.choice((1, 2, 2, 3)), 3000) if chance.random() < 0.6 else mixed(seed)
    strips = []
    for _ in range(chance.choice((1, 1, 2))):
        left, wide = chance.randint(3000, wall.width - 12_000), chance.randint(2000, 5000)
        low, high = max(0, left - chance.randint(2000, 9000)), min(wall.width, left + wide + chance.randint(2000, 9000))
        blocked_by = None if chance.random() < 0.7 else frozenset({0})
        x, z = Span(left, left + wide), Span(0, chance.choice((9000, 20_000)))
        strips.append(Strip("", x, min(7620, high - low), z, low, high, blocked_by))
    return base._replace(strips=tuple(strips))


@pytest.mark.oracle
def test_working_space_that_all_units_leave_free_together() -> None:
    tally: Counter[str] = Counter()
    for seed in range(WALLS):
        compare(stripped(2000 + seed), tally)
    report("working space", tally)
    assert tally["feasible"] >= (80 if ALL_OF_THEM else 3)


def test_the_wall_of_the_oracle_is_the_wall_of_the_question() -> None:
    ask: Question = garage(1).ask
    assert {each.rule for each in ask.keepouts} == {"end", "thing"}
    assert all(ask.refusing(each.x.low, each.z.low) for each in ask.keepouts if each.rule == "thing")
