"""Statics of a rigid unit on its fasteners: plain mechanics that belongs to no book.

Forces are in one unit, lengths in one unit; results follow. A stiff body turns about its lower edge or toe, and the
tension of a fastener grows with its distance from there.
"""

from collections.abc import Sequence
from math import hypot
from typing import NamedTuple

from standfast.sheet import Value, chosen, measured, total, work, worst


class Row(NamedTuple):
    """Fasteners at one distance from the edge that the body turns about: how many, and the distance."""

    fasteners: Value
    arm: Value


class WallForces(NamedTuple):
    """What the fasteners of a hung body carry.

    Attributes:
        tension: greatest on one fastener.
        bearing: of the lower edge against the wall; negative where the edge lifts off.
        total: of all fasteners together, outward.
    """

    tension: Value
    bearing: Value
    total: Value


def tipping_moment(E: Value, h: Value, W_held: Value, x: Value) -> Value:
    """Moment about the toe of a standing body: horizontal force at its height, less the weight that holds it.

    Args:
        E: horizontal force, with overstrength where the fasteners ask for it: **before** the weight is taken off.
        h: height of the force over the base.
        W_held: weight that the load combination lets count.
        x: distance from the toe to the centre of gravity.
    """
    return work("M", "E * h - W * x", f"{E.unit}·{h.unit}", None, E=E, h=h, W=W_held, x=x)


def tension(M: Value, rows: Sequence[Row], force_unit: str) -> Value:
    """Tension of one fastener in the farthest row of a stiff body that turns about its edge; 0 if nothing pulls."""
    clause = None
    squares = [work("n_d2", "n * d ** 2", f"{row.arm.unit}2", clause, n=row.fasteners, d=row.arm) for row in rows]
    stiffness = total("sum_n_d2", squares, squares[0].unit)
    far = worst("d_max", [row.arm for row in rows], "max")
    return work("T", "max(0, M) * d_max / sum_n_d2", force_unit, clause, far, stiffness, M=M)


def share(symbol: str, force: Value, count: Value) -> Value:
    """A force shared evenly by so many fasteners."""
    return work(symbol, "F / n", force.unit, None, F=force, n=count)


def hung(W: Value, e: Value, E: Value, y_cg: Value, rows: Sequence[Row]) -> WallForces:
    """A body hung on a wall, its lower edge bearing on the wall at height 0.

    Args:
        W: downward load of the combination.
        e: distance of the centre of gravity from the wall.
        E: outward force of the combination at the centre of gravity; 0 without earthquake.
        y_cg: height of the centre of gravity over the lower edge.
        rows: rows of fasteners and their heights over the lower edge.
    """
    M = work("M", "W * e + E * y_cg", f"{W.unit}·{e.unit}", None, W=W, e=e, E=E, y_cg=y_cg)
    T = tension(M, rows, W.unit)
    far = worst("d_max", [row.arm for row in rows], "max")
    parts = [work("T_row", "n * T * y / d_max", W.unit, None, T, far, n=row.fasteners, y=row.arm) for row in rows]
    pulled = total("T_sum", parts, W.unit)
    bearing = work("R_edge", "T_sum - E", W.unit, None, pulled, E=E)
    if bearing.missing or bearing.quantity >= 0:
        return WallForces(T, bearing, pulled)
    return WallForces(
        _lifted_off(M, E, rows), bearing, work("T_sum", "max(T_held, E)", W.unit, None, T_held=pulled, E=E)
    )


def _lifted_off(M: Value, E: Value, rows: Sequence[Row]) -> Value:
    """The lower edge lifts: the fasteners alone balance force and moment, about their own middle."""
    n = total("n", [row.fasteners for row in rows], "1")
    arms = [work("n_y", "n * y", row.arm.unit, None, n=row.fasteners, y=row.arm) for row in rows]
    y_c = work("y_c", "S / n", rows[0].arm.unit, None, n, S=total("S", arms, rows[0].arm.unit))
    spread = [
        work("n_dy2", "n * (y - y_c) ** 2", f"{row.arm.unit}2", None, y_c, n=row.fasteners, y=row.arm) for row in rows
    ]
    stiffness = total("sum_n_dy2", spread, spread[0].unit)
    if stiffness.missing or stiffness.quantity == 0:
        return work("T", "E / n", E.unit, None, n, E=E)
    text = "E / n + (M - E * y_c) * (y - y_c) / sum_n_dy2"
    each = [work("T", text, E.unit, None, n, y_c, stiffness, E=E, M=M, y=row.arm) for row in rows]
    return worst("T", each, "max")


