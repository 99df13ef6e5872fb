"""The whole choice equals an exhaustive search, beats choosing one by one, and says what it proved."""

import os
import random

import choice_job
import pytest
from choice_job import Case, base, everything, fixing, kinds, metals, sheets, sizes, steps

from standfast.design.choice.told import sentences
from standfast.design.choice.whole import Budget, Choice
from standfast.equipment.prices import TABLES, Prices, shipped

SEEDS = range(30 if "STANDFAST_CASES" in os.environ else 10)
"""Random small jobs; `make oracle` takes all of them."""
EITHER_METAL: list[choice_job.Change] = [
    (("routes", number, "conductors"), {"materials": ["cu", "al"], "insulation": "xhhw"}) for number in (0, 1)
]
BOTH = '["cu", "al"]'
BREAKER: choice_job.Change = (("panels", 1, "circuits", 6, "breaker"), None)


def scaled(factors: dict[str, float]) -> Prices:
    """The shipped prices, each table by a factor."""
    tables = {
        table: {word: price * factors.get(table, 1.0) for word, price in getattr(shipped(), table).items()}
        for table in TABLES
    }
    return shipped().filled(tables)


def random_case(seed: int) -> tuple[Case, list[list[choice_job.Picks]]]:
    """A small job on whose wall the unit finds a place, and all that it leaves open."""
    draw = random.Random(seed)
    while True:
        case, picks = drawn(draw)
        if case.found.bound is not None:
            return case, picks


def drawn(draw: random.Random) -> tuple[Case, list[list[choice_job.Picks]]]:
    """A small job, and all that it leaves open."""
    along_wall = draw.random() < 0.25
    fixed = ("bottom", f"{draw.randint(13, 40)} in") if along_wall else ("left", f"{draw.randint(6, 9) * 16 + 10.5} in")
    changes: list[choice_job.Change] = [
        (("walls", 0, "obstacles", 3, "left"), f"{draw.randint(100, 190)} in"),
        (("walls", 0, "obstacles", 3, "bottom"), f"{draw.randint(40, 62)} in"),
        (("wishes", fixed[0]), fixed[1]),
        (("routes", 0, "extra"), f"{draw.randint(0, 60)} ft"),
    ]
    picks = [sizes("8")]
    if not along_wall and draw.random() < 0.7:
        changes.append(BREAKER)
        picks.append(steps(35.0, 40.0))
    if not along_wall and draw.random() < 0.5:
        changes += [(("routes", 0, "raceway"), None), (("routes", 0, "raceways"), ["emt", "pvc-40"])]
        picks.append(kinds("emt", "pvc-40"))
    if not along_wall and draw.random() < 0.5:
        changes += EITHER_METAL
        picks.append(metals("al"))
    prices = scaled({table: 4 ** draw.uniform(-1, 1) for table in TABLES})
    odd = {f"demo-breaker {amps}": draw.uniform(20, 60) for amps in (30, 35, 40)}
    short = fixing("short-lag", ('length = "4 in"', f'length = "{draw.choice([2, 3])}-1/2 in"'))
    prices = prices._replace(
        breaker={**prices.breaker, **odd}, piece={**prices.piece, "short-lag": draw.uniform(0.1, 3.0)}
    )
    lag = sheets()["fastener"]
    return Case(base(*changes), sheets("40 A", BOTH), prices, (lag, short)), picks


@pytest.mark.parametrize("seed", SEEDS)
def test_the_choice_is_that_of_an_exhaustive_search(seed: int) -> None:
    case, picks = random_case(seed)
    found = case.choose()
    opened, price = everything(case, picks)
    assert found.best.open == opened and found.best.price == pytest.approx(price, abs=1e-6)
    assert found.proven and found.bound == pytest.approx(found.best.price, abs=1e-6)
    assert found.places <= (found.places_known or 0)


def lifted_at(price: float, copper: float = 1.0) -> Case:
    """The job where a foot of height costs a price, and copper so much more than in the shipped list."""
    conductor = {
        word: each * (copper if word.startswith("cu") else 1.0) for word, each in shipped().conductor.items()
    }  # fmt: skip
    prices = shipped()._replace(conductor=conductor, work={**shipped().work, "lift": price})
    return Case(base(), sheets(), prices)


def bottom(found: Choice) -> float:
    """The lower edge of the unit, mm."""
    return found.best.siting.places[0].bottom.quantity


def test_dearer_copper_changes_the_place_and_choosing_one_by_one_does_not_see_it() -> None:
    cheap, dear = lifted_at(3.0), lifted_at(3.0, copper=2.0)
    low, high = cheap.choose(), dear.choose()
    assert bottom(low) == pytest.approx(314.8) and bottom(high) == pytest.approx(1003.3)
    opened, price = dear.one_by_one()
    assert opened == high.best.open == 0
    assert high.best.price < price - 1 and high.proven
    assert low.best.price == pytest.approx(cheap.one_by_one()[1])


@pytest.mark.parametrize("factor", [0.01, 3.0, 1700.0])
def test_prices_in_another_coin_change_sums_alone(factor: float) -> None:
    case, _ = random_case(3)
    same = case._replace(
        prices=case.prices.filled(
            {table: {word: each * factor for word, each in getattr(case.prices, table).items()} for table in TABLES}
        )
    )
    one, other = case.choose(), same.choose()
    assert other.best.price == pytest.approx(factor * one.best.price)
    assert other.bound == pytest.approx(factor * one.bound)
    assert [row._replace(price=None) for row in one.best.rows] == [row._replace(price=None) for row in other.best.rows]
    assert bottom(one) == bottom(other) and one.places == other.places


