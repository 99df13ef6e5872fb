"""The cover of the permit set: who and where, codes in force, index, state, counts, counter list; the equipment."""

from collections.abc import Sequence

from standfast.handover import calculations
from standfast.handover.contents import Contents, Item
from standfast.handover.counter import Asked, table
from standfast.handover.particulars import NOT_READY, NOT_STATED, codes, licence
from standfast.paper.document import (
    Block,
    Bullets,
    Facts,
    Frame,
    Gap,
    Heading,
    Index,
    Sheet,
    Sides,
    Table,
    Text,
    Words,
    bold,
)
from standfast.shelf import Adoption
from standfast.survey.model import Job

EQUIPMENT = "G2"
"""Number of the sheet of the equipment schedule."""


def cover(contents: Contents, listed: Sequence[Asked], against: Sequence[str]) -> Sheet:
    """The cover sheet.

    Args:
        contents: what the set is made from.
        listed: the counter list.
        against: what stands against handing it over; empty where it is ready.
    """
    left: list[Block] = [*_identity(contents.job)]
    left += [Heading("Codes in force"), _codes(contents.adoption, adopted=True)]
    left += [Heading("Methods and product standards applied"), _codes(contents.adoption, adopted=False)]
    state: list[Block] = (
        [Frame(NOT_READY, [Bullets(list(against))], "state")]
        if against
        else [Frame("For review", [Words("No check is open and no document of the counter list is missing.")])]
    )
    counts: list[Block] = [*state, calculations.count_table(contents.ledger), Gap(2)]
    counts += [calculations.basis_table(contents.ledger)]
    right: list[Block] = [Sides((1, 1), ([Index()], counts))]
    if listed:
        right += [Heading("Counter list: what the authority asks"), table(listed)]
    blocks: list[Block] = [Sides((1, 1.9), (left, right))]
    if contents.ledger.open:
        blocks += [Heading("Open checks"), calculations.open_table(contents.ledger.open)]
    return Sheet("G1", "Cover", blocks)


def equipment(items: Sequence[Item]) -> list[Sheet]:
    """The sheet of the equipment schedule; none where nothing is listed."""
    return [Sheet(EQUIPMENT, "Equipment", [_equipment(items)])] if items else []


def _identity(job: Job) -> list[Block]:
    head, site, firm = job.job, job.site, job.contractor
    rows: list[tuple[str, Text]] = [
        ("Job", bold(f"{head.name}, revision {head.revision}, {head.date.isoformat()}")),
        ("Scope", head.scope or NOT_STATED),
        ("Site", f"{site.address or NOT_STATED}; parcel {site.parcel or NOT_STATED}"),
        ("House", f"{site.dwelling or 'kind ' + NOT_STATED}, built {site.year_built or NOT_STATED}"),
        ("Owner", f"{job.owner.name or NOT_STATED}, {job.owner.phone or 'telephone ' + NOT_STATED}"),
        ("Contractor", f"{firm.firm or NOT_STATED}, {firm.phone or 'telephone ' + NOT_STATED}"),
        ("Licence", licence(job)),
        ("Responsible", firm.responsible or NOT_STATED),
        ("Authority", job.authority.name or NOT_STATED),
        ("Utility", f"{job.utility.name or NOT_STATED}, account {job.utility.account or NOT_STATED}"),
    ]
    return [Facts(rows, 22)]


def _codes(adoption: Adoption, *, adopted: bool) -> Table:
    rows: list[list[Text]] = [[f"{short} {year}", title] for short, year, title in codes(adoption, adopted=adopted)]
    return Table([], rows, [0, 1], size=8)


def _equipment(items: Sequence[Item]) -> Table:
    rows: list[list[Text]] = [list(item) for item in items]
    head = ["Tag", "Equipment", "Maker and model", "No.", "Ratings", "Listing", "Place"]
    return Table(head, rows, [0, 2, 3, 0, 5, 3, 3], size=8)
