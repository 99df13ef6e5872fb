"""The removal order: ANSI A sheets from which a technician takes the battery away, years after it was put up.

The condition comes first, since it decides everything else. A sheet tells what is turned and proved, one tells the
steps with their boxes, one what the rules of carriage ask of whom.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.aftercare.carriage import CONDITIONS, Condition
from standfast.aftercare.removal import Removal
from standfast.aftercare.rules import Rule
from standfast.aftercare.supply import for_owner
from standfast.fieldwork.plan import Plan
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
    box,
)
from standfast.paper.sheets import ANSI_A, TitleStrip
from standfast.shelf import Adoption
from standfast.words import ENGLISH


class Leave(NamedTuple):
    """Everything the removal order is made from.

    Attributes:
        plan: the job.
        job_file: text of the job file, which travels inside the PDF.
        adoption: the codes in force.
        removals: the removal in each condition.
        days: the days of the crew for each.
        rules: that each is held against, with their verdicts.
    """

    plan: Plan
    job_file: bytes
    adoption: Adoption
    removals: dict[Condition, Removal]
    days: Mapping[Condition, Worked]
    rules: Mapping[Condition, Sequence[Rule]]


def removal_document(leave: Leave) -> Document:
    """The removal order of a job, sound first and damaged behind it, with its job file inside."""
    job, say = leave.plan.survey.job, leave.plan.say
    sound, damaged = leave.removals["sound"], leave.removals["damaged"]
    return Document(
        title=f"{say('removal.title')}, {job.job.name}, {say('sheet.revision')} {job.job.revision}",
        author=job.contractor.firm or NOT_STATED,
        date=job.job.date.isoformat(),
        size=ANSI_A,
        strip=_strip(leave),
        sheets=[
            Sheet("R1", say("removal.first"), _first(leave)),
            Sheet("R2", say("removal.off"), _off(leave, sound)),
            Sheet("R3", say("removal.steps_sound"), _steps(leave, sound)),
            Sheet("R4", say("removal.steps_damaged"), _steps(leave, damaged)),
            Sheet("R5", say("removal.carriage"), _carriage(leave)),
            Sheet("R6", say("removal.left"), _left(leave, sound)),
            Sheet("R7", say("removal.tests"), test_blocks(leave.plan, sound.tests, leave.days["sound"].order)),
            Sheet("R8", say("removal.day_sound"), day_blocks(leave.days["sound"], say("crew.title"))),
            Sheet("R9", say("removal.day_damaged"), _damaged_day(leave, damaged)),
        ],
        attachments=[Attachment("job.toml", leave.job_file, "application/toml", "source", say("removal.job_file"))],
        language=leave.plan.language,
    )


def _strip(leave: Leave) -> TitleStrip:
    """The title strip; an invented job says so in the language of the paper."""
    found = strip(leave.plan.survey.job, leave.adoption, leave.plan.say("removal.issued"))
    return found._replace(warning=leave.plan.say("order.invented")) if _translated(leave, found) else found


def _translated(leave: Leave, found: TitleStrip) -> bool:
    return bool(found.warning) and leave.plan.language != ENGLISH


def _first(leave: Leave) -> list[Block]:
    """Which order holds: that is decided before anybody goes near."""
    plan, say, job = leave.plan, leave.plan.say, leave.plan.survey.job
    rows: list[tuple[str, Text]] = [
        (say("order.head_job"), job.job.name),
        (say("order.head_address"), job.site.address or say("common.not_known")),
        (say("paper.units"), ", ".join(each.name for each in plan.devices)),
        (say("removal.gone"), ", ".join(part.name for part in leave.removals["sound"].leaves.parts)),
    ]
    ask = [say(f"removal.ask_{word}") for word in ("seen", "happened", "recall", "unknown")]
    rules = [say(f"order.rule_{word}") for word in ("person", "maker", "stop", "cells")]
    blocks: list[Block] = [
        Facts(rows, 30, 10),
        Heading(say("removal.which")),
        Words(say("removal.which_told"), 11),
        Bullets(list(ask), "box"),
        Frame(say("removal.any_yes"), [Words(say("removal.damaged_told"), 11)], "state"),
        Frame(say("removal.all_no"), [Words(say("removal.sound_told"), 11)]),
        Gap(2),
        Fields([(say("removal.decided_by"), 2), (say("removal.on"), 1)], 12),
        Frame(say("paper.cautions"), [Bullets(rules)], "caution"),
    ]
    return blocks


def _off(leave: Leave, made: Removal) -> list[Block]:
    """What is turned, in this order; every place proved dead; and the rules that this order was held against."""
    plan = leave.plan
    blocks = off_blocks(plan, made.decided.house, made.parted.steps, made.numbers, plan.say("removal.off_told"))
    return [*blocks, *_rules(leave, made)]


def _rules(leave: Leave, made: Removal) -> list[Block]:
    """The rules, each beside the steps that it is about, with what came of it."""
    say, numbers, found = leave.plan.say, made.numbers, leave.rules[made.condition]
    rows: list[list[Text]] = []
    for each in found:
        before, after = (", ".join(str(numbers[id]) for id in ids) or "–" for ids in (each.before, each.after))
        told = say(f"removal.rule_{each.verdict.replace(' ', '_')}")
        key = "rule_order" if each.then else "rule_alone"
        words = {word: leave.plan.foreign(text) for word, text in (("first", each.first), ("then", each.then))}
        rows.append([each.book, say(f"removal.{key}", **words), before, after, bold(told)])
    if not rows:
        return [Heading(say("removal.rules")), Words(say("removal.rules_none"), 10)]
    head = [say(f"removal.rules_{word}") for word in ("book", "what", "first", "then", "verdict")]
    return [Heading(say("removal.rules")), Words(say("removal.rules_told"), 10),
            Table(head, rows, [1.8, 4, 1.2, 1.4, 1.4])]  # fmt: skip


def _steps(leave: Leave, made: Removal) -> list[Block]:
    say = leave.plan.say
    blocks: list[Block] = [Words(say("removal.rule")), Words(say("hold.rule"))]
    if made.condition == "damaged":
        blocks.append(Frame(say("removal.any_yes"), [Words(say("removal.damaged_told"), 10)], "state"))
    return [*blocks, *step_blocks(leave.plan, made.steps, made.decided)]


def _carriage(leave: Leave) -> list[Block]:
    """For each condition which rule asks for what, and who answers it."""
    say = leave.plan.say
    blocks: list[Block] = [Frame(say("paper.cautions"), [Words(say("removal.carriage_told"), 10)], "caution")]
    head = [say(f"removal.carriage_{word}") for word in ("rule", "what", "by", "answer")]
    for condition in CONDITIONS:
        made = leave.removals[condition]
        rows: list[list[Text]] = [[bold(each.rule), each.what, each.by, ""] for each in made.asked]
        title = say(f"removal.if_{condition.replace('-', '_')}")
        blocks.append(Table(head, rows, [1.6, 4, 1.8, 2], title, tall=12))
    return blocks


def _damaged_day(leave: Leave, made: Removal) -> list[Block]:
    """The days of a damaged one, with who has power while it waits."""
    told = [] if made.supply is None else for_owner(leave.plan, made.supply)
    return day_blocks(leave.days["damaged"], leave.plan.say("crew.title"), told)


def _left(leave: Leave, made: Removal) -> list[Block]:
    """The house that stays: what must be true when everybody goes."""
    say = leave.plan.say
    rows: list[list[Text]] = [
        [leave.plan.foreign(row.state), row.part, bold(row.where), box()] for row in made.bonds.rows
    ]
    items: Sequence[Text] = [say(f"removal.left_{word}") for word in ("gone", "fed", "locks", "bond", "labels", "told")]
    head = [say(f"removal.bond_{word}") for word in ("state", "part", "where", "seen")]
    return [
        Bullets(list(items), "box"), Heading(say("removal.bonds")), Table(head, rows, [2, 3, 2, 0.6], tall=9), Gap(4),
        Fields([(say("paper.end_sign"), 1)], 14), Fields([(say("paper.end_owner"), 1)], 14),
    ]  # fmt: skip
