"""The holes of a unit on its wall: where they are, which studs they meet, and what they form together."""

from typing import NamedTuple

from standfast.design.anchorage.statics import Point, Row
from standfast.design.anchorage.task import Task
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

    def upper(self) -> list[int]:
        """Places of the holes in the upper half of the pattern: those of the rail that a unit is hooked onto."""
        ups = [hole.up.quantity for hole in self.holes]
        middle = (max(ups) + min(ups)) / 2
        return [place for place, up in enumerate(ups) if up >= middle]

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
    timber = task.build_up.kind == "timber frame"
    holes = []
    for number, (across, up) in enumerate(spots):
        id, where = f"hole-{number + 1}", task.battery.place(f"fixing.holes.{number}")
        x_hole, y_hole = amount(across, "in"), given("y_hole", amount(up, "in"), "in", where)
        x, off = _across(task, x_hole, where, timber=timber)
        y = measured("y", _plus(task.place.bottom, amount(up, "in")), "in", f"lower edge + {where}", task.place.bottom)
        holes.append(Hole(id, x, y, y_hole, off))
    return Pattern(tuple(holes))


def _plus(mm: Value, inches: float) -> float:
    return 0.0 if mm.missing else mm.quantity / 25.4 + inches


def _across(task: Task, x_hole: float, where: str, *, timber: bool) -> tuple[Value, Value | None]:
    """Where a hole is drilled along the wall, and how far off its stud; a slot of the bracket may bring it closer."""
    left, x = task.place.left, _plus(task.place.left, x_hole)
    if not timber:
        return measured("x", x, "in", f"left edge + {where}", left), None
    facts = (left, task.of_build_up("first_stud", "x_stud_1", "in"), task.of_build_up("stud_spacing", "s_stud", "in"))
    if any(fact.missing for fact in facts):
        return measured("x", 0.0, "in", "", *facts), measured("x_off", 0.0, "in", "", *facts)
    middle = nearest_stud(x, facts[1].quantity, facts[2].quantity)
    half = _slot(task) / 2
    drilled = x + max(-half, min(half, middle - x))
    how = f"left edge + {where}" + (", moved towards its stud within the slot" if drilled != x else "")
    off = measured("x_off", drilled - middle, "in", f"{how}, less the stud's middle at {middle:g} in", *facts)
    return measured("x", drilled, "in", how, left), off


def nearest_stud(x: float, first: float, spacing: float) -> float:
    """Middle of the stud nearest to a place on the wall; all from the left end of the wall, in one unit."""
    return first + max(0, round((x - first) / spacing)) * spacing


def left_edges(task: Task) -> list[float]:
    """Left edges of the unit, mm, at which every hole meets the middle of a stud; none where a fact is not known.

    The place of the task does not matter here: this says where on its wall a unit may be put.
    """
    fixing, build, length = task.battery.content.fixing, task.build_up, task.wall.length
    if fixing is None or not fixing.holes or build.first_stud is None or build.stud_spacing is None:
        return []
    columns = sorted({amount(across, "mm") for across, _ in fixing.holes})
    first, spacing, half = amount(build.first_stud, "mm"), amount(build.stud_spacing, "mm"), _slot(task) * 25.4 / 2
    found = []
    for number in range(int((amount(length, "mm") - first) // spacing) + 1):
        left = first + number * spacing - columns[0]
        offs = [left + column - nearest_stud(left + column, first, spacing) for column in columns]
        middle = (max(offs) + min(offs)) / 2
        if max(offs) - middle <= half + HAIR_MM and left - middle >= 0:
            found.append(left - middle)
    return found


HAIR_MM = 0.05
"""Two conversions of one length may differ by less than this."""


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


def _slot(task: Task) -> float:
    """Length of the slots of the bracket, in; round holes have none."""
    fixing = task.battery.content.fixing
    return 0.0 if fixing is None or fixing.slot is None else amount(fixing.slot, "in")
