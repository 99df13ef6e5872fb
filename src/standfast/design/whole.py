"""The design of one job: the trades in their order, each reading those before it."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from standfast.design.anchorage.task import Place
from standfast.design.anchorage.whole import Anchorage, anchor
from standfast.design.installation import Installation
from standfast.design.installation.build import build
from standfast.design.labels import Label, schedule
from standfast.design.siting.whole import Siting, site
from standfast.design.wiring.backup import BackupSheet, backup_load
from standfast.design.wiring.load import LoadSheet, service_load
from standfast.design.wiring.whole import Wiring, wire
from standfast.equipment.prices import Prices
from standfast.equipment.read import DataSheet
from standfast.sheet import Check
from standfast.shelf import Adoption
from standfast.survey.read import Survey

FIXINGS = ("fastener", "anchor")
"""Roles of the data sheets that may hold the unit on a wall."""


class Design(NamedTuple):
    """What was designed, by trade, and every check in order."""

    installation: Installation
    siting: Siting
    anchorage: Anchorage
    wiring: Wiring
    load: LoadSheet
    backup: BackupSheet
    labels: tuple[Label, ...]

    def checks(self) -> Iterator[Check]:
        """Every check of the design, by trade."""
        yield from self.siting.checks
        yield from self.anchorage.checks
        yield from self.load.checks
        yield from self.wiring.checks
        yield from self.backup.checks


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
    wiring = wire(nec, handbook, job, sheets)
    load = service_load(nec, job, sheets)
    backup = backup_load(nec, job, sheets, load.house)
    options = {bar.panel: bar.option for bar in wiring.busbars if bar.option is not None}
    backed, phone = job.job.backup.mode not in (None, "none"), job.job.contractor.phone or ""
    labels = schedule(nec, installation, options, backup=backed, telephone=phone)
    held = _held(job, sheets, adoption, prices, siting)
    return Design(installation, siting, held, wiring, load, backup, tuple(labels))


def _held(
    job: Survey, sheets: Mapping[str, DataSheet], adoption: Adoption, prices: Prices, siting: Siting
) -> Anchorage:
    place = Place(siting.wall, siting.left, siting.bottom)
    fixings = [sheets[role] for role in FIXINGS if role in sheets]
    plug = sheets.get("plug")
    return anchor(job, sheets["battery"], fixings, adoption, place, unit=siting.unit, prices=prices.piece, plug=plug)
