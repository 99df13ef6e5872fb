"""May one person lift a part? The lifting index at both ends, and the lifts that the equation leaves out.

The equation judges the lift at the place where the part is picked up and at the place where it is put. Steps between
the two are carried over, which it does not cover: a part that one person may lift is carried there on a condition.
"""

from typing import NamedTuple

from standfast.faults import Refusal
from standfast.fieldwork.lifted import Lift
from standfast.rulebooks.niosh import equation, frequency, scope
from standfast.rulebooks.niosh.equation import Multipliers
from standfast.sheet import Check, Value, at_most, cannot_tell, chosen, missing, work, worst
from standfast.sheet.printed import amount
from standfast.shelf import Edition
from standfast.units import convert


class Solo(NamedTuple):
    """The verdict on one person: the check, the index, and why in a few words."""

    check: Check
    li: Value
    why: str


def judge(task: Lift) -> Solo:
    """One person's lift: in scope of the equation, and the index at most 1 at both ends."""
    niosh = task.books.book("niosh")
    id, title = task.id("part"), f"One person may lift the {task.spoken}"
    clause, goal = niosh.clause("lifting_index"), niosh.number("index_goal")
    try:
        LI = lifting_index(task, niosh)
    except Refusal as refusal:
        none = missing("LI", "1", str(refusal))
        return Solo(Check(id, title, clause, "fail", reason=str(refusal)), none, str(refusal))
    unknown = [each for each in (_steps(task), _footing(task)) if each.missing]
    if unknown:
        told = chosen("LI_known", 0.0, "1", "the index and the way", None, LI, *unknown)
        why = told.how if LI.missing else f"{_short(LI)}; {told.how}"
        return Solo(cannot_tell(id, title, clause, why, told), LI, why)
    outside = scope.within(niosh, task.id("scope"), _footing(task))
    if outside.verdict != "pass":
        demand = "" if outside.demand is None else amount(outside.demand)
        reason = f"the lifting equation does not cover this lift: {outside.reason or demand}"
        return Solo(cannot_tell(id, title, clause, reason, LI), LI, f"{_short(LI)}; {reason}")
    check = at_most(id, title, clause, LI, goal, condition=_condition(niosh) + _on_steps(task))
    return Solo(check, LI, check.reason if LI.missing else _short(LI))


def lifting_index(task: Lift, niosh: Edition) -> Value:
    """The worst lifting index of one person at origin and destination, over every piece of the part.

    Raises:
        Refusal: where nothing may be lifted at one of the two, or the work lasts longer than the equation covers.
    """
    found = []
    for V_o, V_d in ends(task):
        found += [_index(task, niosh, "LI_origin", V_o, V_o, V_d), _index(task, niosh, "LI_destination", V_d, V_o, V_d)]
    return worst("LI", found, "max", niosh.clause("lifting_index"))


def ends(task: Lift) -> list[tuple[Value, Value]]:
    """Heights of the hands where the lift begins and where each piece of the part is placed, in.

    The second is as surveyed; where nobody stated it, the hands are at half the height of the piece in its place.
    """
    V_o = task.handling("lift_from", "V_o", "in")
    if not task.job.left_out("handling.lift_to"):
        return [(V_o, task.handling("lift_to", "V_d", "in"))]
    tall = task.battery.fact(f"parts.{task.part.id}.height", "h_part", "in")
    bottoms = [work("y_bottom", "x / 25.4", "in", None, x=height) for height in task.heights]
    return [(V_o, work("V_d", "y_bottom + h_part / 2", "in", None, bottom, tall)) for bottom in bottoms]


def lowest_and_highest(task: Lift) -> tuple[Value, Value]:
    """Lowest and greatest height of the hands on the way, mm."""
    hands = list(dict.fromkeys(height for pair in ends(task) for height in pair))
    low, high = worst("V_low", hands, "min"), worst("V_high", hands, "max")
    return work("V_low", "x * 25.4", "mm", None, x=low), work("V_high", "x * 25.4", "mm", None, x=high)


def _index(task: Lift, niosh: Edition, symbol: str, V: Value, V_o: Value, V_d: Value) -> Value:
    D = work("D", "max(V_d - V_o, V_o - V_d)", "in", None, V_d=V_d, V_o=V_o)
    F, minutes = _frequency(task)
    band = equation.height_band(niosh, V_o)
    duration = frequency.duration_class(niosh, minutes)
    coupling = _coupling(task)
    lacking = [value for value in (duration, coupling) if value.missing]
    if lacking:
        return missing(symbol, "1", "; ".join(value.how for value in lacking), *lacking)
    found = Multipliers(
        HM=equation.horizontal(niosh, task.handling("reach", "H", "in")),
        VM=equation.vertical(niosh, V),
        DM=equation.travel(niosh, D),
        AM=equation.asymmetry(niosh, task.handling("turn", "A", "deg")),
        FM=frequency.multiplier(niosh, F, duration.word, band),
        CM=equation.coupling(niosh, V, coupling.word),
    )
    L = task.battery.fact(f"parts.{task.part.id}.mass", "L", "lb")
    LI = equation.index(niosh, L, equation.weight_limit(niosh, "lb", found))
    return work(symbol, "LI", "1", niosh.clause("lifting_index"), LI)


def _frequency(task: Lift) -> tuple[Value, Value]:
    """Lifts a minute, and the minutes over which they are spread; never fewer lifts than there are pieces."""
    minutes = task.handling("duration", "t_work", "min")
    lifts = task.handling("lifts", "n_lifts", "1")
    if not minutes.missing and minutes.quantity <= 0:
        minutes = missing("t_work", "min", "handling.duration: a time above 0 is needed", minutes)
    return work("F", "max(n_lifts, n_pieces) / t_work", "1/min", None, lifts, minutes, task.pieces), minutes


def _coupling(task: Lift) -> Value:
    """How the part can be gripped: as its data sheet says, else as the job says."""
    if not task.battery.left_out(f"parts.{task.part.id}.coupling"):
        return task.battery.fact(f"parts.{task.part.id}.coupling", "coupling")
    return task.handling("coupling", "coupling")


def _steps(task: Lift) -> Value:
    return task.handling("steps", "n_steps", "1")


def _footing(task: Lift) -> Value:
    """The floor of the way in the words of the equation; missing where nobody knows it."""
    floor = task.handling("floor", "floor")
    words = {"level and dry": "ordinary", "wet": "slippery floor"}
    footing = "" if floor.missing else words.get(floor.word, "unsure footing")
    return chosen("footing", footing, "", "floor of the way", None, floor)


def _on_steps(task: Lift) -> str:
    """What must hold where a part that one person may lift is carried over steps (common practice)."""
    steps = _steps(task)
    if steps.missing or not steps.quantity:
        return ""
    return (
        f"; on the {steps.quantity:g} steps of the way, which the lifting equation does not cover: one hand on the "
        "rail, each step seen over the part, steps lit and cleared, nobody below; else two carry it"
    )


def _condition(niosh: Edition) -> str:
    low, high = niosh.number("air_low"), niosh.number("air_high")
    cool, warm = (convert(each.quantity, each.unit, "°C") for each in (low, high))
    return (
        f"the part is set down before it is lifted, both hands free, footing sure, air between {cool:.0f} and "
        f"{warm:.0f} °C ({low.quantity:g} and {high.quantity:g} {high.unit})"
    )


def _short(LI: Value) -> str:
    return (
        "one person's lifting index is not known" if LI.missing else f"one person's lifting index is {LI.quantity:.1f}"
    )
