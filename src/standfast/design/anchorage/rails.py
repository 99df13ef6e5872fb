"""Shear of a unit that hangs on the upper rail of its bracket: some fasteners take the weight, all take what is across.

A unit hooks onto its upper rail; whether the lower one carries any weight only its maker can say. Plain mechanics.
"""

from collections.abc import Collection, Sequence
from math import hypot

from standfast.design.anchorage.statics import Point, ShearForces, group_shear, in_plain, middle, on_point
from standfast.sheet import Value, given, work


def rail_shear(
    W: Value, E: Value, x_cg: Value, y_cg: Value, points: Sequence[Point], carrying: Collection[int]
) -> ShearForces:
    """Shear on the worst fastener where only some of them carry the weight.

    Args:
        W: downward force at the centre of gravity.
        E: force along the wall at the centre of gravity, to the worse side; every fastener shares in it.
        x_cg: centre of gravity, right of the point of reference.
        y_cg: centre of gravity, above it.
        points: the fasteners.
        carrying: places, in `points`, of those that carry the weight; at least one.
    """
    if len(carrying) == len(points):
        return group_shear(W, E, x_cg, y_cg, points)
    whole, rail = middle(points), middle([point for place, point in enumerate(points) if place in carrying])
    none = given("F_none", 0.0, W.unit, "the other load stands beside it")

    def plain(place: int, side: float) -> float:
        down, along = in_plain(points[place], side, none, E, x_cg, y_cg, whole)
        if place in carrying:
            more = in_plain(points[place], side, W, none, x_cg, y_cg, rail)
            down, along = down + more[0], along + more[1]
        return hypot(down, along)

    place, side = min(carrying), 1.0
    if not any(value.missing for value in (W, E, x_cg, y_cg, *whole, *rail)):
        tries = [(place, side) for place in range(len(points)) for side in (1.0, -1.0)]
        place, side = max(tries, key=lambda each: plain(*each))
    across = on_point(points[place], none, E, side, x_cg, y_cg, whole)
    if place not in carrying:
        return across
    weight = on_point(points[place], W, none, side, x_cg, y_cg, rail)
    down = work("V_down", "W_down + E_down", W.unit, None, W_down=weight.down, E_down=across.down)
    along = work("V_along", "W_along + E_along", W.unit, None, W_along=weight.along, E_along=across.along)
    return ShearForces(down, along, work("V", "hypot(V_down, V_along)", W.unit, None, down, along))
