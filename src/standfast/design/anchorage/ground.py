"""What a unit stands on: whether it carries, where its concrete ends, and a pad that stands by itself."""

from collections.abc import Iterator

from standfast.design.anchorage import loads, pad, tipping
from standfast.design.anchorage.edges import Sides
from standfast.design.anchorage.loads import Case
from standfast.design.anchorage.pattern import Hole, Pattern
from standfast.design.anchorage.ratios import told
from standfast.design.anchorage.task import Task
from standfast.reading.quantities import amount
from standfast.rulebooks.aci318.bearing import bearing
from standfast.rulebooks.asce7 import combinations
from standfast.sheet import (
    Check,
    Value,
    at_least,
    at_most,
    cannot_tell,
    chosen,
    given,
    measured,
    one_of,
    settle,
    work,
    worst,
)
from standfast.survey.house import Footing

CAST = "cast a concrete pad for it, thick and wide enough for its anchors"
REFUSED = {
    "pavers": f"pavers sink and tip one by one and hold no anchor: {CAST}",
    "earth": f"earth gives way under a foot and holds no anchor: {CAST}",
}
"""What carries no unit, and the way out."""
JOISTS = (
    "whether the joists of a wood floor carry the unit, and what holds it to them, is not worked out here: the builder "
    "or an engineer must say, or stand the unit on concrete"
)
SCAN_FIRST = "the concrete is scanned for tendons, pipes and cables at each hole before it is drilled"
CONCRETE = ("concrete slab", "concrete pad")


def footing(task: Task) -> Footing:
    """What the job says of the ground at this wall; empty where it says nothing."""
    return task.wall.footing or Footing.model_construct()


def concrete(task: Task) -> bool:
    """True where the unit stands on concrete that anchors can hold in."""
    return footing(task).kind in CONCRETE


def checks(task: Task, cases: list[Case]) -> Iterator[Check]:
    """Does the ground carry the unit, does the maker allow it, and does a pad by itself stay where it is?

    Args:
        task: the foot of the unit.
        cases: the combinations at strength level, without overstrength: what the pad itself must bear.
    """
    yield _carries(task)
    yield _maker_allows(task)
    yield _balanced(task)
    if concrete(task):
        yield _presses(task)
        yield _on_concrete(task)
    if footing(task).kind == "concrete pad":
        yield from pad.checks(task, cases, sides(task))


def _carries(task: Task) -> Check:
    id, title, clause = (
        task.id("footing-carries"),
        "The ground carries a standing unit",
        task.practice.clause("standing"),
    )
    kind = task.of_wall("footing.kind", "footing")
    if kind.missing:
        return cannot_tell(id, title, clause, kind.how, kind)
    if kind.word in REFUSED:
        return Check(id, title, clause, "fail", demand=kind, reason=REFUSED[kind.word])
    if kind.word == "wood floor":
        return cannot_tell(id, title, clause, JOISTS, kind)
    carries = chosen("carries", tuple(sorted(CONCRETE)), "", "ground whose anchors can be worked out", clause)
    level = "slab or pad is level where the unit stands; shims, where the maker allows them, are of steel"
    return one_of(id, title, clause, kind, carries, condition=level)


def _maker_allows(task: Task) -> Check:
    title, fixing = "The maker lets the unit stand on this", task.battery.content.fixing
    allowed = task.battery.fact("fixing.stands_on", "stands_on")
    if fixing is None or not fixing.stands_on:
        return cannot_tell(task.id("maker-footing"), title, task.maker, task.unsaid("stands_on"))
    check = one_of(task.id("maker-footing"), title, task.maker, task.of_wall("footing.kind", "footing"), allowed)
    return told(check, f"the maker allows {' or '.join(fixing.stands_on)} only: change the ground or ask the maker")


def _balanced(task: Task) -> Check:
    """A unit whose weight lies outside its feet leans on what holds it for good, which is not worked out."""
    title, clause = "The unit stands by itself on its feet", task.practice.clause("standing")
    arms = [tipping.arm(task, side) for side in tipping.AXIS]
    least = given("a_min", 0.0, "in", "the centre of gravity over the feet")
    check = at_least(task.id("foot-stands"), title, clause, worst("a_least", arms, "min"), least)
    return told(
        check, "its weight lies outside its feet: see that cg_left, cg_out and feet of its data sheet are right"
    )


