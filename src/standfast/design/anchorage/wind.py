"""Wind on a unit outdoors (ASCE 7): as on a box in the open, which is safe for one that stands before a wall."""

from typing import NamedTuple

from standfast.design.anchorage.task import Task
from standfast.faults import OutsideTable
from standfast.rulebooks.asce7 import wind
from standfast.sheet import Value, attempt, chosen, missing, work
from standfast.shelf import Edition
from standfast.units import POUND_FORCE_N

HILL = "conditions.wind_hill: a hill, ridge or scarp speeds the wind up, by a factor that an engineer finds"
BOX = "the unit is taken as rooftop equipment, which has the greatest coefficient of any box"


class Wind(NamedTuple):
    """Forces at strength level, lb: off the wall, along it and upward; and the height at which they act, in."""

    out: Value
    along: Value
    up: Value
    at: Value


def outdoors(task: Task) -> bool:
    """True where the wall is seen from a place outdoors."""
    return task.room is not None and task.room.kind == "outside"


def on(task: Task) -> Wind:
    """The wind on a unit. A site whose wind is not known gives missing forces that say what to find out."""
    asce = task.books.book("asce7")
    width, height, depth = (task.battery.fact(f"body.{word}", word, "m") for word in ("width", "height", "depth"))
    q_z = attempt("q_z", "Pa", lambda: _pressure(task, asce))
    GC_r = attempt("GC_r", "1", lambda: asce.bounding("box_coefficient", BOX))
    lift = attempt("GC_r", "1", lambda: asce.bounding("box_uplift", BOX))
    return Wind(
        _force(asce, q_z, GC_r, width, height),
        _force(asce, q_z, GC_r, depth, height),
        _force(asce, q_z, lift, width, depth),
        work("h_w", "height / 2", "in", None, task.battery.fact("body.height", "height", "in")),
    )


def _pressure(task: Task, asce: Edition) -> Value:
    V = task.job.fact("conditions.wind_speed", "V", "m/s")
    exposure = task.job.fact("conditions.wind_exposure", "exposure")
    hill = task.job.fact("conditions.wind_hill", "hill")
    floor = task.of_wall("floor_above_grade", "z_floor", "mm")
    if V.missing or exposure.missing or hill.missing or floor.missing:
        lacking = [value for value in (V, exposure, hill, floor) if value.missing]
        return missing("q_z", "Pa", "; ".join(value.how for value in lacking), *lacking)
    if hill.yes:
        raise OutsideTable(HILL)
    flat = asce.number("topography_flat")
    K_zt = chosen("K_zt", flat.quantity, "1", "no hill, ridge or scarp", asce.clause("topography"), flat, hill)
    height = task.battery.fact("body.height", "height", "mm")
    top = work("z_top_mm", "max(0, z_floor) + x + height", "mm", None, floor, height, x=task.place.bottom)
    z = work("z", "z_top_mm / 1000", "m", None, top)
    return wind.pressure_without_direction(asce, V, exposure.word, z, K_zt)


def _force(asce: Edition, q_z: Value, GC_r: Value, wide: Value, high: Value) -> Value:
    area = work("A_f", "b * h", "m2", None, b=wide, h=high)
    F_w = attempt("F_w", "N", lambda: wind.on_box(asce, q_z, GC_r, area))
    return work("F_w", f"F / {float(POUND_FORCE_N)}", "lb", None, F=F_w)
