"""Every lift of a job: each unit at its place, one after the other, and an inverter of its own."""

from collections.abc import Iterable, Mapping

from standfast.design.anchorage.inverter import NEED, inverter_place
from standfast.design.siting.placed import PlacedUnit
from standfast.equipment.read import DataSheet
from standfast.fieldwork.lifting import Lifting, lift
from standfast.sheet import missing
from standfast.shelf import Adoption
from standfast.survey.joined import INVERTER
from standfast.survey.read import Survey


def lifts(job: Survey, sheets: Mapping[str, DataSheet], books: Adoption, places: Iterable[PlacedUnit]) -> Lifting:
    """The lifting card of a job, with its checks.

    Args:
        job: the job file.
        sheets: data sheets by role.
        books: the editions in force.
        places: where the units stand.
    """
    stands, aid = list(places), sheets.get("aid")
    found = [lift(job, sheets["battery"], aid, books, each.bottom, unit=each.id, units=len(stands)) for each in stands]
    if "inverter" in sheets:
        place = inverter_place(job)
        bottom = missing("y_bottom", "mm", NEED) if place is None else place.bottom
        found.append(lift(job, sheets["inverter"], aid, books, bottom, unit=INVERTER))
    checks = tuple(check for each in found for check in each.checks)
    return Lifting(checks, tuple(row for each in found for row in each.rows))