class Point(NamedTuple):
    """A fastener in the plane of the wall: right of, and above, a point of reference."""

    x: Value
    y: Value


class ShearForces(NamedTuple):
    """The worst fastener of a group in its plane: down, along the wall (to the right), and the resultant."""

    down: Value
    along: Value
    resultant: Value


class Middle(NamedTuple):
    """Middle of a group of fasteners, their number, and the sum of their squared distances from it."""

    x_c: Value
    y_c: Value
    n: Value
    sum_r2: Value


def middle(points: Sequence[Point]) -> Middle:
    """The middle of a group; found by plain geometry."""
    places = [place for point in points for place in point]
    count, unit = len(points), places[0].unit
    if any(place.missing for place in places):
        x_c = y_c = r_2 = 0.0
    else:
        x_c = sum(point.x.quantity for point in points) / count
        y_c = sum(point.y.quantity for point in points) / count
        r_2 = sum((point.x.quantity - x_c) ** 2 + (point.y.quantity - y_c) ** 2 for point in points)
    return Middle(
        measured("x_c", x_c, unit, f"mean of {count} fasteners", *(point.x for point in points)),
        measured("y_c", y_c, unit, f"mean of {count} fasteners", *(point.y for point in points)),
        measured("n", float(count), "1", "fasteners counted"),
        measured("sum_r2", r_2, f"{unit}2", f"squared distances of {count} fasteners from their middle", *places),
    )


def group_shear(W: Value, E: Value, x_cg: Value, y_cg: Value, points: Sequence[Point]) -> ShearForces:
    """Shear on the worst fastener of a group: even share, plus what twists the group about its middle.

    The worst one is found in plain numbers; its forces are then worked out on the sheet.

    Args:
        W: downward force at the centre of gravity.
        E: force along the wall at the centre of gravity, to the worse side.
        x_cg: centre of gravity, right of the point of reference.
        y_cg: centre of gravity, above it.
        points: the fasteners.
    """
    group = middle(points)
    if any(value.missing for value in (W, E, x_cg, y_cg, *group)):
        return on_point(points[0], W, E, 1.0, x_cg, y_cg, group)
    tries = [(point, side) for point in points for side in (1.0, -1.0)]
    at, side = max(tries, key=lambda each: hypot(*in_plain(each[0], each[1], W, E, x_cg, y_cg, group)))
    return on_point(at, W, E, side, x_cg, y_cg, group)


def on_point(point: Point, W: Value, E: Value, side: float, x_cg: Value, y_cg: Value, group: Middle) -> ShearForces:
    """Forces on one fastener; `side` is 1 for a force along the wall to the right and -1 to the left."""
    x_c, y_c, n, polar = group
    way = chosen("s", side, "1", "force along the wall to the right" if side > 0 else "to the left", None)
    if polar.missing or polar.quantity == 0:
        down = work("V_down", "W / n", W.unit, None, n, W=W)
        along = work("V_along", "s * E / n", W.unit, None, n, way, E=E)
    else:
        # A force to the right above the middle turns the group clockwise, as a weight right of the middle does.
        twist = work("M_t", "W * (x_cg - x_c) + s * E * (y_cg - y_c)", f"{W.unit}·{x_cg.unit}", None, x_c, y_c, way,
                     W=W, E=E, x_cg=x_cg, y_cg=y_cg)  # fmt: skip
        down = work("V_down", "W / n + M_t * (x - x_c) / sum_r2", W.unit, None, n, twist, x_c, polar, W=W, x=point.x)
        along = work("V_along", "s * E / n + M_t * (y - y_c) / sum_r2", W.unit, None, n, way, twist, y_c, polar,
                     E=E, y=point.y)  # fmt: skip
    return ShearForces(down, along, work("V", "hypot(V_down, V_along)", W.unit, None, down, along))


def in_plain(
    point: Point, side: float, W: Value, E: Value, x_cg: Value, y_cg: Value, group: Middle
) -> tuple[float, float]:
    """What `on_point` works out, down and along, in plain numbers: to find the worst fastener."""
    x_c, y_c, n, polar = (value.quantity for value in group)
    down, along = W.quantity / n, side * E.quantity / n
    if polar:
        twist = W.quantity * (x_cg.quantity - x_c) + side * E.quantity * (y_cg.quantity - y_c)
        down += twist * (point.x.quantity - x_c) / polar
        along += twist * (point.y.quantity - y_c) / polar
    return down, along
