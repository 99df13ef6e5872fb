"""Places in the order of what they cannot cost less than: the run to what they are joined to, and the work they cause.

The questions of siting are asked again with prices in the place of its own costs: the walls, the keep-outs and the
vertices are the same.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.design.choice.options import Part
from standfast.design.siting.choosing import Question
from standfast.design.siting.solid import tenths
from standfast.design.wiring import along
from standfast.equipment.prices import Prices
from standfast.sheet import Value
from standfast.survey.joined import devices
from standfast.survey.power import Route
from standfast.survey.read import Survey
from standfast.units import convert

FINE = 10**10
"""The greatest of the weights that a question counts with, so that rounding them down loses next to nothing."""
FOOT = tenths(convert(1, "ft", "mm"))
INCH = tenths(convert(1, "in", "mm"))


class Scale(NamedTuple):
    """How whole-number costs of a question are read as money: so many of its halves for one of the currency."""

    halves: float

    def money(self, cost: int) -> float:
        """A cost as money."""
        return cost / self.halves


def follows_unit(job: Survey, unit: str) -> Route | None:
    """The first route that follows the walls to a unit; None where none does: its place then moves no price."""
    known = devices(job.job)
    for route in job.job.routes:
        if along.follows(route) and unit in {known.get(end, end) for end in (route.from_, route.to)}:
            return route
    return None


def least_per_ft(ways: Sequence[Sequence[Part]], route: str, tolerance: Value) -> float:
    """The least price of a foot that is measured on the wall, over all ways to build the circuit of a route."""
    found = min((part.per_ft[route] for each in ways for part in each if route in part.per_ft), default=0.0)
    return found * (1 + (0.0 if tolerance.missing else tolerance.quantity) / 100)


def questions(
    job: Survey, units: Sequence[tuple[str, Sequence[Question]]], per_ft: Mapping[str, float], prices: Prices
) -> tuple[list[list[Question]], Scale]:
    """The questions of siting with prices for costs.

    Args:
        job: the job file.
        units: name of each unit and its questions, one for each wall.
        per_ft: the least price of a foot of run, by unit.
        prices: the price list.
    """
    work = {word: prices.work.get(word, 0.0) for word in ("blocking", "lift", "aim")}
    greatest = max(
        work["blocking"], work["lift"] / FOOT, work["aim"] / INCH, *(each / FOOT for each in per_ft.values())
    )
    scale = FINE / greatest if greatest > 0 else 1.0
    off, lift, aim = (int(scale * each) for each in (work["blocking"], work["lift"] / FOOT, work["aim"] / INCH))
    asked = [
        [
            ask._replace(
                target=_target(job, unit, ask), run_cost=int(scale * per_ft.get(unit, 0.0) / FOOT), wall_cost=0,
                off_cost=off, stray_cost=aim, lift_cost=lift,
            )
            for ask in asks
        ]
        for unit, asks in units
    ]  # fmt: skip
    return asked, Scale(2 * scale)


def _target(job: Survey, unit: str, ask: Question) -> tuple[int, int] | None:
    """What the run of a unit goes to, seen along one wall; None where no way along the walls leads there."""
    route, known = follows_unit(job, unit), devices(job.job)
    if route is None:
        return None
    far = route.to if known.get(route.from_, route.from_) == unit else route.from_
    middle = along.middle(job, far)
    surface = None if middle is None else along.laid_flat(job, ask.wall, middle.wall)
    if middle is None or surface is None:
        return None
    x, z = along.flat(surface, middle)
    return int(x) - surface.begins[ask.wall], int(z)
