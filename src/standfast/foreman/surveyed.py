"""What is still to be found out for a job: facts that checks hang on, and documents that the authority asks."""

from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from standfast.foreman.begin import NotBegun
from standfast.foreman.plan import make_plan, title_of
from standfast.handover.counter import Asked, missing
from standfast.sheet import Check
from standfast.sheet.wanted import Wanted, wanted

WAYS = ("loads.method", "backup.mode")
"""Facts that decide which others are asked: what hangs on them may want more once they are known."""


class Surveyed(NamedTuple):
    """The survey list of a job.

    Attributes:
        title: name and revision of the job.
        adoption: the codes in force, by name.
        rows: what is to be found out, first what most verdicts hang on; what is needed to begin hangs nothing up yet.
        documents: documents that the authority asks and the set has not.
        untold: how many checks cannot be told.
        checks: how many checks there are.
    """

    title: str
    adoption: str
    rows: list[Wanted]
    documents: list[Asked]
    untold: int
    checks: int


def surveyed(path: Path, firm: Path | None = None) -> Surveyed:
    """Work a job out as far as it goes and list what is still to be found out.

    Args:
        path: the folder, or the job file in it.
        firm: folder of the firm; None where there is none.

    Raises:
        FaultsFound: with every fault of the job file and of what it names.
        Refusal: where the job cannot be worked out at all.
    """
    try:
        plan = make_plan(path, firm, runner_up=False)
    except NotBegun as begun:
        job, file = begun.survey.job.job, begun.survey.file
        rows = [
            Wanted(f"{each.word}: {each.what}: {each.why}. {each.todo[:1].upper()}{each.todo[1:]}", "missing", (), (),
                   each.word, file)
            for each in begun.lacks
        ]  # fmt: skip
        return Surveyed(title_of(begun.survey), job.adoption, rows, [], 0, 0)
    from standfast.foreman.pack import papers

    asked = papers(plan).permit.counter
    untold = plan.ledger.summary()["cannot_tell"]
    return Surveyed(
        plan.title, plan.adoption.name, listed(plan.ledger), missing(asked), untold, len(plan.ledger)
    )  # fmt: skip


def listed(checks: Iterable[Check]) -> list[Wanted]:
    """What is to be found out; nothing is said to be settled alone by a fact that decides which others are asked."""
    rows = [row._replace(alone=()) if row.word in WAYS else row for row in wanted(checks)]
    return sorted(rows, key=lambda row: (-len(row.checks), -len(row.alone)))
