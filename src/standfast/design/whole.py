"""The design of one job: the trades in their order, each reading those before it."""

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple, TypeVar

from standfast.design.anchorage import drilling
from standfast.design.anchorage.task import Place
from standfast.design.anchorage.whole import Anchorage, anchor
from standfast.design.installation import Installation
from standfast.design.installation.build import build
from standfast.design.labels import Label, schedule
from standfast.design.siting.placed import Siting
from standfast.design.siting.whole import site
from standfast.design.wiring.backup import BackupSheet, backup_load
from standfast.design.wiring.load import LoadSheet, service_load
from standfast.design.wiring.whole import Wiring, unworked, wire
from standfast.equipment.prices import Prices
from standfast.equipment.read import DataSheet
from standfast.faults import NotInEdition
from standfast.sheet import Check, cannot_tell, missing
from standfast.shelf import Adoption, Edition
from standfast.survey.read import Survey

FIXINGS = ("fastener", "anchor")
"""Roles of the data sheets that may hold the unit on a wall."""
T = TypeVar("T")


class Design(NamedTuple):
    """What was designed, by trade, and every check in order; `unstated` stands for labels that an edition lacks."""

    installation: Installation
    siting: Siting
    anchorage: Anchorage
    wiring: Wiring
    load: LoadSheet
    backup: BackupSheet
    labels: tuple[Label, ...]
    unstated: tuple[Check, ...] = ()
    drilling: tuple[Check, ...] = ()

    def checks(self) -> Iterator[Check]:
        """Every check of the design, by trade."""
        yield from self.siting.checks
        yield from self.drilling
        yield from self.anchorage.checks
        yield from self.load.checks
        yield from self.wiring.checks
        yield from self.backup.checks
        yield from self.unstated


def design(job: Survey, sheets: Mapping[str, DataSheet], adoption: Adoption, prices: Prices) -> Design:
    """Design one job.

    Args:
        job: the job file.
        sheets: data sheets by role; ``battery`` must be there.
        adoption: the codes in force.
        prices: what orders choices that are all allowed.

    Raises:
        NotInEdition: where the adoption names one of the books not that every job needs.
        BadFormula: where the parts of the installation do not join.
    """
    nec, handbook = adoption.book("nfpa70"), adoption.book("handbook")
    installation = build(job, sheets)
    siting = site(adoption, job, sheets)
    wiring = _as_stated(
        nec, "wiring", lambda: wire(nec, handbook, job, sheets), unworked
    )
    load = service_load(nec, job, sheets)
    backup = _as_stated(
        nec, "backup", lambda: backup_load(nec, job, sheets, load.house),
        lambda gap: BackupSheet("Backup", (), missing("I_backup", "A", gap.reason), (gap,)),
    )  # fmt: skip
    options = {bar.panel: bar.option for bar in wiring.busbars if bar.option is not None}
    backed, phone = job.job.backup.mode not in (None, "none"), job.job.contractor.phone or ""
    labels, unstated = _as_stated(
        nec, "labels", lambda: (tuple(schedule(nec, installation, options, backup=backed, telephone=phone)), ()),
        lambda gap: ((), (gap,)),
    )  # fmt: skip
    held = _held(job, sheets, adoption, prices, siting)
    drilled = tuple(drilling.checks(job, adoption, siting.places[0].id))
    return Design(installation, siting, held, wiring, load, backup, labels, unstated, drilled)


def _as_stated(book: Edition, trade: str, ask: Callable[[], T], without: Callable[[Check], T]) -> T:
    """What a trade works out; where the edition lacks what all of it hangs on, a check that says so."""
    try:
        return ask()
    except NotInEdition as refusal:
        title = f"{trade.capitalize()} under {book.short} {book.edition}"
        return without(cannot_tell(f"{trade}.unstated", title, book.unheld(), str(refusal)))


def _held(
    job: Survey, sheets: Mapping[str, DataSheet], adoption: Adoption, prices: Prices, siting: Siting
) -> Anchorage:
    unit = siting.places[0]
    place = Place(unit.wall, unit.left, unit.bottom)
    fixings = [sheets[role] for role in FIXINGS if role in sheets]
    plug = sheets.get("plug")
    return anchor(job, sheets["battery"], fixings, adoption, place, unit=unit.id, prices=prices.piece, plug=plug)
