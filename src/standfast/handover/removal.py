"""The removal order: ANSI A sheets from which a technician takes the battery away, years after it was put up.

The condition comes first, since it decides everything else. A sheet tells what is turned and proved, one tells the
steps with their boxes, one what the rules of carriage ask of whom.
"""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.aftercare.carriage import CONDITIONS, Condition
from standfast.aftercare.removal import Removal
from standfast.fieldwork.holds import holds
from standfast.fieldwork.plan import Plan
from standfast.handover.particulars import NOT_STATED, strip
from standfast.handover.step_cards import step_card
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
    HoldBar,
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
    """

    plan: Plan
    job_file: bytes
    adoption: Adoption
    removals: dict[Condition, Removal]


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
    """What is turned, in this order, each with a box for open and one for locked; then every place proved dead."""
    say, house, numbers = leave.plan.say, made.decided.house, made.numbers
    rows: list[list[Text]] = []
    for each in made.parted.steps:
        for gate in dict.fromkeys(turn.gate for turn in each.turns):
            lock = any(turn.gate == gate and turn.change == "lock" for turn in each.turns)
            takes: Text = box() if lock else say("removal.no_lock")
            rows.append([bold(str(numbers[each.id])), bold(house.called(gate)), box(), takes, ""])
    head = [say(f"removal.off_{word}") for word in ("step", "switch", "open", "locked", "lock")]
    blocks: list[Block] = [Words(say("removal.off_told"), 10), Table(head, rows, [0, 4, 1, 1.4, 2], tall=9)]
    proofs = [each for each in made.steps if each.proves]
    told: list[list[Text]] = [
        [
            bold(str(numbers[each.id])),
            bold(each.text.partition(":")[0]),
            str(len(each.readings) - 2),
            box(),
            box(),
            box(),
        ]
        for each in proofs
    ]
    words = ("step", "place", "pairs", "before", "dead", "after")
    blocks += [
        Heading(say("removal.dead")), Words(say("removal.dead_told"), 10),
        Table([say(f"removal.dead_{word}") for word in words], told, [0, 4, 1, 1.3, 1.3, 1.3], tall=9),
    ]  # fmt: skip
    return blocks


def _steps(leave: Leave, made: Removal) -> list[Block]:
    say = leave.plan.say
    blocks: list[Block] = [Words(say("removal.rule")), Words(say("hold.rule"))]
    if made.condition == "damaged":
        blocks.append(Frame(say("removal.any_yes"), [Words(say("removal.damaged_told"), 10)], "state"))
    if made.decided.unsafe:
        told = [say("removal.unsafe", what=made.decided.house.called(each.what)) for each in made.decided.unsafe]
        blocks.append(Frame(say("paper.cautions"), [Bullets(list(dict.fromkeys(told)))], "caution"))
    stage, stops = "", holds(leave.plan, made.steps, ())
    for number, each in enumerate(made.steps, 1):
        if each.stage != stage:
            stage = each.stage
            blocks.append(Heading(say(f"removal.stage_{stage.replace(' ', '_')}")))
        for bar in (hold for hold in stops if hold.step == each.id):
            mark = say("hold.bar", number=stops.index(bar) + 1)
            blocks.append(HoldBar(mark, bar.what, bar.who, say("hold.name"), say("hold.time")))
        blocks.append(step_card(leave.plan, number, each))
    return blocks


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
