"""Spacings of the anchors, edges of the concrete round them, and its thickness."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from standfast.design.anchorage.pattern import Pattern
from standfast.design.anchorage.task import Task
from standfast.faults import OutsideTable
from standfast.reading.quantities import amount
from standfast.rulebooks.aci318.shear import EdgeRow
from standfast.rulebooks.aci318.tension import Layout
from standfast.sheet import Value, given, measured, missing, work, worst
from standfast.survey.house import Opening


class Ground(NamedTuple):
    """What surrounds the anchors; lengths in inches, edges already shortened by the placing tolerance.

    Attributes:
        layout: gaps of the rectangular group and the edge distance on each side.
        nearest: the least edge distance.
        edge_row: the row of anchors that stands nearest to an edge.
        thickness: of the concrete.
    """

    layout: Layout
    nearest: Value
    edge_row: EdgeRow
    thickness: Value


def count(found: Pattern) -> Value:
    """Number of anchors."""
    return measured("n", float(len(found.holes)), "1", "holes of the data sheet counted")


def ground(task: Task, found: Pattern) -> Ground:
    """The group in its wall. The ends of the wall, its top, the floor and every opening count as edges.

    Raises:
        OutsideTable: where the holes do not form a rectangle.
    """
    right, top = task.of_wall("length", "l_wall", "in"), task.of_wall("height", "h_wall", "in")
    zero = given("zero", 0.0, "in", "left end of the wall, and the floor")
    return around(task, found, Sides([zero], [right], [zero], [top]), task.wall.openings)


class Sides(NamedTuple):
    """Where the concrete ends on each side, in: every edge that is known; the nearest counts."""

    left: list[Value]
    right: list[Value]
    below: list[Value]
    above: list[Value]


def around(task: Task, found: Pattern, sides: Sides, openings: Sequence[Opening] = ()) -> Ground:
    """The group between the edges of its concrete, each nearer by the placing tolerance.

    Raises:
        OutsideTable: where the holes do not form a rectangle.
    """
    thick = task.of_concrete("concrete_thickness", "h_a", "in")
    lacking = [place for hole in found.holes for place in (hole.x, hole.y) if place.missing]
    if lacking:
        nowhere = missing("c_a", "in", lacking[0].how, lacking[0])
        return Ground(Layout(c_x_neg=nowhere), nowhere, EdgeRow(nowhere), thick)
    xs, ys = _lines([hole.x for hole in found.holes]), _lines([hole.y for hole in found.holes])
    if len(xs) * len(ys) != len(found.holes):
        raise OutsideTable("the holes form no rectangle, which the breakout of a group needs")
    for opening in openings:
        _beside(task, opening, xs, ys, sides)
    t = task.tolerance
    c_left = _clear("c_left", worst("x_edge", sides.left, "max"), xs[0], t)
    c_right = _clear("c_right", xs[-1], worst("x_edge", sides.right, "min"), t)
    c_below = _clear("c_below", worst("y_edge", sides.below, "max"), ys[0], t)
    c_above = _clear("c_above", ys[-1], worst("y_edge", sides.above, "min"), t)
    layout = Layout(_gaps(xs), _gaps(ys), c_left, c_right, c_below, c_above)
    nearest = worst("c_a_min", [c_left, c_right, c_below, c_above], "min")
    return Ground(layout, nearest, _edge_row(layout, nearest, thick), thick)


def _edge_row(layout: Layout, nearest: Value, thick: Value) -> EdgeRow:
    """The column beside the nearest side edge, or the row at the nearest edge above or below."""
    if nearest.number in [side.number for side in (layout.c_x_neg, layout.c_x_pos) if side is not None]:
        return EdgeRow(nearest, layout.s_y, layout.c_y_neg, layout.c_y_pos, thick)
    return EdgeRow(nearest, layout.s_x, layout.c_x_neg, layout.c_x_pos, thick)


def _lines(places: list[Value]) -> list[Value]:
    """Places along one axis, each once, in order."""
    once = {place.quantity: place for place in places}
    return [once[number] for number in sorted(once)]


def _gaps(lines: list[Value]) -> tuple[Value, ...]:
    return tuple(work("s", "b - a", "in", None, a=a, b=b) for a, b in pairwise(lines))


def _clear(symbol: str, low: Value, high: Value, tolerance: Value) -> Value:
    return work(symbol, "max(0, high - low - t_placing)", "in", None, low=low, high=high, t_placing=tolerance)


def _beside(task: Task, opening: Opening, xs: list[Value], ys: list[Value], sides: Sides) -> None:
    """An opening ends the concrete on the side on which it lies; one among the anchors lies on all sides."""

    def edge(words: tuple[str, ...]) -> Value:
        number = sum(amount(getattr(opening, word), "in") for word in words)
        path = f"walls.{task.place.wall}.openings.{opening.id}"
        return given("x_opening", number, "in", f"{task.job.place(path)} {' + '.join(words)}")

    left, right = edge(("left",)), edge(("left", "width"))
    below, above = edge(("bottom",)), edge(("bottom", "height"))
    if right.quantity <= xs[0].quantity:
        sides.left.append(right)
    elif left.quantity >= xs[-1].quantity:
        sides.right.append(left)
    elif above.quantity <= ys[0].quantity:
        sides.below.append(above)
    elif below.quantity >= ys[-1].quantity:
        sides.above.append(below)
    else:
        sides.left.append(xs[0])
        sides.right.append(xs[-1])
