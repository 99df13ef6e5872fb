"""What pulls at the fixings: the weight for good, the earthquake in every direction, outdoors the wind (ASCE 7).

Wood is designed at allowable-stress level and concrete at strength level, each with its own combinations. The
earthquake acts outward and along the wall, with the part of it that acts across at the same time.
"""

from functools import partial
from typing import Literal, NamedTuple

from standfast.design.anchorage import wind
from standfast.design.anchorage.task import Task, nothing
from standfast.reading.quantities import amount
from standfast.rulebooks.asce7 import combinations, components
from standfast.rulebooks.asce7.combinations import Level
from standfast.rulebooks.asce7.components import Force
from standfast.sheet import Value, attempt, chosen, given, total, work, worst
from standfast.shelf import Edition

Name = Literal["permanent", "quake_out", "quake_along", "quake_light", "wind_out", "wind_along"]


class Case(NamedTuple):
    """One combination of loads.

    Attributes:
        name: ``permanent``, ``quake_out``, ``quake_along``, ``quake_light``, ``wind_out`` or ``wind_along``.
        W: downward force, lb; for a unit that stands what may be counted against tipping.
        out: force away from the wall, lb.
        along: force along the wall, to the worse side, lb.
        at: height above the lower edge at which the forces act, in; None for the centre of gravity.
    """

    name: Name
    W: Value
    out: Value
    along: Value
    at: Value | None = None

    @property
    def quake(self) -> bool:
        """True where the earthquake is in it."""
        return self.name.startswith("quake")


def weight(task: Task) -> Value:
    """Weight of the whole unit as it hangs, lb: as stated, or of its parts together where those weigh more."""
    whole = task.battery.fact("body.mass", "W_whole", "lb")
    parts = [_piece(task, part.id, part.count) for part in task.battery.content.parts if part.mass is not None]
    if whole.missing or not parts:
        return work("W_p", "W_whole", "lb", None, whole)
    return work("W_p", "max(W_whole, W_parts)", "lb", None, whole, W_parts=total("W_parts", parts, "lb"))


def _piece(task: Task, id: str, count: int | None) -> Value:
    n = given("n", 1.0 if count is None else float(count), "1", task.battery.place(f"parts.{id}"))
    return work("W_part", "n * W", "lb", None, n, W=task.battery.fact(f"parts.{id}.mass", "W", "lb"))


def acceleration(task: Task) -> Value:
    """S_DS of the site, multiple of g."""
    return task.job.fact("conditions.seismic_sds", "S_DS", "g")


def seismic(task: Task) -> bool:
    """Whether the category of the house asks for seismic detailing; an unknown one counts as one that does."""
    return task.job.content.conditions.seismic_design_category not in ("A", "B")


def height_ratio(task: Task) -> Value:
    """Height of the highest fixing over the height of the roof, both above grade."""
    asce = task.books.book("asce7")
    h = task.job.fact("site.building_height", "h", "in")
    if h.missing:
        return asce.bounding("height_ratio_most", h.how, "z_over_h")
    floor = task.of_wall("floor_above_grade", "z_floor", "in")
    if floor.missing:
        return asce.bounding("height_ratio_most", floor.how, "z_over_h")
    bottom = work("y_bottom", "x / 25.4", "in", None, x=task.place.bottom)
    text = "min(1, max(0, (z_floor + y_bottom + h_fix) / h))"
    return work("z_over_h", text, "1", asce.clause("horizontal_force"), floor, bottom, h, h_fix=_highest(task))


def _highest(task: Task) -> Value:
    """How high above its lower edge a unit is held, in: at most at its top, by its brace, or by its foot alone."""
    fixing = task.battery.content.fixing
    top = task.battery.fact("body.height", "h_unit", "in")
    if fixing is None or fixing.held_by is None or task.battery.content.body.hung is not False:
        return top
    if fixing.held_by == "foot":
        return nothing("h_foot", "in", "the foot alone holds the unit")
    ups = [given("y_hole", amount(up, "in"), "in", task.battery.place(f"fixing.holes.{number}"))
           for number, (_, up) in enumerate(fixing.holes)]  # fmt: skip
    return worst("y_brace", ups, "max") if ups else top


