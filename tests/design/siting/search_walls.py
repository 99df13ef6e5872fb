"""Random walls, and two programs that place units on them and share nothing with the search: CP-SAT and a 1 cm grid."""

import math
import random
from collections.abc import Sequence
from itertools import pairwise
from typing import Any, NamedTuple

from standfast.design.siting.choosing import Question
from standfast.design.siting.keepouts import ALL, END, Keepout
from standfast.design.siting.search import Apart, Together
from standfast.design.siting.solid import Span

GRID = 100


def room(width: int, height: int, floor: int = 0) -> list[Keepout]:
    """The ends of a wall, floor and ceiling."""
    return [
        Keepout("end", "left", Span(-END, 0), ALL),
        Keepout("end", "right", Span(width, END), ALL),
        Keepout("end", "floor", ALL, Span(-END, floor)),
        Keepout("end", "ceiling", ALL, Span(height, END)),
    ]


class Garage(NamedTuple):
    """A random wall: its question for one unit, its size, and where a panel hangs."""

    ask: Question
    width: int
    height: int
    panel: Span


def garage(seed: int, *, step: int = 1, things: int = 12, studs: bool = True, stray: int = 0) -> Garage:
    """A wall of a garage with obstacles, each with its own clearances; every number is a multiple of a step."""
    chance = random.Random(seed)

    def number(low: int, high: int) -> int:
        return chance.randint(low // step, high // step) * step

    width, height = number(60_000, 90_000), number(24_000, 28_000)
    found = room(width, height, number(0, 4000))
    for at in range(things):
        left, bottom = number(0, width), number(0, 22_000)
        clear = [number(0, 4000) for _ in range(4)]
        x = Span(left - clear[0], left + number(500, 6000) + clear[1])
        found.append(Keepout("thing", str(at), x, Span(bottom - clear[2], bottom + number(500, 8000) + clear[3])))
    wide, high = number(4000, 8000), number(6000, 11_000)
    target = number(0, width), number(8000, 16_000)
    centres = tuple(range(number(0, 4000), width, number(4000, 6100))) if studs else ()
    columns = (number(500, 1500), wide - number(500, 1500))
    allowed, dear = (number(100, 300), 50_000) if studs else (0, 0)
    ask = Question(wide, high, found, target, centres, columns, allowed, dear, stray, chance.choice((0, 1)))
    left = number(0, width - 4000)
    return Garage(ask, width, height, Span(left, left + 4000))


def equal(wall: Garage, n: int, spacing: int) -> Together:
    """Some equal units on a wall."""
    return Together([[wall.ask]] * n, Apart(spacing, spacing))


class Undecided(Exception):
    """CP-SAT did not finish; `cost` of the best placement that it met, without end where it met none."""

    def __init__(self, cost: float) -> None:
        super().__init__(cost)
        self.cost = cost


def solved(asked: Together, patience: float = 3) -> int | None:
    """The least cost by CP-SAT, for units on one wall, with one thread; None where it proves that none fits.

    Raises:
        Undecided: where it has not proven its answer after some seconds of its own clock, which counts steps.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    boxes, costs = [], []
    for (ask,) in asked.units:
        x, z, cost = _unit(model, ask)
        boxes.append((x, z, ask))
        costs.append(cost)
    for one in range(len(boxes)):
        for other in range(one):
            apart = asked.between(one, other)
            grown = [_box(model, *boxes[at], apart.along, apart.up) for at in (one, other)]
            if boxes[one][2] == boxes[other][2] and not asked.strips:
                model.add(boxes[other][0] <= boxes[one][0])
            model.add_no_overlap_2d(*zip(*grown, strict=True))
    for strip in asked.strips:
        left = model.new_int_var(strip.lefts.low, strip.lefts.high, "")
        high = strip.z.high - strip.z.low
        body = (
            model.new_fixed_size_interval_var(left, strip.width, ""),
            model.new_fixed_size_interval_var(strip.z.low, high, ""),
        )
        for at, box in enumerate(boxes):
            if strip.units is None or at in strip.units:
                model.add_no_overlap_2d(*zip(body, _box(model, *box), strict=True))
    model.minimize(sum(costs))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = patience
    status = solver.solve(model)
    if status in (cp_model.UNKNOWN, cp_model.FEASIBLE):
        raise Undecided(solver.objective_value if status == cp_model.FEASIBLE else math.inf)
    if status == cp_model.INFEASIBLE:
        return None
    assert status == cp_model.OPTIMAL, solver.status_name(status)
    return round(solver.objective_value)


def _box(model: Any, x: Any, z: Any, ask: Question, along: int = 0, up: int = 0) -> tuple[Any, Any]:
    wide = model.new_fixed_size_interval_var(x, ask.width + along, "")
    return wide, model.new_fixed_size_interval_var(z, ask.height + up, "")


def _unit(model: Any, ask: Question) -> tuple[Any, Any, Any]:
    """Left edge, lower edge and cost of a unit that its keep-outs let stand there."""
    frame = {each.thing: each for each in ask.keepouts if each.rule == "end"}
    x = model.new_int_var(0, frame["right"].x.low - ask.width, "")
    z = model.new_int_var(max(frame["floor"].z.high, 0), frame["ceiling"].z.low - ask.height, "")
    if ask.left is not None:
        model.add(x == ask.left)
    if ask.bottom is not None:
        model.add(z == ask.bottom)
    fixed = [
        (model.new_fixed_size_interval_var(x.low, x.high - x.low, ""), model.new_fixed_size_interval_var(*z, ""))
        for x, z in ((box[0], (box[1].low, box[1].high - box[1].low)) for box in disjoint(ask.keepouts))
    ]
    model.add_no_overlap_2d(*zip(*fixed, _box(model, x, z, ask), strict=True))
    assert ask.target is not None
    across, rise = model.new_int_var(0, 10**7, ""), model.new_int_var(0, 10**7, "")
    model.add_abs_equality(across, 2 * (x - ask.target[0]) + ask.width)
    model.add_abs_equality(rise, 2 * (z - ask.target[1]) + ask.height)
    return x, z, across + rise + 2 * ask.lift_cost * z + 2 * _stray(model, ask, x)


def _stray(model: Any, ask: Question, x: Any) -> Any:
    """What the columns of holes cost by how far they are off the studs."""
    from ortools.sat.python import cp_model

    costs = []
    for column in ask.columns if ask.studs else ():
        off = model.new_bool_var("")
        if not ask.stray_cost:
            near = [[stud - column - ask.off_allowed, stud - column + ask.off_allowed] for stud in ask.studs]
            domain = cp_model.Domain.from_intervals(near)
            model.add_linear_expression_in_domain(x, domain).only_enforce_if(~off)
            costs.append(ask.off_cost * off)
            continue
        aside = model.new_int_var(0, ask.off_allowed, "")
        on = [model.new_bool_var("") for _ in ask.studs]
        model.add_exactly_one(off, *on)
        for stud, here in zip(ask.studs, on, strict=True):
            model.add(aside >= x + column - stud).only_enforce_if(here)
            model.add(aside >= stud - x - column).only_enforce_if(here)
        costs.append(ask.off_cost * off + ask.stray_cost * aside)
    return sum(costs)


def disjoint(keepouts: Sequence[Keepout]) -> list[tuple[Span, Span]]:
    """The same area in rectangles that do not overlap, as CP-SAT needs it: slab by slab."""
    things = [each for each in keepouts if each.rule != "end"]
    edges = sorted({edge for each in things for edge in each.x})
    found = []
    for low, high in pairwise(edges):
        top = -END
        for z in sorted(each.z for each in things if each.x.low < high and low < each.x.high):
            if z.high > top:
                found.append((Span(low, high), Span(max(z.low, top), z.high)))
                top = z.high
    return found


def gridded(asked: Together, below: float) -> float:
    """The least cost on a 1 cm grid, of equal units on one wall, where it is less than a cost; else that cost."""
    import numpy as np

    ask, n = asked.units[0][0], len(asked.units)
    lefts, bottoms = np.arange(0, 90_001, GRID), np.arange(0, 28_001, GRID)
    free = np.ones((len(lefts), len(bottoms)), dtype=bool)
    for each in ask.keepouts:
        across = (each.x.low - ask.width < lefts) & (lefts < each.x.high)
        free &= ~np.outer(across, (each.z.low - ask.height < bottoms) & (bottoms < each.z.high))
    costs = np.add.outer([ask.cost_across(int(left)) for left in lefts], [ask.cost_up(int(up)) for up in bottoms])
    if not free.any():
        return below
    at = np.nonzero(free & (costs < below - (n - 1) * costs[free].min()))
    places = np.stack((costs[at], lefts[at[0]], bottoms[at[1]]), axis=1)
    wide, high = ask.width + asked.apart.along, ask.height + asked.apart.up

    def best(free: Any, wanted: int, cost: int, below: float) -> float:
        for number, (here, left, bottom) in enumerate(free):
            if cost + wanted * here >= below:
                break
            if wanted == 1:
                return cost + int(here)
            rest = free[number + 1 :]
            clear = (abs(rest[:, 1] - left) >= wide) | (abs(rest[:, 2] - bottom) >= high)
            below = best(rest[clear & (rest[:, 0] < below - cost - here)], wanted - 1, cost + int(here), below)
        return below

    return best(places[np.argsort(places[:, 0], kind="stable")], n, 0, below)
