"""The permit set: ANSI B sheets from the cover to the bound documents."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.design.labels.schedule import Label
from standfast.handover import calculations, panels
from standfast.handover.counter import Asked, Situation, counter, documents, missing, table
from standfast.handover.particulars import NOT_READY, NOT_STATED, READY, codes, licence, strip
from standfast.handover.working import Working
from standfast.paper.document import (
    Attachment,
    Block,
    Bound,
    Bullets,
    Document,
    Facts,
    Frame,
    Gap,
    Heading,
    Index,
    Picture,
    Sheet,
    Sides,
    Table,
    Text,
    Words,
    bold,
    mono,
)
from standfast.paper.drawing import Drawing
from standfast.paper.sheets import ANSI_B
from standfast.sheet import Ledger
from standfast.shelf import Adoption
from standfast.survey.model import Job

DRAWINGS: dict[str, tuple[str, str]] = {
    "site plan": ("A1", "Site plan"),
    "elevation": ("A2", "Wall elevation"),
    "plan details": ("A3", "Plan details"),
    "fixing detail": ("A4", "Fixing detail and holes"),
    "one-line": ("E1", "One-line diagram"),
}
"""Drawings of the set by the part that they answer: code and name."""

CAUTIONS = (
    "The terminals of a battery cannot be switched off. Covers marked by the maker stay shut.",
    "Two sources feed this house: opening the main does not make the battery circuit dead. Open and lock every source, "
    "prove dead, and prove the tester before and after.",
    "Conductors on the supply side of the service disconnect stay live until the utility cuts them off.",
    "The unit is heavy enough to crush. Nobody stands or reaches under it until every fastener is tight.",
    "A unit that fell, was flooded, smells, swells or hisses is not switched on. Leave, and call the fire service.",
)
LIMITS = (
    "The adopted code and its local amendments, the authority, the listing and the maker's instructions decide before "
    "anything that is printed here.",
    "A licensed person reviews this set and answers for the work. The program knows only what it was told.",
    "Numbers of codes were read in the sources named beside them; those not compared with print are marked.",
)


_STRIP_NOTES = 5
"""Notes of a drawing that stand in the title strip; more stand on a sheet of their own."""


class Item(NamedTuple):
    """One line of the equipment schedule.

    Attributes:
        tag: as on the drawings.
        what: kind of equipment.
        model: maker and name.
        number: how many.
        ratings: what decides: energy, currents, voltages, short-circuit ratings.
        listing: standards, with certificate.
        place: where it is put, or existing.
    """

    tag: str
    what: str
    model: str
    number: str
    ratings: str
    listing: str
    place: str


class Contents(NamedTuple):
    """Everything the permit set is made from.

    Attributes:
        job: the job file's model.
        job_file: its text, which travels inside the PDF.
        adoption: the codes in force.
        ledger: every check.
        drawings: finished drawings by part, as in DRAWINGS; a part that could not be drawn is absent.
        equipment: the equipment schedule.
        labels: the label schedule.
        load: ids of the checks that are the load calculation.
        files: files of ``documents/`` by name.
        departs: why a fire test report is asked; empty where it is not.
        drilled: what fasteners hold in.
        cautions: cautions of the equipment, beside those of every job.
        load_tables: the load calculation line by line.
        undrawn: why a part could not be drawn.
        beside: blocks that stand beside the drawing of a part.
    """

    job: Job
    job_file: bytes
    adoption: Adoption
    ledger: Ledger
    drawings: Mapping[str, Drawing]
    equipment: Sequence[Item]
    labels: Sequence[Label]
    load: Sequence[str] = ()
    files: Mapping[str, bytes] = {}
    departs: str = ""
    drilled: Sequence[str] = ()
    cautions: Sequence[str] = ()
    load_tables: Sequence[Block] = ()
    undrawn: Mapping[str, str] = {}
    beside: Mapping[str, Sequence[Block]] = {}


class PermitSet(NamedTuple):
    """The set as a document, its counter list, and what stands against handing it over."""

    document: Document
    counter: list[Asked]
    against: list[str]

    @property
    def ready(self) -> bool:
        """True where nothing is open and nothing is missing."""
        return not self.against


def permit_set(contents: Contents) -> PermitSet:
    """The permit set of a job, complete or not: with anything open or missing every sheet says NOT READY TO SUBMIT.

    NotInEdition where the adoption holds no list of the documents that an authority asks.
    """
    pictures: dict[str, str] = {}
    drawn = [_drawing(part, contents, pictures) for part in DRAWINGS if part in contents.drawings]
    working = Working()
    load = [*contents.load_tables, *(calculations.card(contents.ledger[id], working) for id in contents.load)]
    made = [
        *drawn,
        panels.sheet(contents.job, "E2", load),
        *_labels(contents.labels),
        calculations.sheet("C1", contents.ledger, elsewhere=dict.fromkeys(contents.load, "E2"), working=working),
        _limits(contents),
    ]
    parts = {part: code for part, (code, _) in DRAWINGS.items() if part in contents.drawings} | {"cover": "G1"}
    parts["calculations"] = "C1"
    if contents.equipment:
        parts["equipment schedule"] = "G1"
    if contents.load:
        parts["panels and loads"] = "E2"
    if contents.labels:
        parts["labels"] = "E3"
    situation = Situation(
        contents.job, parts, list(contents.files), contents.departs, contents.drilled, contents.undrawn
    )
    listed = counter(contents.adoption, situation)
    against = _against(contents.ledger, listed)
    job = contents.job
    document = Document(
        title=f"Permit set, {job.job.name}, revision {job.job.revision}",
        author=job.contractor.firm or NOT_STATED,
        date=job.job.date.isoformat(),
        size=ANSI_B,
        strip=strip(job, contents.adoption, NOT_READY if against else READY),
        sheets=[_cover(contents, listed, against), *made],
        pictures=pictures,
        attachments=[Attachment("job.toml", contents.job_file, "application/toml", "source", "Job file of this set")],
        bound=_bound(contents),
    )
    return PermitSet(document, listed, against)


def _cover(contents: Contents, listed: Sequence[Asked], against: Sequence[str]) -> Sheet:
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
    right += [Heading("Counter list: what the authority asks"), table(listed)]
    blocks: list[Block] = [Sides((1, 1.9), (left, right))]
    if contents.ledger.open:
        blocks += [Heading("Open checks"), calculations.open_table(contents.ledger.open)]
    blocks += [Heading("Equipment"), _equipment(contents.equipment)]
    return Sheet("G1", "Cover", blocks)


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


def _drawing(part: str, contents: Contents, pictures: dict[str, str]) -> Sheet:
    (code, title), drawing = DRAWINGS[part], contents.drawings[part]
    name = f"{part.replace(' ', '-')}.svg"
    pictures[name] = drawing.svg()
    scale = str(drawing.scale) if drawing.scale.name else "not to scale"
    notes = [f"{note.mark}  {note.text}" for note in drawing.notes]
    blocks: list[Block] = [Picture(name, drawing.description, drawing.width)]
    if part in contents.beside:
        blocks = [Sides((1, 1), (blocks, contents.beside[part]))]
    if len(notes) > _STRIP_NOTES:
        blocks += [Heading(f"Notes to {code}"), Bullets(notes)]
        notes = [f"{len(notes)} notes: next sheet"]
    return Sheet(code, title, blocks, scale=scale, notes=notes)


def _labels(labels: Sequence[Label]) -> list[Sheet]:
    if not labels:
        return []
    rows: list[list[Text]] = [
        [bold(each.id), mono(each.wording), f"{each.at}: {each.place}", f"{each.look}; {_letters(each.letters_in)}",
         str(each.clause), each.why, each.ground]
        for each in labels
    ]  # fmt: skip
    head = ["Tag", "Wording", "Where", "Look", "Clause", "Why here", "Ground"]
    intro = Words("Labels are durable, not written by hand, and suit their place. Tags stand on the drawings.")
    return [Sheet("E3", "Labels", [intro, Table(head, rows, [0, 5, 3, 2.4, 2, 3, 2.4], size=8)])]


def _letters(least_in: float) -> str:
    return f"letters at least {least_in:g} in ({least_in * 25.4:.1f} mm)" if least_in else "legible letters"


def _limits(contents: Contents) -> Sheet:
    cautions = list(dict.fromkeys([*CAUTIONS, *contents.cautions]))
    blocks: list[Block] = [
        Heading("What stands before this set"),
        Bullets(LIMITS),
        Frame("Cautions", [Bullets(cautions)], "caution"),
        Heading("Assumed: verify on site"),
        *calculations.assumptions(contents.ledger),
        Heading("What was not checked"),
        calculations.not_checked(contents.adoption),
    ]
    return Sheet("N1", "Limits, cautions, assumptions", blocks, columns=2)


def _bound(contents: Contents) -> list[Bound]:
    codes_of = documents(contents.job.documents)
    return [
        Bound(codes_of[paper.id], paper.title, f"documents/{paper.file}", contents.files[paper.file])
        for paper in contents.job.documents
        if paper.file is not None and paper.file in contents.files
    ]


def _against(ledger: Ledger, listed: Sequence[Asked]) -> list[str]:
    found = []
    failing = sum(check.verdict == "fail" for check in ledger)
    unknown = sum(check.verdict == "cannot tell" for check in ledger)
    if not len(ledger):
        found.append("nothing was checked")
    if failing:
        found.append(f"{failing} checks fail" if failing > 1 else "1 check fails")
    if unknown:
        found.append(f"{unknown} checks cannot be told" if unknown > 1 else "1 check cannot be told")
    lacking = missing(listed)
    if lacking:
        found.append(f"{len(lacking)} of the documents that the authority asks are missing")
    return found
