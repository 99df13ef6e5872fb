"""The counter list: every document that the authority asks, and where it is.

Each stands *in the set* on a sheet, is *missing* with what to add, or is *not asked here* for a reason.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Literal, NamedTuple

from standfast.faults import NotInEdition
from standfast.handover.particulars import lacks
from standfast.paper.document import Table, Text, bold, sheet_of
from standfast.shelf import Adoption
from standfast.survey.model import Job, Paper

Answer = Literal["in the set", "missing", "not asked here"]


class Asked(NamedTuple):
    """One document that the authority asks.

    Attributes:
        id: key of the table it comes from.
        document: what is asked.
        answer: where it stands.
        code: of the sheet on which it begins; empty where it is on none.
        remark: what to add, or why it is not asked.
    """

    id: str
    document: str
    answer: Answer
    code: str
    remark: str


class Situation(NamedTuple):
    """What decides which documents are asked.

    Attributes:
        job: the job file.
        sheets: code of the sheet that answers each part of the set, for the parts that were made.
        files: names of the files of ``documents/`` that are there.
        departs: why a fire test report is asked; empty where spacing and energy keep to the default.
        drilled: what fasteners hold in: ``wood``, ``concrete``, ``masonry``.
        undrawn: why a part of the set could not be drawn.
    """

    job: Job
    sheets: Mapping[str, str]
    files: Collection[str]
    departs: str
    drilled: Collection[str]
    undrawn: Mapping[str, str] = {}


def counter(adoption: Adoption, situation: Situation) -> list[Asked]:
    """The counter list of a job, in the order of the adoption's own table.

    NotInEdition where the adoption holds no table of documents: then nobody can say whether the set is complete.
    """
    rows = adoption.book("permitguide").table("documents").rows
    return [_answer(situation, {name: str(cell) for name, cell in row.items()}) for row in rows]


def missing(listed: Sequence[Asked]) -> list[Asked]:
    """What must be added before the set can be handed over."""
    return [each for each in listed if each.answer == "missing"]


def printed(listed: Sequence[Asked], numbers: Mapping[str, int]) -> list[str]:
    """The counter list as lines for a terminal."""
    lines = []
    for each in listed:
        at = f", sheet {numbers[each.code]} ({each.code})" if each.code in numbers else ""
        remark = f": {each.remark}" if each.remark else ""
        lines.append(f"{each.answer}{at}  {each.document}{remark}")
    return lines


def table(listed: Sequence[Asked]) -> Table:
    """The counter list as a table of the cover."""
    rows: list[list[Text]] = []
    for each in listed:
        answer: Text = [each.answer, ", sheet ", sheet_of(each.code)] if each.code else each.answer
        if each.answer == "missing":
            answer = bold("MISSING")
        rows.append([each.document, answer, each.remark])
    return Table(["Document", "Where", "To add, or why not"], rows, [5, 2.3, 4], size=8)


def documents(papers: Sequence[Paper]) -> dict[str, str]:
    """Code of the sheet on which each document of the job begins, by its id."""
    return {paper.id: f"D{number}" for number, paper in enumerate(papers, 1)}


def _answer(situation: Situation, row: Mapping[str, str]) -> Asked:
    reason = _not_asked(situation, row["asked_when"])
    if reason is not None:
        return Asked(row["id"], row["document"], "not asked here", "", reason)
    if row["answered_by"] in _PARTS:
        return _part(situation, row)
    return _paper(situation, row)


def _part(situation: Situation, row: Mapping[str, str]) -> Asked:
    """A document that the program makes."""
    part = row["answered_by"]
    if part == "cover":
        lacking = lacks(situation.job)
        if lacking:
            add = "add " + "; ".join(f"{each.what} ({each.where})" for each in lacking)
            return Asked(row["id"], row["document"], "missing", "", add)
    code = situation.sheets.get(part)
    undrawn = [why for name, why in situation.undrawn.items() if name == part or name.startswith(f"{part}, ")]
    if code is None or undrawn:
        why = "; ".join(undrawn) or f"add what the {part} needs: see the open checks"
        return Asked(row["id"], row["document"], "missing", "", why)
    return Asked(row["id"], row["document"], "in the set", code, "")


def _paper(situation: Situation, row: Mapping[str, str]) -> Asked:
    """A document that somebody else wrote and the job binds in."""
    kind, _, about = row["answered_by"].partition(" of ")
    codes = documents(situation.job.documents)
    held = [paper for paper in situation.job.documents if str(paper.kind) == kind and _about(paper) == about]
    there = [paper for paper in held if paper.file in situation.files]
    if there:
        return Asked(row["id"], row["document"], "in the set", codes[there[0].id], "")
    told = f' and of = "{about}"' if about else ""
    if held:
        name = held[0].file or "a file of that name"
        return Asked(row["id"], row["document"], "missing", "", f"put {name} into the folder documents/")
    return Asked(row["id"], row["document"], "missing", "", f'add [[documents]] of kind "{kind}"{told} with its file')


def _about(paper: Paper) -> str:
    """The equipment beside the battery unit that a document is about; empty where it is about no other."""
    return "" if paper.of in (None, "battery") else str(paper.of)


def _not_asked(situation: Situation, condition: str) -> str | None:
    """Why a document is not asked here; None where it is."""
    try:
        rule = _CONDITIONS[condition]
    except KeyError:
        raise NotInEdition(f"the table of documents holds a condition that is not known here: {condition}") from None
    return rule(situation)


def _load(situation: Situation) -> str | None:
    service = situation.job.supply.service
    small = service is None or service.number < 200
    backed = situation.job.backup.mode not in (None, "none")
    return None if small or backed else "service of 200 A or more, and no backup"


def _departs(situation: Situation) -> str | None:
    return None if situation.departs else "spacing and energy keep to the default"


def _inverter(situation: Situation) -> str | None:
    return None if situation.job.equipment.inverter is not None else "the inverter is inside the battery unit"


def _anchors(situation: Situation) -> str | None:
    return None if {"concrete", "masonry"} & set(situation.drilled) else "no anchor in concrete or masonry"


def _fault_current(situation: Situation) -> str | None:
    stated = situation.job.supply.fault_current is not None
    return None if stated else "the fault current is worked out from the transformer"


_PARTS = frozenset(
    (
        "cover",
        "equipment schedule",
        "site plan",
        "plan details",
        "fixing detail",
        "elevation",
        "one-line",
        "calculations",
        "labels",
        "panels and loads",
        "grid notification",
    )
)
_CONDITIONS: dict[str, Callable[[Situation], str | None]] = {
    "always": lambda situation: None,
    "panel under 200 A or backup": _load,
    "spacing or energy departs from the default": _departs,
    "an inverter of its own": _inverter,
    "anchors in concrete or masonry": _anchors,
    "fault current is stated": _fault_current,
    "after the work": lambda situation: "written when the work is done and tested",
    "told by the scheme": lambda situation: (
        "a member of a scheme tells it; others ask building control before the work"
    ),
    "asked by the utility": lambda situation: "goes to the utility, not over this counter",
    "asked only in some places": lambda situation: "a local form: ask the authority",
}
