"""A linear programme on a chain of steps and their windows, by a primal-dual barrier method.

Least sum of cost × amount, with amounts between zero and a limit; each step and each window has one equation. Nearly
all amounts stand in two equations of neighbours, so a round costs time proportional to the number of steps; a few stand
in many equations (the border). Predictor and corrector after S. Mehrotra (1992).
"""

import math
from collections.abc import Sequence
from operator import mul
from typing import NamedTuple

from standfast.design.energy.chain import Chain, Row

CLOSE = 1e-11
MOST_ROUNDS = 150
_IDLE_ROUNDS = 12
_NEARLY = 1e-8
_LEAST_COST = 1e-6
_STRIDE = 0.9995
_NO_LIMIT = math.inf

Vector = list[float]


class Amount(NamedTuple):
    """An unknown amount: cost, greatest amount, and its factors in one or two equations.

    Equations are counted through: steps first, then windows. An amount of a step stands in the equation of that step,
    and in that of the next step or of its window; an amount of a window in that equation alone.
    """

    cost: float
    limit: float
    place: int
    factor: float
    other: int = 0
    other_factor: float = 0.0


class Wide(NamedTuple):
    """An amount that stands in many equations: cost, greatest amount, and its factor in each of them."""

    cost: float
    limit: float
    factors: dict[int, float]


class Programme(NamedTuple):
    """Amounts, those of the border, the window of each step, and the right-hand sides: steps, then windows."""

    amounts: Sequence[Amount]
    border: Sequence[Wide]
    window_of: Sequence[int]
    right: Sequence[float]

    def products(self, x: Vector) -> Vector:
        """Sum of factor × amount of each equation; amounts of the border stand last."""
        found = [0.0] * len(self.right)
        for (_, _, place, factor, other, other_factor), amount in zip(self.amounts, x, strict=False):
            found[place] += factor * amount
            found[other] += other_factor * amount
        for wide, amount in zip(self.border, x[len(self.amounts) :], strict=True):
            for place, factor in wide.factors.items():
                found[place] += factor * amount
        return found

    def prices(self, y: Vector) -> Vector:
        """Sum of factor × price of the equations of each amount; amounts of the border stand last."""
        found = [a * y[place] + b * y[other] for _, _, place, a, other, b in self.amounts]
        return found + [wide_price(wide, y) for wide in self.border]


class Solution(NamedTuple):
    """Amounts, those of the border, and the prices of the equations."""

    amounts: Vector
    border: Vector
    prices: Vector


def wide_price(wide: Wide, y: Vector) -> float:
    """Sum of factor × price over the equations of an amount of the border."""
    return sum(factor * y[place] for place, factor in wide.factors.items())


def solve(programme: Programme) -> Solution:
    """The amounts of least cost, as near as floating point allows; the caller proves how near that is."""
    every: list[Amount | Wide] = [*programme.amounts, *programme.border]
    price = max((math.fabs(each.cost) for each in every), default=0.0) or 1.0
    sizes = [each.limit for each in every if each.limit < _NO_LIMIT] + [math.fabs(each) for each in programme.right]
    size = max(sizes, default=0.0) or 1.0
    search, inner = _Search(_to_scale(programme, price, size)), len(programme.amounts)
    nearest, idle, x, y = math.inf, 0, search.x, search.y
    for _ in range(MOST_ROUNDS):
        gap = search.gap()
        idle += 1
        if gap < nearest:
            nearest, idle, x, y = gap, 0, search.x, search.y
        if gap <= CLOSE or idle > (1 if nearest <= _NEARLY else _IDLE_ROUNDS):
            break
        search.advance()
    amounts = [size * each for each in x]
    return Solution(amounts[:inner], amounts[inner:], [price * each for each in y])


def _to_scale(programme: Programme, price: float, size: float) -> Programme:
    """The programme with costs and amounts of about one, so that it does not matter how large a house is."""
    return programme._replace(
        amounts=[each._replace(cost=each.cost / price, limit=each.limit / size) for each in programme.amounts],
        border=[each._replace(cost=each.cost / price, limit=each.limit / size) for each in programme.border],
        right=[each / size for each in programme.right],
    )


