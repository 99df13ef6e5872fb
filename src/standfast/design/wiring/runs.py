"""The runs of conductors between the unit and its panel, and their lengths at the bad end of the survey."""

from collections.abc import Iterable
from typing import NamedTuple

from standfast.design.wiring import pieces
from standfast.design.wiring.material import Material
from standfast.design.wiring.pieces import Piece
from standfast.sheet import Value, chosen, missing, work
from standfast.survey.joined import devices, way

UTILITY = "utility"


class Run(NamedTuple):
    """One run as surveyed or chosen.

    Attributes:
        id: name of the route.
        ends: what it joins: ids of parts of the installation, as far as the job says.
        length: as surveyed, one way, in ft.
        longest: with the tolerance of route lengths, in ft.
        shortest: with that tolerance the other way, in ft.
        ambient: highest temperature round it in °C.
        wet: yes where any of it is outdoors or damp.
        raceway: kind.
        others: current-carrying conductors of other circuits in it.
        trade_size: where the job fixes it.
        material: where the job fixes it.
        insulation: where the job fixes it.
        size: where the job fixes it.
        new: true where it is added.
        sections: piece by piece, where the job says so.
    """

    id: str
    ends: tuple[str, str]
    length: Value
    longest: Value
    shortest: Value
    ambient: Value
    wet: Value
    raceway: Value
    others: Value
    trade_size: Value | None
    material: Value | None
    insulation: Value | None
    size: Value | None
    new: bool
    sections: tuple[Piece, ...] = ()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Its sections, or all of it as one piece."""
        return self.sections or (Piece("", self.longest, self.ambient, self.others, self.raceway),)


def between(task: Material, start: str, ends: Iterable[str]) -> list[Run]:
    """The runs from one thing to the nearest of others, in order; empty where no routes of the job lead there."""
    found = way(task.job.content, start, ends)
    return [] if found is None else [run(task, id) for id in found.routes]


def unsaid(start: str, end: str) -> Run:
    """A run of which nothing is known but what it has to join."""
    need = f"routes: the runs from {start} to {end}"
    asked = {"length": ("L", "ft"), "longest": ("L_max", "ft"), "shortest": ("L_min", "ft"),
             "ambient": ("T_amb", "°C"), "wet": ("wet", ""), "raceway": ("raceway", ""),
             "others": ("n_other", "1")}  # fmt: skip
    unknown = {word: missing(symbol, unit, need) for word, (symbol, unit) in asked.items()}
    return Run(f"{start} to {end}", (start, end), **unknown, trade_size=None, material=None, insulation=None, size=None,
               new=True, sections=())  # fmt: skip


def run(task: Material, id: str) -> Run:
    """A route of the job by its id."""
    route = next(each for each in task.job.content.routes if each.id == id)
    path, fact, known = f"routes.{id}", task.job.fact, devices(task.job.content)
    length, wet, spread = fact(f"{path}.length", "L", "ft"), fact(f"{path}.wet", "wet"), tolerance(task)
    dry = chosen("dry", wet.number is False, "", "nothing of it is outdoors or damp, or some is", None, wet)
    return Run(
        id,
        (known.get(route.from_, route.from_), known.get(route.to, route.to)),
        length,
        work("L_max", "L * (1 + p_route / 100)", "ft", None, length, spread),
        work("L_min", "L * (1 - p_route / 100)", "ft", None, length, spread),
        fact(f"{path}.ambient", "T_amb", "°C"),
        wet,
        fact(f"{path}.raceway", "raceway"),
        fact(f"{path}.other_current_carrying", "n_other", "1"),
        _stated(task, f"{path}.trade_size", "trade_size"),
        _stated(task, f"{path}.conductors.material", "material"),
        _stated(task, f"{path}.conductors.insulation", "insulation"),
        _stated(task, f"{path}.conductors.size", "size"),
        route.state != "existing",
        pieces.of_route(task, route, spread, dry),
    )


def tolerance(task: Material) -> Value:
    """Tolerance of route lengths in per cent: of the survey, else the common one."""
    if task.job.has("tolerances.route"):
        return task.job.fact("tolerances.route", "p_route", "%")
    return task.handbook.number("route_tolerance")


def _stated(task: Material, path: str, symbol: str, unit: str = "") -> Value | None:
    return task.job.fact(path, symbol, unit) if task.job.has(path) else None


def agreed(ways: Iterable[Run], word: str) -> Value | None:
    """Metal or size that the runs of a circuit state; None where none does.

    Of two metals aluminium counts all along: of one size it carries less, and fewer terminals take it. Of two sizes
    neither counts: the smaller decides what the circuit carries, the larger whether it fits its terminals.

    Args:
        ways: the runs.
        word: ``material`` or ``size``.
    """
    found = {run.id: value for run in ways if (value := getattr(run, word)) is not None}
    if len({value.number for value in found.values()}) > 1:
        told = ", ".join(f"{id} {value.number}" for id, value in found.items())
        if word == "material":
            return chosen(word, "al", "", f"the runs differ ({told}): aluminium all along", None, *found.values())
        first = f"routes.{next(iter(found))}.conductors.{word}"
        need = f"{first}: the runs of one circuit differ ({told}): write one for all"
        return missing(word, "", need, *found.values())
    return next(iter(found.values()), None)


def stated_sets(task: Material, ways: Iterable[Run]) -> Value | None:
    """How many sets in parallel the job states for a circuit; None where it states none."""
    stated = [_stated(task, f"routes.{run.id}.conductors.sets", "n_set", "1") for run in ways]
    return next((each for each in stated if each is not None), None)
