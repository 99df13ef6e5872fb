"""Every lift of a job: each unit at its place, one after the other, and an inverter of its own."""

from collections.abc import Iterable, Mapping

from standfast.design.anchorage.inverter import NEED, inverter_place
from standfast.design.siting.placed import PlacedUnit
from standfast.equipment.read import DataSheet
from standfast.faults import NotInEdition
from standfast.fieldwork.lifting import Lifting, lift
from standfast.sheet import cannot_tell, missing
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

    Returns:
        The card; where the adoption names no method of judging a lift, one check that says so, and no row.
    """
    try:
        return _lifts(job, sheets, books, list(places))
    except NotInEdition as refusal:
        why = f"{refusal}: have every lift judged by the employer's own method"
        clause = books.book("practice").unheld()
        return Lifting((cannot_tell("lifting.unstated", "How the parts get up", clause, why),), ())


def _lifts(job: Survey, sheets: Mapping[str, DataSheet], books: Adoption, stands: list[PlacedUnit]) -> Lifting:
    aid = sheets.get("aid")
    found = [lift(job, sheets["battery"], aid, books, each.bottom, unit=each.id, units=len(stands)) for each in stands]
    if "inverter" in sheets:
        place = inverter_place(job)
        bottom = missing("y_bottom", "mm", NEED) if place is None else place.bottom
        found.append(lift(job, sheets["inverter"], aid, books, bottom, unit=INVERTER))
    checks = tuple(check for each in found for check in each.checks)
    return Lifting(checks, tuple(row for each in found for row in each.rows))
