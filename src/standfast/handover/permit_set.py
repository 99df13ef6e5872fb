"""The permit set: ANSI B sheets from the cover to the bound documents."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.labels.schedule import Label
from standfast.handover import calculations, metric_circuits, notice, panels, settings_sheet
from standfast.handover.contents import Contents
from standfast.handover.counter import Asked, Situation, counter, documents, missing
from standfast.handover.cover import EQUIPMENT, cover, equipment
from standfast.handover.drawings.one_line_told import CODES, CONTINUED
from standfast.handover.particulars import NOT_READY, NOT_STATED, READY, strip
from standfast.handover.working import Working
from standfast.paper.document import (
    Attachment,
    Block,
    Bound,
    Bullets,
    Document,
    Frame,
    Heading,
    Picture,
    Sheet,
    Sides,
    Table,
    Text,
    Words,
    bold,
    mono,
)
from standfast.paper.sheets import ANSI_B
from standfast.sheet import Ledger
from standfast.shelf.adoptions import IN_FORCE

DRAWINGS: dict[str, tuple[str, str]] = {
    "site plan": ("A1", "Site plan"),
    "elevation": ("A2", "Wall elevation"),
    "plan details": ("A3", "Plan details"),
    "fixing detail": ("A4", "Fixing detail and holes"),
    "one-line": (CODES["one-line"], "One-line diagram"),
    "one-line schedule": (CODES["one-line schedule"], "Schedule of the one-line diagram"),
    **{name: (CODES[name], "One-line diagram, continued") for name in CONTINUED},
    "three-line": ("E4", "Three-line diagram"),
    "panel directory": ("E5", "Panel directories"),
}
"""Drawings of the set by the part that they answer: code and name."""

CAUTIONS = (
    "The terminals of a battery cannot be switched off. Covers marked by the maker stay shut.",
    "More than one source feeds this house: opening the main does not make its circuits dead. Open and lock every "
    "source, prove dead, and prove the tester before and after.",
    "Conductors on the supply side of the first disconnect that can be opened stay live until the utility "
    "cuts them off.",
    "The unit is heavy enough to crush. Nobody stands or reaches under it until every fastener is tight.",
    "A unit that fell, was flooded, smells, swells or hisses is not switched on. Leave, and call the fire service.",
)
LIMITS = (
    "The adopted code and its local amendments, the authority, the listing and the maker's instructions decide before "
    "anything that is printed here.",
    "A licensed person reviews this set and answers for the work. The program knows only what it was told.",
    "Numbers of codes were read in the sources named beside them; those not compared with print are marked.",
)


LISTS = "permitguide"
"""Book that holds the documents which authorities ask."""
_STRIP_NOTES = 5
"""Notes of a drawing that stand in the title strip; more stand on a sheet of their own."""


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
    drawn = [_drawing(each, contents, pictures) for each in _coded(contents)]
    working = Working()
    load = [*contents.load_tables, *(calculations.card(contents.ledger[id], working) for id in contents.load)]
    made = [
        *equipment(contents.equipment),
        *(each for each in drawn if each.code < panels.CODE),
        panels.sheet(contents.job, load, contents.panels),
        *_labels(contents.labels),
        *(each for each in drawn if each.code > panels.CODE),
        *metric_circuits.sheet(contents.metric),
        *settings_sheet.sheet(contents.settings),
        *notice.sheet(None if contents.metric is None else contents.metric.notification),
        calculations.sheet("C1", contents.ledger, elsewhere=dict.fromkeys(contents.load, panels.CODE), working=working),
        *_faults(contents),
        *_feeds(contents),
        _limits(contents),
    ]
    situation = Situation(
        contents.job, _parts(contents), list(contents.files), contents.departs, contents.drilled, contents.undrawn
    )
    listed = counter(contents.adoption, situation) if LISTS in contents.adoption.books else []
    against = _against(contents.ledger, listed)
    if LISTS not in contents.adoption.books:
        against.append("no list of the documents that the authority asks is adopted: ask the authority for it")
    job = contents.job
    document = Document(
        title=f"Permit set, {job.job.name}, revision {job.job.revision}",
        author=job.contractor.firm or NOT_STATED,
        date=job.job.date.isoformat(),
        size=ANSI_B,
        strip=strip(job, contents.adoption, NOT_READY if against else READY),
        sheets=[cover(contents, listed, against), *made],
        pictures=pictures,
        attachments=[Attachment("job.toml", contents.job_file, "application/toml", "source", "Job file of this set")],
        bound=_bound(contents),
    )
    return PermitSet(document, listed, against)


def _faults(contents: Contents) -> list[Sheet]:
    return [Sheet("C2", "Fault currents and arcs", contents.faults)] if contents.faults else []


def _feeds(contents: Contents) -> list[Sheet]:
    return [Sheet("C3", "Who can feed what", contents.feeds)] if contents.feeds else []


def _parts(contents: Contents) -> dict[str, str]:
    """Code of the sheet that answers each part of the set, for the parts that were made."""
    parts = {each.part: each.code for each in _coded(contents)}
    parts |= {"cover": "G1", "calculations": "C1"}
    if contents.equipment:
        parts["equipment schedule"] = EQUIPMENT
    if contents.load:
        parts["panels and loads"] = panels.CODE
    if contents.labels:
        parts["labels"] = "E3"
    if contents.settings.profile is not None:
        parts["settings sheet"] = settings_sheet.CODE
    if contents.metric is not None and contents.metric.notification is not None:
        parts[notice.PART] = notice.CODE
    return parts


class Coded(NamedTuple):
    """A drawing of the set: the part that it answers, or one more drawing of it; code and name of its sheet."""

    part: str
    code: str
    title: str


def _coded(contents: Contents) -> list[Coded]:
    """The drawings in the order of the set; further ones of a part, ``elevation, garage-north``, follow the first."""
    found: list[Coded] = []
    for part, (code, title) in DRAWINGS.items():
        alike = [name for name in contents.drawings if name == part or name.startswith(f"{part}, ")]
        for number, name in enumerate(alike):
            more = name.removeprefix(part)
            found.append(Coded(name, f"{code}.{number}" if number else code, f"{title}{more}"))
    return found


def file_name(part: str) -> str:
    """The name of a drawing's file, without its ending: ``elevation-garage-north``."""
    return part.replace(", ", "-").replace(" ", "-")