def earthquake(task: Task, W_p: Value | None = None) -> Force:
    """F_p on the unit, strength level: at grade the minimum governs, higher up the calculated force may.

    Args:
        task: the unit.
        W_p: its weight, where it was worked out already, so that the working shows it once.
    """
    asce = task.books.book("asce7")
    ratio = height_ratio(task)
    if not ratio.missing and ratio.quantity <= 0:
        H_f, R_mu = components.at_grade(asce)
    else:
        H_f, R_mu = components.height_factor(asce, ratio, None), components.ductility_unknown(asce)
    C_AR = components.component(asce, "C_AR", "C_AR_above", "battery")
    R_po = components.component(asce, "R_po", "R_po", "battery")
    ordinary = asce.number("importance_ordinary")
    how = "the unit need not work after an earthquake and holds no listed amount of a hazardous material"
    I_p = chosen("I_p", ordinary.quantity, "1", how, ordinary.clause, ordinary)
    return components.force_by_resonance(
        asce, acceleration(task), I_p, weight(task) if W_p is None else W_p, H_f, R_mu, C_AR, R_po
    )


def for_wood(task: Task) -> list[Case]:
    """Allowable-stress combinations of a unit that hangs."""
    asce, D, S_DS = task.books.book("asce7"), weight(task), acceleration(task)
    down, held = combinations.allowable_down(asce, D, S_DS), combinations.allowable_up(asce, D, S_DS)
    return [
        *_cases(asce, work("D", "W_p", "lb", None, D), down, held, _allowable(task, D)),
        *_winds(task, "allowable", D),
    ]


def for_concrete(task: Task) -> list[Case]:
    """Strength combinations of a unit that hangs, the earthquake with overstrength before anything else."""
    asce, D, S_DS = task.books.book("asce7"), weight(task), acceleration(task)
    down, held = combinations.strength_down(asce, D, S_DS), combinations.strength_up(asce, D, S_DS)
    permanent = combinations.strength_permanent(asce, D)
    return [*_cases(asce, permanent, down, held, _with_overstrength(task, D)), *_winds(task, "strength", D)]


def of_standing(task: Task, level: Level, *, anchors: bool) -> list[Case]:
    """Combinations of a unit that stands: the force tips it, and no more weight than may be counted holds it.

    Args:
        task: the unit.
        level: of the material that is judged.
        anchors: True for anchors in concrete, which carry the earthquake with overstrength.
    """
    asce, D, S_DS = task.books.book("asce7"), weight(task), acceleration(task)
    if level == "allowable":
        E, held = _allowable(task, D), combinations.allowable_up(asce, D, S_DS)
    else:
        E = _with_overstrength(task, D) if anchors else earthquake(task, D).F_p
        held = combinations.strength_up(asce, D, S_DS)
    part = components.other_direction(asce, E)
    quakes = [Case("quake_out", held, E, part), Case("quake_along", held, part, E)]
    return [*quakes, *_winds(task, level, D, standing=True)]


def _allowable(task: Task, D: Value) -> Value:
    return combinations.allowable_earthquake(task.books.book("asce7"), earthquake(task, D).F_p)


def _with_overstrength(task: Task, D: Value) -> Value:
    asce = task.books.book("asce7")
    Omega = components.component(asce, "Omega_0p", "Omega_0p", "battery")
    return components.with_overstrength(asce, earthquake(task, D).F_p, Omega)


def _winds(task: Task, level: Level, D: Value, *, standing: bool = False) -> list[Case]:
    """Combinations with wind; none indoors."""
    if not wind.outdoors(task):
        return []
    asce, found = task.books.book("asce7"), wind.on(task)
    W = attempt("D_wind", "lb", lambda: combinations.wind_held(asce, level, D, found.up) if standing
                else combinations.wind_down(asce, level, D))  # fmt: skip
    out, along = (attempt("E_w", "lb", partial(combinations.with_wind, asce, level, force))
                  for force in (found.out, found.along))  # fmt: skip
    none = nothing("E_w", "lb", "no wind across in this combination")
    return [Case("wind_out", W, out, none, found.at), Case("wind_along", W, none, along, found.at)]


def _cases(asce: Edition, permanent: Value, down: Value, held: Value, E: Value) -> list[Case]:
    part = components.other_direction(asce, E)
    none = nothing("E", "lb", "no earthquake in this combination")
    return [
        Case("permanent", permanent, none, none),
        Case("quake_out", down, E, part),
        Case("quake_along", down, part, E),
        Case("quake_light", held, part, E),
    ]


def duration(case: Case) -> str:
    """Load duration of the wood standard."""
    return "permanent" if case.name == "permanent" else "ten minutes"


def shown(case: Case) -> Value:
    """The combination by name, for a sheet."""
    return chosen("case", case.name, "", "combination of loads", None)
