"""What the worst fastener of a hung unit carries in a combination of loads."""

from typing import NamedTuple

from standfast.design.anchorage import statics
from standfast.design.anchorage.loads import Case
from standfast.design.anchorage.pattern import Pattern
from standfast.design.anchorage.rails import rail_shear
from standfast.design.anchorage.task import Task, inches
from standfast.sheet import Value, chosen, work


class Forces(NamedTuple):
    """On the worst fastener: tension and shear in lb, and the angle of the shear to the upright in degrees."""

    T: Value
    V: Value
    theta: Value


Asked = list[tuple[Case, Forces]]
"""Every combination with what it asks of the worst fastener."""


def asked(task: Task, found: Pattern, cases: list[Case], *, on_upper_rail: bool = False) -> Asked:
    """What every combination asks of the worst fastener."""
    return [(case, on(task, found, case, on_upper_rail=on_upper_rail)) for case in cases]


def on(task: Task, found: Pattern, case: Case, *, on_upper_rail: bool = False) -> Forces:
    """Tension and shear of the worst fastener, taken together even where they fall on two different ones.

    The weight is shared by all fasteners, or hangs on those of the upper half alone.
    """
    fact = task.battery.fact
    bears_at, up = fact("fixing.bears_at", "y_bearing", "in"), fact("body.cg_height", "y_cg", "in")
    at = up if case.at is None else case.at
    arm = work("y_arm", "y - y_bearing", "in", None, bears_at, y=at)
    T = statics.hung(case.W, fact("body.cg_out", "e", "in"), case.out, arm, found.rows(bears_at)).tension
    left, bottom = inches("x_left", task.place.left), inches("y_bottom", task.place.bottom)
    x_cg = work("x_cg_wall", "x_left + x_cg", "in", None, left, fact("body.cg_left", "x_cg", "in"))
    y_cg = work("y_cg_wall", "y_bottom + y_cg", "in", None, bottom, y_cg=at)
    if on_upper_rail:
        share = _upper_share(task)
        W = work("W_upper", "k_upper * W", "lb", task.practice.clause("hanging"), share, W=case.W)
        shear = rail_shear(W, case.along, x_cg, y_cg, found.points, found.upper())
    else:
        shear = statics.group_shear(case.W, case.along, x_cg, y_cg, found.points)
    text = "atan2(max(V_along, -V_along), max(V_down, -V_down)) * 180 / pi"
    return Forces(T, shear.resultant, work("theta", text, "deg", None, shear.along, shear.down))


def _upper_share(task: Task) -> Value:
    """The part of the weight on the upper fasteners: all of it by the maker, or as a bound where it is silent."""
    lower = task.battery.fact("fixing.lower_carry", "lower_carry")
    if lower.missing:
        return task.practice.bounding("weight_on_upper_rail", lower.how)
    return chosen("k_upper", 1.0, "1", "the lower fasteners carry none of the weight", task.maker, lower)