class _Search:
    """Amounts x with prices z, rooms to their limits s with prices v, prices y of the equations."""

    def __init__(self, programme: Programme) -> None:
        self.programme = programme
        every: list[Amount | Wide] = [*programme.amounts, *programme.border]
        self.costs = [each.cost for each in every]
        self.limited = [each.limit < _NO_LIMIT for each in every]
        self.pairs = len(every) + sum(self.limited)
        self.x = [each.limit / 2 if each.limit < _NO_LIMIT else 1.0 for each in every]
        self.s = [x if limited else 1.0 for x, limited in zip(self.x, self.limited, strict=True)]
        self.z = [1.0] * len(every)
        self.v = [1.0 if limited else 0.0 for limited in self.limited]
        self.y = [0.0] * len(programme.right)

    def gap(self) -> float:
        """Sum of amounts × prices, to the size of the cost, or what an equation is missed by, whichever is greater."""
        cost = _dot(self.costs, self.x)
        missed = max(math.fabs(each) for each in self._missed())
        return max(self._product() * self.pairs / max(_LEAST_COST, math.fabs(cost)), missed)

    def advance(self) -> None:
        """One round: a move towards products of zero, then one that corrects it and keeps to the centre."""
        system = _System(self.programme, self._weights())
        missed, prices = self._missed(), self.programme.prices(self.y)
        short = [c - p - z + v for c, p, z, v in zip(self.costs, prices, self.z, self.v, strict=True)]
        to_x, to_s = (
            [-x * z for x, z in zip(self.x, self.z, strict=True)],
            [-s * v for s, v in zip(self.s, self.v, strict=True)],
        )
        dx, _, dz, dv = self._move(system, missed, short, to_x, to_s)
        own, price = self._strides(dx, dz, dv)
        ahead = self._product_after(own, price, dx, dz, dv)
        product = self._product()
        centre = product * (ahead / product) ** 3
        to_x = [centre + a - d * e for a, d, e in zip(to_x, dx, dz, strict=True)]
        to_s = [centre + a + d * e if has else 0.0 for a, d, e, has in zip(to_s, dx, dv, self.limited, strict=True)]
        dx, dy, dz, dv = self._move(system, missed, short, to_x, to_s)
        own, price = (min(_STRIDE * stride, 1.0) for stride in self._strides(dx, dz, dv))
        self.x = [x + own * d for x, d in zip(self.x, dx, strict=True)]
        self.s = [s - own * d if has else s for s, d, has in zip(self.s, dx, self.limited, strict=True)]
        self.y = [y + price * d for y, d in zip(self.y, dy, strict=True)]
        self.z = [z + price * d for z, d in zip(self.z, dz, strict=True)]
        self.v = [v + price * d for v, d in zip(self.v, dv, strict=True)]

    def _weights(self) -> Vector:
        return [1 / (z / x + v / s) for x, z, s, v in zip(self.x, self.z, self.s, self.v, strict=True)]

    def _missed(self) -> Vector:
        have = self.programme.products(self.x)
        return [want - each for want, each in zip(self.programme.right, have, strict=True)]

    def _product(self) -> float:
        return (_dot(self.x, self.z) + _dot(self.s, self.v)) / self.pairs

    def _product_after(self, own: float, price: float, dx: Vector, dz: Vector, dv: Vector) -> float:
        own, price = min(own, 1.0), min(price, 1.0)
        of_x = sum((x + own * d) * (z + price * e) for x, d, z, e in zip(self.x, dx, self.z, dz, strict=True))
        of_s = sum((s - own * d) * (v + price * e) for s, d, v, e in zip(self.s, dx, self.v, dv, strict=True))
        return (of_x + of_s) / self.pairs

    def _move(
        self, system: "_System", missed: Vector, short: Vector, to_x: Vector, to_s: Vector
    ) -> tuple[Vector, Vector, Vector, Vector]:
        """Changes of x, y, z and v that bring the products to what is asked, by Newton's method."""
        pull = [a / x - b / s - r for a, x, b, s, r in zip(to_x, self.x, to_s, self.s, short, strict=True)]
        dx, dy = system.solve(missed, pull)
        dz = [(a - z * d) / x for a, z, d, x in zip(to_x, self.z, dx, self.x, strict=True)]
        dv = [
            (b + v * d) / s if has else 0.0
            for b, v, d, s, has in zip(to_s, self.v, dx, self.s, self.limited, strict=True)
        ]
        return dx, dy, dz, dv

    def _strides(self, dx: Vector, dz: Vector, dv: Vector) -> tuple[float, float]:
        """How far x and s, and z and v, can go before one of them is zero."""
        own = [-x / d for x, d in zip(self.x, dx, strict=True) if d < 0]
        own += [s / d for s, d, has in zip(self.s, dx, self.limited, strict=True) if d > 0 and has]
        price = [-z / d for z, d in zip(self.z, dz, strict=True) if d < 0]
        price += [-v / d for v, d in zip(self.v, dv, strict=True) if d < 0]
        return min(own, default=2.0), min(price, default=2.0)