def _drawing(coded: Coded, contents: Contents, pictures: dict[str, str]) -> Sheet:
    part, code, title = coded
    drawing = contents.drawings[part]
    name = f"{file_name(part)}.svg"
    pictures[name] = drawing.svg()
    scale = str(drawing.scale) if drawing.scale.name else "not to scale"
    notes = [f"{note.mark}  {note.text}" for note in drawing.notes]
    blocks: list[Block] = [Picture(name, drawing.description, drawing.width)]
    if part in contents.beside:
        beside = list(contents.beside[part])
        below = next((number for number, block in enumerate(beside) if isinstance(block, Heading) and number > 3), None)
        blocks = [Sides((1, 1), (blocks, beside[:below]), [] if below is None else beside[below:])]
    if len(notes) > _STRIP_NOTES:
        blocks += [Heading(f"Notes to {code}"), Bullets(notes)]
        notes = [f"{len(notes)} notes: next sheet"]
    return Sheet(code, title, blocks, scale=scale, notes=notes)


def _labels(labels: Sequence[Label]) -> list[Sheet]:
    if not labels:
        return []
    rows: list[list[Text]] = [
        [bold(each.id), str(each.number), mono(each.wording), f"{each.at}: {each.place}",
         f"{each.look}; {_letters(each)}", str(each.clause), each.why, each.ground]
        for each in labels
    ]  # fmt: skip
    head = ["Tag", "No.", "Wording", "Where", "Look", "Clause", "Why here", "Ground"]
    intro = Words("Labels are durable, not written by hand, and suit their place. Tags stand on the drawings.")
    return [Sheet("E3", "Labels", [intro, Table(head, rows, [0, 0, 5, 3, 2.4, 2, 3, 2.4], size=8)])]


def _letters(label: Label) -> str:
    least = label.letters_in
    if label.metric and least:
        return f"letters at least {least * 25.4:.3g} mm"
    return f"letters at least {least:g} in ({least * 25.4:.1f} mm)" if least else "legible letters"


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
        *contents.chosen,
    ]
    return Sheet("N1", "Limits, cautions, assumptions, choice", blocks, columns=2)


def _bound(contents: Contents) -> list[Bound]:
    codes_of = documents(contents.job.documents)
    return [
        Bound(codes_of[paper.id], paper.title, f"documents/{paper.file}", contents.files[paper.file])
        for paper in contents.job.documents
        if paper.file is not None and paper.file in contents.files
    ]


def _against(ledger: Ledger, listed: Sequence[Asked]) -> list[str]:
    found = [check.reason for check in ledger if check.id == IN_FORCE and check.open]
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
