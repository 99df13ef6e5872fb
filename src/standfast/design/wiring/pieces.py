"""A run piece by piece: heat, roof and company of each, and which piece decides how much the conductors carry."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.wiring.material import Material
from standfast.faults import NotInEdition
from standfast.rulebooks.nfpa70 import conductors
from standfast.sheet import Value, chosen, missing, total, work
from standfast.shelf import Edition
from standfast.survey.power import Route

ROOF_PROOF = "xhhw-2"
"""Insulation that the sun on a roof does not count for."""


class Piece(NamedTuple):
    """A piece of a run in which conditions stay alike; a run without sections is one piece.

    Attributes:
        name: of its section; empty where it is a whole run.
        longest: its length at the bad end of the survey, in ft.
        ambient: highest temperature round it in °C.
        others: current-carrying conductors of other circuits beside it.
        raceway: kind.
        on_roof: yes where it lies in the sun on a roof; None where nobody asks.
        above_roof: height of its lower side above that roof, in inches.
    """

    name: str
    longest: Value
    ambient: Value
    others: Value
    raceway: Value
    on_roof: Value | None = None
    above_roof: Value | None = None


class Portion(NamedTuple):
    """A piece with its two factors: correction for heat, adjustment for bundling."""

    name: str
    longest: Value
    heat: Value
    bundling: Value

    @property
    def factor(self) -> float:
        """Both factors multiplied; below every factor where one is not known."""
        lacking = self.heat.missing or self.bundling.missing
        return -1.0 if lacking else self.heat.quantity * self.bundling.quantity


def of_route(task: Material, route: Route, tolerance: Value, dry: Value) -> tuple[Piece, ...]:
    """The sections of a route; what one leaves open is as the route says of all of it.

    A run from an array that is outdoors and has no sections is one piece of which nobody said whether it lies on a
    roof.

    Args:
        task: the job.
        route: the route.
        tolerance: of lengths of routes, in per cent.
        dry: no where any of the route is outdoors or damp: indoors nothing lies on a roof.
    """
    path = f"routes.{route.id}"
    if not route.sections and {route.from_, route.to} & set(task.job.ids("arrays")) and dry.number is not True:
        need = f"{path}.sections: the run piece by piece, each with on_roof = true or false, and above_roof on the roof"
        return (_whole(task, path, tolerance)._replace(on_roof=missing("on_roof", "", need)),)
    return tuple(_piece(task, path, each.id, tolerance, dry) for each in route.sections)


def heat(book: Edition, piece: Piece, insulation: Value) -> Value:
    """Temperature in °C round a piece, with what the sun on a roof adds.

    Args:
        book: the code.
        piece: of a run.
        insulation: of its conductors.
    """
    roof, above = piece.on_roof, piece.above_roof
    if roof is None or above is None or roof.number is False:
        return piece.ambient
    if roof.missing:
        return missing("T_amb", "°C", roof.how, roof)
    proof = not insulation.missing and insulation.word == ROOF_PROOF
    exempt = chosen("exempt", proof, "", "insulation that the clause lets off, or not", None, insulation)
    return conductors.on_roof(book, piece.ambient, above, exempt)


def deciding(book: Edition, portions: Sequence[Portion], shortest: Value) -> tuple[Value, Value]:
    """The factors that decide a circuit: those of the piece that carries least, short pieces of it left out.

    A piece is left out where all that carry less than the rest are together not longer than a length and a share of
    the circuit that the code states: measured at their longest against the circuit at its shortest.

    Args:
        book: the code.
        portions: of all runs of the circuit, at least one.
        shortest: length of the circuit in ft at the short end of the survey.
    """
    steps = sorted({each.factor for each in portions})
    least = min(portions, key=lambda each: each.factor)
    for step in reversed(steps[1:]) if steps[0] >= 0 else ():
        low = [each for each in portions if each.factor < step]
        length = total("L_low", [each.longest for each in low], "ft")
        allowed = _allowed(book, shortest)
        if length.missing or allowed.missing or length.quantity > allowed.quantity:
            continue
        found = next(each for each in portions if each.factor == step)
        met = f"left out as short: {', '.join(each.name or 'a whole run' for each in low)}"
        clause = book.clause("short_part")
        return (
            chosen("k_amb", found.heat.quantity, "1", met, clause, found.heat, length, allowed),
            chosen("k_adj", found.bundling.quantity, "1", met, clause, found.bundling, length, allowed),
        )
    return least.heat, least.bundling


def _allowed(book: Edition, shortest: Value) -> Value:
    """Length in ft of what may be left out; missing where the edition states none."""
    try:
        clause, numbers = book.clause("short_part"), (book.number("short_part_length"), book.number("short_part_share"))
    except NotInEdition as refusal:
        return missing("L_allowed", "ft", str(refusal))
    return work("L_allowed", "min(L_part, k_part * L_min)", "ft", clause, *numbers, L_min=shortest)


def _whole(task: Material, route: str, tolerance: Value) -> Piece:
    fact = task.job.fact
    length = work("L_max", "L * (1 + p_route / 100)", "ft", None, fact(f"{route}.length", "L", "ft"), tolerance)
    ambient, others = (
        fact(f"{route}.ambient", "T_amb", "°C"),
        fact(f"{route}.other_current_carrying", "n_other", "1"),
    )
    return Piece("", length, ambient, others, fact(f"{route}.raceway", "raceway"), None, missing("h", "in", route))


def _piece(task: Material, route: str, section: str, tolerance: Value, dry: Value) -> Piece:
    path, fact = f"{route}.sections.{section}", task.job.fact

    def own(word: str, symbol: str, unit: str) -> Value:
        """What the section says, else the route."""
        return fact(f"{path}.{word}" if task.job.has(f"{path}.{word}") else f"{route}.{word}", symbol, unit)

    length, roof = fact(f"{path}.length", "L", "ft"), fact(f"{path}.on_roof", "on_roof")
    if roof.missing and dry.number is True:
        roof = chosen("on_roof", False, "", "the run is indoors and dry", None, dry)
    return Piece(
        section,
        work("L_max", "L * (1 + p_route / 100)", "ft", None, length, tolerance),
        own("ambient", "T_amb", "°C"),
        own("other_current_carrying", "n_other", "1"),
        own("raceway", "raceway", ""),
        roof,
        fact(f"{path}.above_roof", "h", "in"),
    )
