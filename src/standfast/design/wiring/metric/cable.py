"""What a cable carries at the worst place of its way, and the least area that does."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from standfast.design.wiring.metric.question import Question
from standfast.design.wiring.metric.runs import Piece, Runs
from standfast.faults import Refusal
from standfast.sheet import Value, attempt, chosen, missing, work

LOADED = {"single phase": 2, "three phase": 3}
"""Conductors that carry current: the neutral of a balanced three-phase circuit carries none."""


class Carried(NamedTuple):
    """What a cable of one area carries.

    Attributes:
        I_t: tabulated current in A at the worst place.
        I_z: after factors there, in A.
        factors: by name: ambient, grouping, insulation.
        method: reference method there.
    """

    I_t: Value
    I_z: Value
    factors: Mapping[str, Value]
    method: Value


def carried(q: Question, runs: Runs, system: str, area: Value) -> Carried:
    """What a cable carries: each piece has its own method and its own factors, and the least of all holds.

    Factors that act in different pieces are never multiplied with one another.
    """
    found = [_at(q, runs.cable, each, system, area) for each in runs.pieces]
    unknown = next((each for each in found if each.I_z.missing), None)
    if unknown is not None:
        return unknown
    return min(found, key=lambda each: each.I_z.quantity)


def least_area(q: Question, runs: Runs, system: str, fits: Callable[[Value], bool]) -> Value:
    """The least area in mm2 that fits; what the job states goes before it.

    Args:
        q: the question.
        runs: the runs of the circuit.
        system: ``single phase`` or ``three phase``.
        fits: whether an area is enough.
    """
    if runs.area is not None:
        return runs.area
    if runs.cable.missing:
        return missing("S", "mm2", runs.cable.how, runs.cable)
    if not runs.new:
        return missing("S", "mm2", f"routes.{runs.routes[0]}.area: the area of the cable that is there")
    try:
        ladder = q.dialect.areas(q, runs.cable.word)
    except Refusal as refusal:
        return missing("S", "mm2", str(refusal))
    for step in ladder:
        area = chosen("S", step, "mm2", "the least area of its table that carries its device and keeps the voltage",
                      q.clause("current"), runs.cable)  # fmt: skip
        one = carried(q, runs, system, area)
        if one.I_z.missing:
            return missing("S", "mm2", one.I_z.how, one.I_z)
        if fits(area):
            return area
    return missing("S", "mm2", f"no cable of {runs.cable.word} up to {ladder[-1]:g} mm² does: "
                   "another cable or another way")  # fmt: skip


def _at(q: Question, cable: Value, piece: Piece, system: str, area: Value) -> Carried:
    needed = (cable, piece.method)
    unknown = next((each for each in needed if each.missing), None)
    rules = q.dialect
    if unknown is not None:
        tabulated = missing("I_t", "A", unknown.how, unknown)
    else:
        tabulated = attempt("I_t", "A", lambda: rules.tabulated(q, cable.word, piece.method.word, LOADED[system], area))
    factors = {
        "ambient": _factor("C_a", piece.ambient, lambda: rules.ambient(q, cable.word, piece.ambient), cable),
        "grouping": _factor(
            "C_g", piece.together, lambda: rules.grouping(q, piece.method.word, piece.together), piece.method
        ),
        "insulation": _factor("C_i", piece.insulated, lambda: rules.insulation(q, piece.insulated)),
    }
    named = {"I_t": tabulated, "C_a": factors["ambient"], "C_g": factors["grouping"], "C_i": factors["insulation"]}
    I_z = work("I_z", "I_t * C_a * C_g * C_i", "A", q.clause("current"), **named)
    return Carried(tabulated, I_z, factors, piece.method)


def _factor(symbol: str, fact: Value, ask: Callable[[], Value], *also: Value) -> Value:
    unknown = next((each for each in (fact, *also) if each.missing), None)
    return missing(symbol, "1", unknown.how, unknown) if unknown is not None else attempt(symbol, "1", ask)
