"""Lag and wood screws through board into studs: pulled out, sheared across the gap, and both at once (NDS, TR12)."""

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from standfast.design.anchorage import loads, ratios
from standfast.design.anchorage.forces import Asked, Forces
from standfast.design.anchorage.loads import Case
from standfast.design.anchorage.task import SheetFile, Task
from standfast.rulebooks.nds import adjustment, bearing, lateral, withdrawal
from standfast.rulebooks.tr12 import dowel
from standfast.sheet import Check, Value, given, work
from standfast.shelf import Edition

FASTENERS = {"lag screw": "lag", "wood screw": "wood_screw"}
"""Kind of data sheet → word of the wood standard."""

WAY_OUT = (
    "take a thicker or longer screw that the maker allows, have more studs or blocking behind the bracket, or stand "
    "the unit on the floor"
)


class Screw(NamedTuple):
    """A screw in its stud: lengths in inches, strengths in psi.

    Attributes:
        fastener: word of the wood standard.
        D: nominal diameter.
        D_r: root diameter.
        F_yb: bending yield strength.
        E: length of the tip.
        p: length in the stud, with the tip.
        p_thread: the part of it that is thread, with the tip.
        l_s: thickness of the bracket.
        F_es: bearing strength of the bracket.
        g: gap between bracket and stud.
        G: specific gravity of the stud.
    """

    fastener: str
    D: Value
    D_r: Value
    F_yb: Value
    E: Value
    p: Value
    p_thread: Value
    l_s: Value
    F_es: Value
    g: Value
    G: Value


def gravity(task: Task) -> Value:
    """Specific gravity of the studs by species; the least of the table where nobody knows it."""
    nds = task.books.book("nds")
    species = task.of_build_up("species", "species")
    if species.missing:
        return adjustment.specific_gravity_unknown(nds, species.how)
    return nds.table("specific_gravity").look("G", "G", species=species)


def screw(task: Task, sheet: SheetFile) -> Screw:
    """A screw of a data sheet, as it sits in the wall of the task."""
    length, thread = sheet.fact("fastener.length", "L", "in"), sheet.fact("fastener.thread", "T", "in")
    plate = task.battery.fact("fixing.plate", "l_s", "in")
    washer = _washer(task, sheet)
    p = work("p", "L - t_washer - l_s - g", "in", None, length, washer, plate, g=task.lining)
    return Screw(
        FASTENERS[sheet.content.kind],
        sheet.fact("fastener.diameter", "D", "in"),
        sheet.fact("fastener.root_diameter", "D_r", "in"),
        sheet.fact("fastener.bending_yield", "F_yb", "psi"),
        sheet.fact("fastener.tip", "E", "in"),
        p,
        work("p_thread", "min(p, T)", "in", None, p, thread),
        plate,
        task.battery.fact("fixing.plate_bearing", "F_es", "psi"),
        task.lining,
        gravity(task),
    )


def checks(task: Task, asked: Asked, one: Screw) -> Iterator[Check]:
    """Is a screw pulled out, does it give way sideways, and does it carry both at once?"""
    nds, tr12 = task.books.book("nds"), task.books.book("tr12")
    pull, yields, combined = (nds.clause(key) for key in (f"withdrawal_{one.fastener}", "yield_limit", "combined"))

    @cache
    def W(case: Case) -> Value:
        return _pull(task, nds, one, case)

    @cache
    def Z(case: Case) -> Value:
        theta = next(force.theta for each, force in asked if each is case)
        return _shear(task, nds, tr12, one, case, theta)

    def together(case: Case, force: Forces) -> Value:
        alpha = work("alpha", "atan2(T, V) * 180 / pi", "deg", combined, T=force.T, V=force.V)
        R = work("R", "hypot(T, V)", "lb", None, T=force.T, V=force.V)
        return ratios.ratio(case.name, R, adjustment.combined(nds, W(case), Z(case), alpha), combined)

    ask = ratios.asker(task, nds, WAY_OUT)
    yield ask("wood-withdrawal", "No screw is pulled out of its stud", pull,
              lambda: [ratios.ratio(case.name, force.T, W(case), pull) for case, force in asked])  # fmt: skip
    yield ask("wood-lateral", "No screw gives way sideways, the board counted as a gap", yields,
              lambda: [ratios.ratio(case.name, force.V, Z(case), yields) for case, force in asked])  # fmt: skip
    yield ask("wood-combined", "Every screw carries pull and shear at once", combined,
              lambda: [together(case, force) for case, force in asked])  # fmt: skip


def _pull(task: Task, nds: Edition, one: Screw, case: Case) -> Value:
    """W': adjusted withdrawal value of one screw, lb."""
    W = withdrawal.per_inch(nds, one.fastener, one.G, one.D)
    whole = withdrawal.whole(nds, one.fastener, W, withdrawal.holding(nds, one.fastener, one.p_thread, one.E))
    return _adjusted("W_adj", task, nds, whole, case, "withdrawal")


def _shear(task: Task, nds: Edition, tr12: Edition, one: Screw, case: Case, theta: Value) -> Value:
    """Z': adjusted lateral value of one screw across the gap, lb; the root counts, wherever the thread begins."""
    F_em = bearing.strength(nds, one.G, one.D, theta, bearing.table_step(nds))
    l_m = lateral.bearing_length(nds, one.p, one.E)
    R_d = lateral.reduction(nds, one.D, one.D_r, one.D_r, theta)
    found = dowel.strength(tr12, dowel.Dowel(one.D_r, one.F_yb, l_m, one.l_s, F_em, one.F_es, one.g, *R_d))
    return _adjusted("Z_adj", task, nds, found.Z, case, "lateral")


def _adjusted(symbol: str, task: Task, nds: Edition, reference: Value, case: Case, load: str) -> Value:
    C_D = adjustment.load_duration(nds, loads.duration(case))
    moisture = task.of_build_up("moisture", "moisture")
    if moisture.missing:
        C_M = nds.bounding("wet_service_least", moisture.how, "C_M")
    else:
        C_M = nds.table("wet_service").look("C_M", "C_M", load=load, in_service=moisture)
    word = "wet" if moisture.missing else moisture.word
    return adjustment.adjusted(symbol, nds, reference, C_D, C_M, adjustment.temperature(nds, word, _heat(task)))


def _heat(task: Task) -> Value:
    """Highest temperature at the fastener, °C: of the room, or of the place where the room has no other."""
    room = task.room
    if room is not None and not task.job.left_out(f"rooms.{room.id}.ambient_high"):
        return task.job.fact(f"rooms.{room.id}.ambient_high", "t", "°C")
    return task.job.fact("conditions.temperature_high", "t", "°C")


def _washer(task: Task, sheet: SheetFile) -> Value:
    if not sheet.left_out("fastener.washer"):
        return task.practice.number("washer_thickness")
    return given("t_washer", 0.0, "in", "the screw has no washer")
