"""The design of one job: the trades in their order, each reading those before it."""

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import NamedTuple, TypeVar

from standfast.design.anchorage import drilling
from standfast.design.anchorage.held import untold
from standfast.design.anchorage.inverter import inverter_place, unhung
from standfast.design.anchorage.neighbours import apart
from standfast.design.anchorage.task import Place
from standfast.design.anchorage.whole import Anchorage, anchor
from standfast.design.choice.whole import USUAL, Budget, Choice, Trades, choose
from standfast.design.installation import Installation
from standfast.design.installation.build import build
from standfast.design.knock_on.whole import KnockOn, knock_on
from standfast.design.labels import Label, Signed, labelled, places
from standfast.design.settings import SettingsSheet, settings
from standfast.design.siting.placed import Siting
from standfast.design.siting.whole import site
from standfast.design.wiring.backup import BackupSheet
from standfast.design.wiring.by_book import Electrical, electrical
from standfast.design.wiring.load import LoadSheet
from standfast.design.wiring.whole import Sight, Wiring, unworked
from standfast.equipment.prices import Prices
from standfast.equipment.read import DataSheet
from standfast.faults import NotInEdition
from standfast.sheet import Check, cannot_tell, missing
from standfast.shelf import Adoption, Edition
from standfast.survey.joined import INVERTER
from standfast.survey.read import Survey

FIXINGS, FEET, INVERTER_FIXINGS = ("fastener", "anchor"), ("base_anchor",), ("inverter_fastener",)
"""Roles of the data sheets that may hold a unit on a wall, its foot on the floor, and an inverter on a wall."""
T = TypeVar("T")


class Design(NamedTuple):
    """What was designed, by trade, and every check in order.

    Attributes:
        installation: the graph.
        siting: where each unit stands.
        anchorages: how each unit is held, in the order of their names; then an inverter of its own.
        wiring, load, backup, labels: what the trades of these names answer.
        choice: what was chosen of all that the job leaves open, with its price, and why.
        unstated: checks that stand for labels that the edition lacks.
        drilling: what has to be known before the walls are drilled.
        existing: what the work brings of the existing house under the adopted editions.
        settings: what the inverter is set to on the grid.
    """

    installation: Installation
    siting: Siting
    anchorages: tuple[Anchorage, ...]
    wiring: Wiring
    load: LoadSheet
    backup: BackupSheet
    labels: tuple[Label, ...]
    choice: Choice
    unstated: tuple[Check, ...] = ()
    drilling: tuple[Check, ...] = ()
    existing: KnockOn = KnockOn((), (), "")
    settings: SettingsSheet = SettingsSheet(None, (), ())

    def checks(self) -> Iterator[Check]:
        """Every check of the design, by trade."""
        yield from self.siting.checks
        yield from self.drilling
        for held in self.anchorages:
            yield from held.checks
        yield from self.load.checks
        yield from self.wiring.checks
        yield from self.backup.checks
        yield from self.existing.checks
        yield from self.settings.checks
        yield from self.unstated


def design(
    job: Survey, sheets: Mapping[str, DataSheet], adoption: Adoption, prices: Prices, budget: Budget = USUAL
) -> Design:
    """Design one job.

    Args:
        job: the job file.
        sheets: data sheets by role; ``battery`` must be there.
        adoption: the codes in force.
        prices: what orders choices that are all allowed.
        budget: how much is worked out for the choice.

    Raises:
        NotInEdition: where the adoption names no book of good practice, which every job needs.
        BadFormula: where the parts of the installation do not join.
    """
    trade = electrical(adoption, sheets)
    rules, installation = trade.rules, build(job, sheets)
    choice = choose(
        adoption, job, sheets, prices, site(adoption, job, sheets), _trades(trade, sheets, adoption, prices), budget
    )
    siting, wiring, held = choice.best.siting, choice.best.wired.wiring, choice.best.anchorages
    load = _as_stated(
        rules, "load", lambda: trade.load(job),
        lambda gap: LoadSheet("Load of the service", (), missing("I_house", "A", gap.reason),
                              missing("I_service", "A", gap.reason), (gap,)),
    )  # fmt: skip
    backup = _as_stated(
        rules, "backup", lambda: trade.backup(job, load),
        lambda gap: BackupSheet("Backup", (), missing("I_backup", "A", gap.reason), (gap,)),
    )  # fmt: skip
    where = places(job.job, installation, {each.id: each.wall for each in siting.places})
    labels, unstated = _as_stated(
        rules, "labels", lambda: labelled(adoption, job, installation, _signed(wiring), where), lambda gap: ((), (gap,))
    )
    drilled = [check for each in held for check in drilling.checks(job, adoption, each.unit)]
    known = (*unhung(job, adoption), *drilled)
    existing = _as_stated(
        rules, "existing", lambda: knock_on(job, adoption, prices), lambda gap: KnockOn((), (gap,), prices.currency)
    )
    on_grid = settings(job, sheets, adoption)
    return Design(installation, siting, held, wiring, load, backup, labels, choice, unstated, known, existing, on_grid)


