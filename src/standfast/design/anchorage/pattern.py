"""The holes of a unit on its wall: where they are, which studs they meet, and what they form together."""

from typing import NamedTuple

from standfast.design.anchorage.statics import Point, Row
from standfast.design.anchorage.task import Task, inches
from standfast.reading.quantities import amount
from standfast.sheet import Value, given, measured, missing, work


class Hole(NamedTuple):
    """One hole, in the order of the data sheet.

    Attributes:
        id: ``hole-1``, ``hole-2``, …
        x: from the left end of the wall, in: where the hole is drilled, within the slot of the bracket.
        y: above the floor, in.
        up: above the lower edge of the unit, in.
        off: distance from the middle of the stud, to the right, in; None in a wall without studs.
    """

    id: str
    x: Value
    y: Value
    up: Value
    off: Value | None


class Pattern(NamedTuple):
    """The holes, and the two ways in which they carry."""

    holes: tuple[Hole, ...]

    @property
    def points(self) -> list[Point]:
        """The holes in the plane of the wall."""
        return [Point(hole.x, hole.y) for hole in self.holes]

    def rows(self, bears_at: Value) -> list[Row]:
        """Rows by height over the line about which the unit tips; rows at or below it hold nothing."""
        heights = list(dict.fromkeys(hole.up.number for hole in self.holes))
        found = []
        for height in heights:
            same = [hole.up for hole in self.holes if hole.up.number == height]
            arm = work("y_row", "max(0, y_hole - y_bearing)", "in", None, y_hole=same[0], y_bearing=bears_at)
            found.append(Row(measured("n_row", float(len(same)), "1", "holes counted"), arm))
        return found


def pattern(task: Task) -> Pattern:
    """The holes of the data sheet on the wall; in a timber wall drilled in the middle of the stud where a slot allows.

    A fact that is not known makes the places missing, not the holes.
    """
    fixing = task.battery.content.fixing
    spots = fixing.holes if fixing is not None else ()
    left, bottom = inches("x_left", task.place.left), inches("y_bottom", task.place.bottom)
    timber = task.build_up.kind == "timber frame"
    holes = []
    for number, (across, up) in enumerate(spots):
        where = task.battery.place(f"fixing.holes.{number}")
        x_hole = given("x_hole", amount(across, "in"), "in", where)
        y_hole = given("y_hole", amount(up, "in"), "in", where)
        x = work("x", "x_left + x_hole", "in", None, left, x_hole)
        y = work("y", "y_bottom + y_hole", "in", None, bottom, y_hole)
        off = None
        if timber:
            x, off = _into_stud(task, x)
        holes.append(Hole(f"hole-{number + 1}", x, y, y_hole, off))
    return Pattern(tuple(holes))


def stud_centre(task: Task, x: Value) -> Value:
    """Middle of the stud nearest to a place on the wall, in from its left end."""
    first = task.of_build_up("first_stud", "x_stud_1", "in")
    spacing = task.of_build_up("stud_spacing", "s_stud", "in")
    lacking = [value for value in (first, spacing, x) if value.missing]
    if lacking:
        return missing("x_stud", "in", "; ".join(dict.fromkeys(value.how for value in lacking)), *lacking)
    number = max(0, round((x.quantity - first.quantity) / spacing.quantity))
    n = measured("n_stud", float(number), "1", "studs counted from the first", x)
    return work("x_stud", "x_stud_1 + n_stud * s_stud", "in", None, first, n, spacing)


def studs_met(task: Task, found: Pattern) -> Value:
    """How many studs the holes reach: a hole outside the width of its stud meets plasterboard alone."""
    width = task.of_build_up("stud_width", "b_stud", "in")
    offs = [hole.off for hole in found.holes if hole.off is not None]
    lacking = [value for value in (width, *offs) if value.missing]
    if lacking:
        return missing("n_studs", "1", "; ".join(dict.fromkeys(value.how for value in lacking)), *lacking)
    half = width.quantity / 2
    middles = {round(hole.x.quantity - hole.off.quantity, 3) for hole in found.holes
               if hole.off is not None and -half < hole.off.quantity < half}  # fmt: skip
    return measured("n_studs", float(len(middles)), "1", "studs whose width holds a hole", width, *offs)


def _into_stud(task: Task, x: Value) -> tuple[Value, Value]:
    middle = stud_centre(task, x)
    slot = _slot(task)
    shift = work("dx_slot", "max(-(l_slot / 2), min(l_slot / 2, x_stud - x))", "in", None, middle, slot, x=x)
    drilled = work("x_drilled", "x + dx_slot", "in", None, shift, x=x)
    return drilled, work("x_off", "x_drilled - x_stud", "in", None, drilled, middle)


def _slot(task: Task) -> Value:
    if task.battery.has("fixing.slot"):
        return task.battery.fact("fixing.slot", "l_slot", "in")
    return given("l_slot", 0.0, "in", "the holes of the bracket are round")
