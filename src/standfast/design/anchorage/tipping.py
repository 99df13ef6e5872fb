"""Statics of a unit that stands: what its brace and the anchors of its foot carry when something pushes it.

It tips about the outermost points of its foot. Friction at the base is never counted. A foot that holds takes all that
pushes; a brace takes what tips the unit off its wall, or everything where nothing holds the foot.
"""

from typing import Literal

from standfast.design.anchorage import statics
from standfast.design.anchorage.forces import Asked, Forces
from standfast.design.anchorage.loads import Case
from standfast.design.anchorage.pattern import Pattern
from standfast.design.anchorage.statics import Point, Row
from standfast.design.anchorage.task import Task, nothing
from standfast.reading.quantities import amount
from standfast.sheet import Value, given, measured, missing, total, work, worst

Side = Literal["front", "back", "left", "right"]
AXIS: dict[Side, int] = {"left": 0, "right": 0, "back": 1, "front": 1}
"""Side of the foot → coordinate that counts: along the wall, or out from the back of the unit."""


def toe(task: Task, side: Side) -> Value:
    """The outermost point of the foot on a side, in: from the left edge of the unit, or out from its back."""
    fixing = task.battery.content.fixing
    feet = fixing.feet if fixing is not None else ()
    if not feet:
        return missing("x_toe", "in", task.unsaid("feet"))
    places = [amount(foot[AXIS[side]], "in") for foot in feet]
    number = max(places) if side in ("front", "right") else min(places)
    return given("x_toe", number, "in", f"{task.battery.place('fixing.feet')}: the outermost on the {side}")


def centre(task: Task, side: Side) -> Value:
    """The centre of gravity from the left edge of the unit, or out from its back, in."""
    if AXIS[side] == 0:
        return task.battery.fact("body.cg_left", "x_cg", "in")
    e, gap = task.battery.fact("body.cg_out", "e", "in"), task.battery.fact("body.standoff", "s_gap", "in")
    return work("x_cg", "e - s_gap", "in", None, e, gap)


def arm(task: Task, side: Side) -> Value:
    """How far the foot reaches beyond the centre of gravity on a side, in; negative where it does not."""
    text = "x_toe - x_cg" if side in ("front", "right") else "x_cg - x_toe"
    return work(f"a_{side}", text, "in", None, toe(task, side), x_cg=centre(task, side))


def height(task: Task, case: Case) -> Value:
    """Height above the base at which the force of a combination acts, in."""
    return task.battery.fact("body.cg_height", "h_cg", "in") if case.at is None else case.at


def moment(task: Task, case: Case, side: Side) -> Value:
    """What tips the unit over its toe on a side, less the weight that holds it; negative where it stands by itself."""
    push = case.along if AXIS[side] == 0 else case.out
    return statics.tipping_moment(push, height(task, case), case.W, arm(task, side))


def brace(task: Task, found: Pattern, cases: list[Case], *, alone: bool) -> Asked:
    """What every combination asks of the worst fastener of the brace.

    The lowest fastener counts as the height of the brace: the safe reading. The pull is shared by all, more by those
    on the side of the centre of gravity.

    Args:
        task: the unit at its wall.
        found: the holes of its brace.
        cases: the combinations.
        alone: True where nothing holds the foot, so that the brace carries all that pushes.
    """
    h_s = worst("h_s", [hole.up for hole in found.holes], "min")
    n = measured("n", float(len(found.holes)), "1", "fasteners counted")
    return [(case, _on_brace(task, found, case, h_s, n, alone=alone)) for case in cases]


def _on_brace(task: Task, found: Pattern, case: Case, h_s: Value, n: Value, *, alone: bool) -> Forces:
    M = moment(task, case, "front")
    if alone:
        R = work("R_brace", "max(E, M / h_s)", "lb", None, h_s, M, E=case.out)
        along = statics.share("V", case.along, n)
    else:
        R = work("R_brace", "max(0, M) / h_s", "lb", None, h_s, M)
        along = nothing("V", "lb", "the foot holds what pushes along the wall")
    down = nothing("V_down", "lb", "a brace carries no weight")
    theta = work("theta", "atan2(V, V_down) * 180 / pi", "deg", None, down, V=along)
    return Forces(_worst_pull(task, found, R, n), along, theta)