def test_a_mirrored_wall_costs_the_same() -> None:
    alone: list[choice_job.Change] = [(("walls", 1), None), (("wishes", "wall"), "garage-east")]
    job = base(*alone)
    (wall,) = job.job.walls
    width = wall.length.number
    assert wall.build_up.first_stud is not None and wall.build_up.stud_spacing is not None
    turned: list[choice_job.Change] = [
        (("walls", 0, "obstacles", number, "left"), f"{float(width - each.left.number - each.width.number)} mm")
        for number, each in enumerate(wall.obstacles)
    ]
    stud = (width - wall.build_up.first_stud.number) % wall.build_up.stud_spacing.number
    path: list[choice_job.Change] = [
        (("walls", 0, "vehicle_path", "left"), "1 ft"),
        (("walls", 0, "vehicle_path", "right"), "21 ft"),
    ]
    mirrored = base(*alone, *turned, *path, (("walls", 0, "build_up", "first_stud"), f"{float(stud)} mm"))
    one, other = (Case(each, sheets()).choose() for each in (job, mirrored))
    assert one.best.price == pytest.approx(other.best.price, abs=0.01)
    left = other.best.siting.places[0].left.quantity
    assert left + one.best.siting.places[0].left.quantity + 609.6 == pytest.approx(float(width), abs=0.2)


@pytest.mark.parametrize("seed", [1, 5, 9])
def test_what_a_small_budget_says_is_true_and_no_more(seed: int) -> None:
    case, _ = random_case(seed)
    best = case.choose()
    found = case.choose(Budget(places=1, ways=1, more=0))
    assert found.bound <= best.best.price + 1e-6 and found.best.price >= best.best.price - 1e-6
    assert not found.proven or found.best.price == pytest.approx(best.best.price)
    assert found.runner_up is None


def test_the_runner_up_differs_and_costs_more() -> None:
    found = Case(base(), sheets()).choose(Budget())
    assert found.runner_up is not None and found.runner_up.more > 0
    assert found.runner_up.differs == (
        "battery-1 stands on garage-east, 11 ft 6-1/2 in from its left end and 1 ft 3/8 in up",
    )
    assert found.proven and found.places == 2 and found.places_known == 64


def test_a_surveyed_length_belongs_to_its_place() -> None:
    case = Case(base((("routes", 0, "length"), "6 ft")), sheets())
    found = case.choose()
    assert not found.placed and found.proven and bottom(found) == case.found.places[0].bottom.quantity
    assert found.best.wired.wiring.units[0].circuit.raceways[0].run.length.quantity == 6


def test_a_price_that_is_not_there_is_not_proven_away() -> None:
    prices = shipped()._replace(breaker={}, piece={"demo-lag-5-16": 1.4, "demo-anchor-3-8": 3.1})
    found = Case(base(), sheets(), prices).choose(Budget())
    assert not found.proven and found.best.unpriced == 2 and found.runner_up is None
    assert [row.what for row in found.best.rows if row.sum is None] == [
        "Two-pole plug-in breaker, family W, 30 A", "Two-pole plug-in breaker, family W, 60 A",
    ]  # fmt: skip


def test_on_two_walls_the_choice_is_that_of_an_exhaustive_search() -> None:
    no_vehicle: list[choice_job.Change] = [(("walls", 1, "vehicle_path"), None), (("walls", 1, "vehicles"), False)]
    case = Case(base((("wishes", "wall"), None), *no_vehicle), sheets())
    found = case.choose(Budget())
    opened, price = everything(case, [[{}]])
    assert {each.open for each in case.found.walls} == {opened} == {0}
    assert found.best.price == pytest.approx(price) and found.proven and found.places <= 4


def test_what_the_job_states_is_told_as_given_and_not_as_chosen() -> None:
    stated, left_open = Case(base(), sheets()).choose(), Case(base(BREAKER), sheets()).choose()
    assert any("breaker of battery-1 (30 A)" in each for each in stated.given)
    assert not any("breaker of battery-1" in each for each in left_open.given)
    assert "Given by the job file and not chosen: " in " ".join(sentences(stated))


def dearer(copper: float) -> Prices:
    """The shipped list with copper at so many times its price."""
    priced = {word: each * (copper if word.startswith("cu") else 1.0) for word, each in shipped().conductor.items()}
    return shipped()._replace(conductor=priced)


def run_of(found: Choice) -> tuple[str, str]:
    """Metal and size of the battery's conductors."""
    made = found.best.wired.wiring.units[0].circuit.conductor
    return made.conditions.material.word, made.size.word


def test_the_metal_follows_the_price_where_the_job_offers_both() -> None:
    job, taken = base(*EITHER_METAL), sheets(terminals=BOTH)
    cheap = Case(job, taken, dearer(0.2)).choose()
    dear = Case(job, taken, dearer(20.0)).choose()
    assert run_of(cheap)[0] == "cu" and run_of(dear)[0] == "al"
    assert cheap.proven and dear.proven and cheap.best.open == dear.best.open == 0


def test_no_metal_is_taken_that_an_end_does_not_take() -> None:
    assert run_of(Case(base(*EITHER_METAL), sheets(), dearer(20.0)).choose())[0] == "cu"