def _presses(task: Task) -> Check:
    """The weight on the area of the foot, the whole of it where the unit rocks onto half of its feet."""
    id, title = task.id("foot-bearing"), "The concrete carries the foot of the unit"
    aci, asce, D = task.books.book("aci318"), task.books.book("asce7"), loads.weight(task)
    clause = aci.clause("bearing")

    def ask() -> Check:
        down = combinations.strength_down(asce, D, loads.acceleration(task))
        W = worst("W_u", [combinations.strength_permanent(asce, D), down], "max")
        A = task.battery.fact("fixing.foot_area", "A_foot", "in2")
        half = work("A_1", "A_foot / 2", "in2", None, A)
        holds = bearing(aci, task.of_concrete("concrete_strength", "f_c", "psi"), half)
        return told(at_most(id, title, clause, W, holds), "put steel plates under the feet that spread the weight")

    return settle(id, title, clause, ask)


def drilled(task: Task) -> Check:
    """May the concrete be drilled? A tendon that is cut can take the slab with it, and a pipe the house."""
    id, title = task.id("footing-scan"), "It is known whether the concrete was scanned where it is drilled"
    found, practice = task.of_wall("footing.scan", "scan"), task.practice
    condition = "" if found.number == "clear" else SCAN_FIRST
    check = one_of(id, title, practice.clause("drilling"), found, practice.number("drilling_footing"),
                   condition=condition)  # fmt: skip
    return told(check, "never drill where tendons or pipes lie: move the unit, or have an engineer say where")


def sides(task: Task) -> Sides:
    """Where the concrete ends: along the wall in the wall's measure, out from the wall in its own; all in inches.

    A pad ends where it says. A slab runs along the whole wall. How far concrete goes on behind the wall's face counts
    as nothing where it is not known.
    """
    ground, zero = footing(task), given("x_left", 0.0, "in", "left end of the wall")
    if ground.kind == "concrete pad" or ground.left is not None:
        left = task.of_wall("footing.left", "x_left", "in")
    else:
        left = zero
    if ground.kind == "concrete pad" or ground.width is not None:
        right = work("x_right", "x_left + b_pad", "in", None, left, b_pad=task.of_wall("footing.width", "b_pad", "in"))
    else:
        right = task.of_wall("length", "l_wall", "in")
    behind = task.of_wall("footing.behind", "c_behind", "in")
    if behind.missing:
        behind = task.practice.bounding("concrete_behind", behind.how)
    back = work("y_back", "-c_behind", "in", None, behind)
    return Sides([left], [right], [back], [task.of_wall("footing.depth", "d_pad", "in")])


def holes(task: Task) -> Pattern:
    """The holes of the foot in plan: along the wall from its left end, and out from its face, in inches."""
    fixing = task.battery.content.fixing
    spots = fixing.base_holes if fixing is not None else ()
    gap = task.battery.fact("body.standoff", "s_gap", "in")
    found = []
    for number, (across, out) in enumerate(spots):
        where = task.battery.place(f"fixing.base_holes.{number}")
        x_hole, y_hole = (
            given(symbol, amount(each, "in"), "in", where) for symbol, each in (("x", across), ("y", out))
        )
        x = _plain("x", task.place.left, 0.0 if task.place.left.missing else task.place.left.quantity / 25.4, x_hole)
        y = _plain("y", gap, 0.0 if gap.missing else gap.quantity, y_hole)
        found.append(Hole(f"foot-{number + 1}", x, y, y_hole, None))
    return Pattern(tuple(found))


def _plain(symbol: str, start: Value, inches: float, more: Value) -> Value:
    """A place in plan; rounded, so that holes of one row are seen to be in one."""
    return measured(symbol, round(inches + more.quantity, 6), "in", f"{start.symbol} + {more.how}", start, more)


def _on_concrete(task: Task) -> Check:
    """No foot hangs over the edge of the concrete, as nearly as it is placed."""
    title, clause, ends = "The whole foot stands on the concrete", task.practice.clause("standing"), sides(task)
    left = work("x_unit", "x / 25.4", "in", None, x=task.place.left)
    gap, t = task.battery.fact("body.standoff", "s_gap", "in"), task.tolerance
    toes = {side: tipping.toe(task, side) for side in tipping.AXIS}
    beyond, within = "x_end - x_unit - x_toe - t", "x_unit + x_toe - x_end - t"
    room = [
        work("c_left", within, "in", None, x_unit=left, x_toe=toes["left"], x_end=ends.left[0], t=t),
        work("c_right", beyond, "in", None, x_unit=left, x_toe=toes["right"], x_end=ends.right[0], t=t),
        work("c_front", beyond, "in", None, x_unit=gap, x_toe=toes["front"], x_end=ends.above[0], t=t),
    ]
    least = given("c_min", 0.0, "in", "no part beyond the concrete")
    check = at_least(task.id("footing-extent"), title, clause, worst("c_foot", room, "min"), least)
    return told(check, "the foot hangs over the edge of the concrete: move the unit, or make the pad larger")