def _worst_pull(task: Task, found: Pattern, R: Value, n: Value) -> Value:
    """The pull of the brace on one fastener, with its twist where the centre of gravity is not in their middle."""
    group = statics.middle([Point(hole.x, hole.y) for hole in found.holes])
    spread = [work("dx2", "(x - x_c) ** 2", "in2", None, group.x_c, x=hole.x) for hole in found.holes]
    lacking = [value for value in spread if value.missing]
    if lacking:
        return missing("T", "lb", lacking[0].how, lacking[0])
    if not sum(value.quantity for value in spread):
        return statics.share("T", R, n)
    place = work("x_left", "x / 25.4", "in", None, x=task.place.left)
    x_cg = work("x_cg_wall", "x_left + x_cg", "in", None, place, task.battery.fact("body.cg_left", "x_cg", "in"))
    sum_dx2 = total("sum_dx2", spread, "in2")
    text = "R / n + R * (x_cg - x_c) * (x - x_c) / sum_dx2"
    each = [work("T", text, "lb", None, n, group.x_c, sum_dx2, R=R, x_cg=x_cg, x=hole.x) for hole in found.holes]
    return worst("T", each, "max")


def swing(task: Task, found: Pattern, case: Case) -> list[tuple[Value, Value]]:
    """Nothing holds the foot: what turns the unit about its brace, and the moment of the weight against it, lb·in.

    The brace carries the whole force at its own height; where the force acts higher or lower the unit turns, and only
    its weight keeps the foot where it is. Both ways across the wall, and along it.
    """
    ups = [hole.up for hole in found.holes]
    low, high = worst("h_low", ups, "min"), worst("h_high", ups, "max")
    h = height(task, case)
    text = "E * max(h - h_low, h_high - h)"
    pairs = []
    sides: tuple[tuple[Value, Side, Side], ...] = ((case.out, "front", "back"), (case.along, "left", "right"))
    for push, one, other in sides:
        M = work("M_swing", text, "lb·in", None, low, high, h=h, E=push)
        least = worst("a_least", [arm(task, one), arm(task, other)], "min")
        pairs.append((M, work("M_held", "W * a_least", "lb·in", None, least, W=case.W)))
    return pairs


def foot(task: Task, found: Pattern, cases: list[Case], k_tip: Value, *, towards: bool) -> Asked:
    """What every combination asks of the worst anchor of the foot.

    Args:
        task: the foot of the unit.
        found: its holes: along the wall, and out from it.
        cases: the combinations.
        k_tip: part of the tipping across the wall that the foot carries.
        towards: True where it must keep the unit from tipping towards the wall too.
    """
    return [(case, _on_foot(task, found, case, k_tip, towards=towards)) for case in cases]


def _on_foot(task: Task, found: Pattern, case: Case, k_tip: Value, *, towards: bool) -> Forces:
    sides: tuple[Side, ...] = ("front", "back") if towards else ("front",)
    across = worst("T", [_pull(task, case, side) for side in sides], "max")
    beside = worst("T", [_pull(task, case, "left"), _pull(task, case, "right")], "max")
    T = work("T", "k_tip * T_across + T_along", "lb", None, k_tip, T_across=across, T_along=beside)
    x_left = work("x_left", "x / 25.4", "in", None, x=task.place.left)
    x_cg = work("x_cg_wall", "x_left + x_cg", "in", None, x_left, task.battery.fact("body.cg_left", "x_cg", "in"))
    points = [Point(hole.x, hole.y) for hole in found.holes]
    shear = statics.group_shear(case.out, case.along, x_cg, task.battery.fact("body.cg_out", "e", "in"), points)
    return Forces(T, shear.resultant, nothing("theta", "deg", "concrete has no grain"))


def _pull(task: Task, case: Case, side: Side) -> Value:
    """Pull on one anchor of the row that is farthest from the toe."""
    edge, fixing = toe(task, side), task.battery.content.fixing
    text = "max(0, x_toe - x_hole)" if side in ("front", "right") else "max(0, x_hole - x_toe)"
    places: dict[float, list[str]] = {}
    for number, spot in enumerate(fixing.base_holes if fixing is not None else ()):
        where = task.battery.place(f"fixing.base_holes.{number}")
        places.setdefault(amount(spot[AXIS[side]], "in"), []).append(where)
    rows: list[Row] = []
    for place, holes in places.items():
        x_hole = given("x_hole", place, "in", holes[0])
        count = measured("n_row", float(len(holes)), "1", "anchors at this distance counted")
        rows.append(Row(count, work("d", text, "in", None, edge, x_hole)))
    return statics.tension(moment(task, case, side), rows, "lb")
