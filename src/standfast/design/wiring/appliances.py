"""Whether the appliances of the load calculation are those that the panels feed."""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from standfast.design.installation.build import JobFile
from standfast.design.wiring import feeder_load
from standfast.design.wiring.feeder_load import Fed
from standfast.design.wiring.house import ELECTRIC
from standfast.sheet import Check, at_most, cannot_tell, chosen
from standfast.shelf import Edition

LINES = 2
"""Poles of a breaker between the lines."""


class _Row(NamedTuple):
    """A row of the calculation: words that it goes by, and its rating in VA."""

    words: frozenset[str]
    rating: Fraction | None


def listed(book: Edition, job: JobFile) -> Check:
    """Every large circuit between the lines has a row of the calculation that could be it, by id, name or rating.

    Large is above the breaker of lights and receptacles, or of a breaker that nobody knows. With a recorded demand,
    what was there is in the record.
    """
    id, title = "load.appliances-listed", "What large circuits feed is in the load calculation"
    clause = book.clause("standard_load")
    largest = book.number("general_breaker_largest", "I_general")
    rows, lost = list(_rows(job)), list[Fed]()
    circuits = list(_large(job, largest.quantity))
    for by in (_by_word, _by_rating):
        lost = []
        for each in circuits:
            row = next((row for row in rows if by(row, each)), None)
            if row is None:
                lost.append(each)
            else:
                rows.remove(row)
        circuits = lost
    if lost:
        names = ", ".join(f"{each.circuit.id} in {each.panel}" for each in lost)
        why = (
            f"loads.appliances, loads.heating or loads.cooling: no row that could be {names}. List each with its rating"
        )
        return cannot_tell(id, title, clause, why)
    none = chosen("n_allowed", 0.0, "1", "every one has a row", clause)
    return at_most(id, title, clause, chosen("n_lost", 0.0, "1", "circuits without a row", None, largest), none)


def _large(job: JobFile, above: float) -> Iterator[Fed]:
    recorded = job.content.loads.method == "measured"
    for panel in job.ids("panels"):
        for each in feeder_load.of_panel(job, panel):
            circuit = each.circuit
            between = LINES in (circuit.poles, len(circuit.spaces))
            large = between and (circuit.breaker is None or circuit.breaker.number > above)
            if large and not (recorded and circuit.state == "existing"):
                yield each


def _rows(job: JobFile) -> Iterator[_Row]:
    loads = job.content.loads
    for each in loads.appliances:
        yield _Row(_words(each.id, each.name), None if each.rating is None else each.rating.number)
    for side, climate in (("heating", loads.heating), ("cooling", loads.cooling)):
        if climate is not None and climate.kind in ELECTRIC:
            rating = None if climate.rating is None else climate.rating.number
            yield _Row(_words(side, climate.kind), rating)


def _words(id: str, name: str | None) -> frozenset[str]:
    """The words of an id and of a name, each in one way of writing."""
    return frozenset(each.lower().replace(" ", "-") for each in (id, name) if each)


def _by_word(row: _Row, fed: Fed) -> bool:
    return bool(row.words & _words(fed.circuit.id, fed.circuit.name))


def _by_rating(row: _Row, fed: Fed) -> bool:
    return row.rating is not None and fed.circuit.load is not None and row.rating == fed.circuit.load.number