class _System:
    """The equations of one round: dx = weights × (prices of dy + pull), and products of dx = missed."""

    def __init__(self, programme: Programme, weights: Vector) -> None:
        self._programme, self._weights = programme, weights
        count = len(programme.window_of)
        rows: list[list[Row]] = [[] for _ in range(count)]
        alone = [0.0] * (len(programme.right) - count)
        for (_, _, place, a, other, b), weight in zip(programme.amounts, weights, strict=False):
            root = math.sqrt(weight)
            if place >= count:
                alone[place - count] = a * root
            elif other >= count:
                rows[place].append(Row(a * root, 0.0, b * root))
            else:
                rows[place].append(Row(a * root, b * root, 0.0))
        self._chain = Chain(programme.window_of, rows, alone)
        self._reach: list[Vector] = []
        for wide in programme.border:
            self._reach.append([wide.factors.get(place, 0.0) for place in range(len(programme.right))])
            self._chain.solve(self._reach[-1])

    def solve(self, missed: Vector, pull: Vector) -> tuple[Vector, Vector]:
        """dx and dy; refined once, since weights differ by many orders of magnitude."""
        inner = len(self._programme.amounts)
        y, wide = self._dealt(missed, pull)
        dx = self._amounts(y, wide, pull)
        left = [want - have for want, have in zip(missed, self._programme.products(dx), strict=True)]
        rest = [
            each + wide_price(border, y) - amount / weight
            for border, each, amount, weight in zip(
                self._programme.border, pull[inner:], wide, self._weights[inner:], strict=True
            )
        ]
        more, more_wide = self._dealt(left, [0.0] * inner + rest)
        y = [a + b for a, b in zip(y, more, strict=True)]
        wide = [a + b for a, b in zip(wide, more_wide, strict=True)]
        return self._amounts(y, wide, pull), y

    def _amounts(self, y: Vector, wide: Vector, pull: Vector) -> Vector:
        inner = len(self._programme.amounts)
        own = self._programme.prices(y)[:inner]
        return [w * (a + b) for w, a, b in zip(self._weights, own, pull, strict=False)] + wide

    def _dealt(self, missed: Vector, pull: Vector) -> tuple[Vector, Vector]:
        inner, border = len(self._programme.amounts), self._programme.border
        pushed = [w * each for w, each in zip(self._weights, pull[:inner], strict=False)] + [0.0] * len(border)
        y = [want - have for want, have in zip(missed, self._programme.products(pushed), strict=True)]
        self._chain.solve(y)
        matrix = [[wide_price(wide, reach) for reach in self._reach] for wide in border]
        for place, weight in enumerate(self._weights[inner:]):
            matrix[place][place] += 1 / weight
        amounts = _few(matrix, [wide_price(wide, y) + each for wide, each in zip(border, pull[inner:], strict=True)])
        for amount, reach in zip(amounts, self._reach, strict=True):
            y = [each - amount * far for each, far in zip(y, reach, strict=True)]
        return y, amounts


def _dot(one: Vector, other: Vector) -> float:
    total: float = sum(map(mul, one, other))
    return total


def _few(matrix: list[Vector], right: Vector) -> Vector:
    """One or two unknowns."""
    if len(right) == 1:
        return [right[0] / matrix[0][0]]
    (a, b), (c, d) = matrix
    whole = a * d - b * c
    return [(right[0] * d - b * right[1]) / whole, (a * right[1] - c * right[0]) / whole]