def _signed(wiring: Wiring) -> Signed:
    """What signs tell of the wiring."""
    return Signed(
        {bar.panel: bar.option for bar in wiring.busbars if bar.option is not None},
        {each.id: each.voltage for each in wiring.arrays},
        {each.id: each.circuit.length for each in wiring.arrays},
    )


def _trades(trade: Electrical, sheets: Mapping[str, DataSheet], adoption: Adoption, prices: Prices) -> Trades:
    """What wiring and anchorage answer for units at a place."""

    def wired(job: Survey, siting: Siting) -> Wiring:
        return _as_stated(trade.rules, "wiring", lambda: trade.wire(job, sights(siting)), unworked)

    return Trades(wired, lambda job, siting: hold(job, sheets, adoption, prices, siting))


def sights(siting: Siting) -> dict[str, Sight]:
    """Of each unit, where its disconnect is seen from it and how far away that is."""
    return {each.id: Sight(each.disconnect_in_sight, each.disconnect_distance, each.wall) for each in siting.places}


def hold(
    job: Survey, sheets: Mapping[str, DataSheet], adoption: Adoption, prices: Prices, siting: Siting
) -> tuple[Anchorage, ...]:
    """How each unit and an inverter of its own are held at their places, each by itself.

    Args:
        job: the job file.
        sheets: data sheets by role.
        adoption: the codes in force.
        prices: what orders fixings that all hold.
        siting: where the units stand.
    """
    in_wall, in_floor, of_inverter = (
        [sheets[role] for role in roles if role in sheets] for roles in (FIXINGS, FEET, INVERTER_FIXINGS)
    )
    held = [
        _told_of(adoption, each.id, each.wall, partial(
            anchor, job, sheets["battery"], in_wall, adoption, Place(each.wall, each.left, each.bottom), unit=each.id,
            prices=prices.piece, plug=sheets.get("plug"), base_anchors=in_floor))
        for each in siting.places
    ]  # fmt: skip
    place = inverter_place(job)
    if "inverter" in sheets and place is not None:
        ask = partial(anchor, job, sheets["inverter"], of_inverter, adoption, place, unit=INVERTER, prices=prices.piece)
        held.append(_told_of(adoption, INVERTER, place.wall, ask))
    return apart(held, adoption)


def _told_of(adoption: Adoption, unit: str, wall: str, ask: Callable[[], Anchorage]) -> Anchorage:
    """How a unit is held; where no adopted book tells what acts on it and what holds it, a check that says so."""
    try:
        return ask()
    except NotInEdition as refusal:
        title = f"How {unit.replace('-', ' ')} is held on {wall}"
        why = f"{refusal}: have the fixing worked out by an engineer under the codes of the place"
        clause = adoption.book("practice").unheld()
        return untold(unit, wall, cannot_tell(f"anchorage.unstated/{unit}", title, clause, why))


def _as_stated(book: Edition, trade: str, ask: Callable[[], T], without: Callable[[Check], T]) -> T:
    """What a trade works out; where the edition lacks what all of it hangs on, a check that says so."""
    try:
        return ask()
    except NotInEdition as refusal:
        title = f"{trade.capitalize()} under {book.short} {book.edition}"
        return without(cannot_tell(f"{trade}.unstated", title, book.unheld(), str(refusal)))
