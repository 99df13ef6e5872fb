"""The conductors on the way of a fault: each run with its sizes, cold and short for the greatest current, hot and long
for the least."""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.wiring import runs
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.feeder import Feeder
from standfast.design.wiring.material import Material
from standfast.design.wiring.runs import Run
from standfast.faults import Refusal
from standfast.rulebooks.handbook import fault_path
from standfast.rulebooks.handbook.fault_path import Impedance
from standfast.rulebooks.nfpa70 import resistance
from standfast.sheet import Value, chosen, given, missing, work

STEEL, PLASTIC = frozenset({"emt", "imc", "rmc", "fmc"}), frozenset({"pvc-40", "pvc-80"})


class Piece(NamedTuple):
    """One run of conductors.

    Attributes:
        ends: ids of what it joins.
        material, size: of its line conductors; the neutral is taken as large.
        ground: size of its equipment grounding conductor.
        sets: conductors in parallel to each pole.
        raceway: kind.
        shortest, longest: length one way in ft, at both ends of the tolerance of the survey.
    """

    ends: tuple[str, str]
    material: Value
    size: Value
    ground: Value
    sets: Value
    raceway: Value
    shortest: Value
    longest: Value


def of_circuit(task: Material, made: Circuit) -> Iterator[Piece]:
    """The runs of a circuit that is worked out, in the order in which it holds them."""
    one = given("n_set", 1.0, "1", "one conductor to each pole")
    for tube in made.raceways:
        run = tube.run
        yield Piece(
            run.ends, made.conductor.conditions.material, made.conductor.size, made.ground,
            one if made.sets is None else made.sets, run.raceway, shortest(task, run), run.longest,
        )  # fmt: skip


def of_feeder(task: Material, found: Feeder) -> list[Piece]:
    """The runs of a feeder from the panel above it, new or as surveyed; one that is unknown where nobody told any."""
    if found.built is not None:
        return list(of_circuit(task, found.built))
    ways = runs.between(task, found.above, [found.panel]) or [runs.unsaid(found.above, found.panel)]
    return [_surveyed(task, run) for run in ways]


def unsaid(task: Material, need: str) -> Piece:
    """A run of which nothing is known, not even that there is one.

    Args:
        task: the job.
        need: word of the job file that would tell.
    """
    word, count, feet = missing("size", "", need), missing("n_set", "1", need), missing("L", "ft", need)
    return Piece(("", ""), word, word, word, count, word, feet, feet)


def shortest(task: Material, run: Run) -> Value:
    """Least length in ft that a run can have within the tolerance of the survey."""
    return work("L_min", "L * (1 - p_route / 100)", "ft", None, runs.tolerance(task), L=run.length)


def greatest(task: Material, piece: Piece) -> Impedance:
    """One line conductor for the greatest current: as short as it can be, and cold."""
    return _conductor(task, piece, piece.size, piece.shortest, cold=True)


def least(task: Material, piece: Piece) -> tuple[Impedance, Impedance]:
    """Line and equipment grounding conductor for the least current: as long as they can be, and hot."""
    line = _conductor(task, piece, piece.size, piece.longest, cold=False)
    return line, _conductor(task, piece, piece.ground, piece.longest, cold=False)


def _conductor(task: Material, piece: Piece, size: Value, length: Value, *, cold: bool) -> Impedance:
    lacking = [each.how for each in (piece.material, size, length, piece.raceway, piece.sets) if each.missing]
    if lacking:
        return fault_path.unknown("; ".join(dict.fromkeys(lacking)))
    kind, book = lining(piece.raceway), task.handbook
    try:
        r = resistance.alternating(task.nec, kind, piece.material, size)
        x = resistance.reactance(task.nec, kind, piece.material, size)
        if cold:
            at, now = book.number("tabulated_conductor"), book.number("cold_conductor")
            r = fault_path.at_temperature(book, piece.material.word, r, at, now)
        return fault_path.of_conductor(book, r, x, length, piece.sets)
    except Refusal as refusal:
        return fault_path.unknown(str(refusal))


def lining(raceway: Value) -> Value:
    """The column of Chapter 9 Table 9 that a raceway belongs to."""
    if raceway.missing:
        return missing("raceway_material", "", raceway.how, raceway)
    kind = "steel" if raceway.word in STEEL else "pvc"
    return chosen("raceway_material", kind, "", f"raceway: {raceway.word}", None, raceway)


def _surveyed(task: Material, run: Run) -> Piece:
    """A run that is there, as surveyed."""
    path = f"routes.{run.id}.conductors"

    def said(word: str, symbol: str, found: Value | None) -> Value:
        return found if found is not None else missing(symbol, "", f"{path}.{word}")

    one = given("n_set", 1.0, "1", f"{path}: one conductor to each pole")
    sets = task.job.fact(f"{path}.sets", "n_set", "1") if task.job.has(f"{path}.sets") else one
    return Piece(
        run.ends, said("material", "material", run.material), said("size", "size", run.size),
        task.job.fact(f"{path}.ground", "EGC"), sets, run.raceway, shortest(task, run), run.longest,
    )  # fmt: skip
