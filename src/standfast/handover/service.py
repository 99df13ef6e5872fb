"""The service sheet: for every unit and every kind of service that its data sheet allows, what one technician needs.

Which service comes first, with the sheet that holds for it. A sheet tells what is turned and proved dead, the steps
with their boxes, the tests that are due again, and the day of the crew.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.aftercare.service import Service
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.handover.aftercare_day import Worked, day_blocks, off_blocks, step_blocks, test_blocks
from standfast.handover.particulars import NOT_STATED, strip
from standfast.paper.document import (
    Attachment,
    Block,
    Bullets,
    Document,
    Facts,
    Fields,
    Frame,
    Gap,
    Heading,
    Sheet,
    Table,
    Text,
    Words,
    bold,
)
from standfast.paper.sheets import ANSI_A, TitleStrip
from standfast.shelf import Adoption
from standfast.words import ENGLISH


class Serve(NamedTuple):
    """One service and the day of its crew."""

    made: Service
    worked: Worked


class Sheets(NamedTuple):
    """Everything the service sheet is made from.

    Attributes:
        plan: the job.
        job_file: text of the job file, which travels inside the PDF.
        adoption: the codes in force.
        services: every service of every unit.
    """

    plan: Plan
    job_file: bytes
    adoption: Adoption
    services: Sequence[Serve]


def service_document(sheets: Sheets) -> Document:
    """The service sheet of a job, with its job file inside."""
    job, say = sheets.plan.survey.job, sheets.plan.say
    return Document(
        title=f"{say('removal.service_title')}, {job.job.name}, {say('sheet.revision')} {job.job.revision}",
        author=job.contractor.firm or NOT_STATED,
        date=job.job.date.isoformat(),
        size=ANSI_A,
        strip=_strip(sheets),
        sheets=[Sheet("S1", say("removal.service_first"), _first(sheets)), *_each(sheets)],
        attachments=[Attachment("job.toml", sheets.job_file, "application/toml", "source", say("removal.job_file"))],
        language=sheets.plan.language,
    )


def _strip(sheets: Sheets) -> TitleStrip:
    found = strip(sheets.plan.survey.job, sheets.adoption, sheets.plan.say("removal.service_issued"))
    if not found.warning or sheets.plan.language == ENGLISH:
        return found
    return found._replace(warning=sheets.plan.say("order.invented"))


def named(plan: Plan, made: Service) -> str:
    """What is done to which unit, in words."""
    names = ", ".join(each.name for each in made.units)
    return plan.say(f"removal.service_{made.what}", names=names)


def _first(sheets: Sheets) -> list[Block]:
    """Which sheet holds, and what holds on every one."""
    plan, say, job = sheets.plan, sheets.plan.say, sheets.plan.survey.job
    facts: list[tuple[str, Text]] = [
        (say("order.head_job"), job.job.name),
        (say("order.head_address"), job.site.address or say("common.not_known")),
        (say("paper.units"), ", ".join(each.name for each in plan.devices)),
    ]
    rows: list[list[Text]] = [
        [bold(f"S{number}"), bold(named(plan, each.made)), str(len(each.made.steps)),
         ", ".join(test.id for test in each.made.tests)]
        for number, each in enumerate(sheets.services, 2)
    ]  # fmt: skip
    head = [say(f"removal.service_{word}") for word in ("sheet", "what", "steps", "tests")]
    ask = [say(f"removal.ask_{word}") for word in ("seen", "happened", "recall", "unknown")]
    rules = [say(f"order.rule_{word}") for word in ("person", "maker", "stop", "cells")]
    return [
        Facts(facts, 30, 10), Heading(say("removal.service_which")), Table(head, rows, [0, 4, 1, 4]),
        Heading(say("removal.service_not")), Words(say("removal.which_told"), 10), Bullets(list(ask), "box"),
        Frame(say("removal.any_yes"), [Words(say("removal.service_damaged"), 10)], "state"), Gap(2),
        Fields([(say("removal.decided_by"), 2), (say("removal.on"), 1)], 12),
        Frame(say("paper.cautions"), [Bullets(rules)], "caution"),
    ]  # fmt: skip


def _each(sheets: Sheets) -> Iterator[Sheet]:
    plan, say = sheets.plan, sheets.plan.say
    for number, (made, worked) in enumerate(sheets.services, 2):
        blocks: list[Block] = [Words(say("removal.service_rule")), Words(say("hold.rule"))]
        blocks += day_blocks(worked, say("crew.title"))
        if made.off is None:
            blocks.append(Words(say("removal.service_opens_nothing"), 10))
        else:
            house, steps = made.decided.house, [*made.off.steps, *_proofs(made)]
            told = say("removal.service_off")
            blocks += [Heading(say("removal.off")), *off_blocks(plan, house, steps, made.numbers, told)]
        blocks += [Heading(say("removal.steps")), *step_blocks(plan, made.steps, made.decided)]
        blocks += [Heading(say("removal.tests")), *test_blocks(plan, made.tests, worked.order)]
        yield Sheet(f"S{number}", named(plan, made), blocks)


def _proofs(made: Service) -> list[WorkStep]:
    """Proofs of dead that come later, before modules make terminals live again."""
    off = set() if made.off is None else {each.id for each in made.off.steps}
    return [each for each in made.steps if each.proves and each.id not in off]
