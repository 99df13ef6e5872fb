"""The work order: ANSI A sheets that a crew works from and writes on.

Everything in it was derived by the room of the work on site; here it is laid out, cautions before what they belong to.
"""

from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from standfast.fieldwork.joints import Joint
from standfast.fieldwork.live_sides import told_live
from standfast.fieldwork.making_dead import placed
from standfast.fieldwork.materials import Materials
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.rows import counted, length_of, mass_both
from standfast.fieldwork.tools import Tools
from standfast.fieldwork.work_order import WorkOrder
from standfast.handover.calculations import compared
from standfast.handover.drawings.face import listed
from standfast.handover.particulars import NOT_STATED, strip
from standfast.handover.step_cards import step_blocks
from standfast.handover.step_pictures import step_pictures
from standfast.handover.van_sheets import Van, cut_sheet, delivery_sheet, van_list
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
    verdict,
)
from standfast.paper.sheets import ANSI_A
from standfast.sheet import Check
from standfast.shelf import Adoption
from standfast.terms import Verdict
from standfast.words import ENGLISH, has, say

WAIT = say("paper.state_wait")
ISSUED = say("paper.state_issued")


class Work(NamedTuple):
    """Everything the work order is made from.

    Attributes:
        plan: what the work was derived from.
        job_file: text of the job file, which travels inside the PDF.
        adoption: the codes in force.
        materials: what is not in the box.
        tools: what is on the van.
        lifting: checks of the lift: the way that passes, and the lone lift as the reason for the aid.
        order: steps in their order, holes, isolation, joints and tests.
        van: the van list, the cut plan and the delivery check.
        against: why the permit set is not ready; empty where it is.
    """

    plan: Plan
    job_file: bytes
    adoption: Adoption
    materials: Materials
    tools: Tools
    lifting: Sequence[Check]
    order: WorkOrder
    van: Van
    against: Sequence[str] = ()


def work_order_document(work: Work) -> Document:
    """The work order of a job, with its job file inside."""
    job = work.plan.survey.job
    say = work.plan.say
    pictured = step_pictures(work.plan, work.order)
    stripped = strip(job, work.adoption, say("paper.state_wait") if work.against else say("paper.state_issued"))
    return Document(
        title=f"{say('paper.title')}, {job.job.name}, {say('sheet.revision')} {job.job.revision}",
        author=job.contractor.firm or NOT_STATED,
        date=job.job.date.isoformat(),
        size=ANSI_A,
        strip=stripped._replace(warning=say("order.invented"))
        if stripped.warning and work.plan.language != ENGLISH
        else stripped,
        sheets=[
            Sheet("W1", say("paper.brief"), _brief(work)),
            Sheet("V1", say("van.list"), van_list(work.plan, work.van)),
            Sheet("V2", say("van.cuts"), cut_sheet(work.plan, work.van)),
            Sheet("V3", say("van.delivery"), delivery_sheet(work.plan, work.van)),
            Sheet("W2", say("paper.materials"), _materials(work)),
            Sheet("W3", say("paper.tools"), _tools(work)),
            Sheet("W4", say("paper.lifting"), _lifting(work)),
            Sheet("W5", say("paper.holes"), _holes(work)),
            Sheet("W6", say("paper.dead"), _dead(work)),
            Sheet("W7", say("paper.joints"), _joints(work)),
            Sheet("W8", say("paper.steps"), step_blocks(work.plan, work.order, pictured.beside)),
            Sheet("W9", say("paper.tests"), _tests(work)),
            Sheet("W10", say("paper.end"), _end(work)),
        ],
        attachments=[Attachment("job.toml", work.job_file, "application/toml", "source", say("paper.job_file"))],
        pictures=pictured.svg,
        language=work.plan.language,
    )


def _brief(work: Work) -> list[Block]:
    say = work.plan.say
    rows: list[tuple[str, Text]] = [(name, text) for name, text in work.order.head]
    owner = work.plan.survey.job.owner
    rows.append((say("paper.owner"), f"{owner.name or NOT_STATED}, {owner.phone or NOT_STATED}"))
    rows.append((say("paper.units"), ", ".join(each.name for each in work.plan.devices)))
    rows.append((say("paper.drawings"), say("paper.drawings_in_set")))
    blocks: list[Block] = [Facts(rows, 30, 10), Words(say("paper.names_as_written"))]
    if work.against:
        why = say("paper.wait_why", why="; ".join(work.plan.foreign(each) for each in work.against))
        blocks.append(Frame(say("paper.wait"), [Words(why, 10)], "state"))
    blocks.append(Fields([(say("paper.wait_permit"), 1)]))
    blocks.append(Frame(say("paper.cautions"), [Bullets(list(work.order.rules))], "caution"))
    blocks.append(Heading(say("paper.crew")))
    head = say("paper.crew_head").split("; ")
    blocks.append(Table(head, [[""] * len(head)] * 4, [3, 3, 3, 1, 1], tall=9))
    return blocks


def _materials(work: Work) -> list[Block]:
    say = work.plan.say
    blocks: list[Block] = []
    if work.materials.needs:
        blocks.append(Frame(say("paper.find_out"), [Bullets(list(work.materials.needs))], "caution"))
    head = ["", say("paper.amount"), say("paper.what"), say("paper.use"), say("paper.ground")]
    for group, found in groupby(work.materials.rows, key=lambda row: row.group):
        rows: list[list[Text]] = [
            [box(), bold(row.amount), row.what, row.use, _ground(work.plan, row.ground) or say("paper.no_ground")]
            for row in found
        ]
        title = say(f"paper.group_{group.replace(' ', '_')}")
        blocks.append(Table(head, rows, [0, 1.3, 4, 4, 1.8], title, size=8.5))
    return blocks


def _ground(plan: Plan, ground: str) -> str:
    """On what ground something is asked: the words of the trade in the language of the job, clauses as they are."""
    words = (each for each in ground.split(", ") if each)
    keys = ((each, f"paper.ground_{each.replace(' ', '_')}") for each in words)
    return ", ".join(plan.say(key) if has(key) else each for each, key in keys)


def _tools(work: Work) -> list[Block]:
    say = work.plan.say
    blocks: list[Block] = []
    if work.tools.uncovered:
        blocks.append(Frame(say("paper.uncovered"), [Bullets(list(work.tools.uncovered))], "caution"))
    for shelf, found in groupby(work.tools.rows, key=lambda row: row.shelf):
        rows: list[list[Text]] = [[box(), bold(row.what), row.use, _ground(work.plan, row.ground)] for row in found]
        title = say(f"paper.shelf_{shelf.replace(' ', '_')}")
        head = ["", say("paper.what"), say("paper.use"), say("paper.ground")]
        blocks.append(Table(head, rows, [0, 3.4, 5, 1.7], title, size=8.5))
    blocks.append(Heading(say("paper.tool_number")))
    blocks += [Fields([("", 1), ("", 1)])] * 3
    return blocks


def _lifting(work: Work) -> list[Block]:
    plan, say = work.plan, work.plan.say
    blocks: list[Block] = []
    if plan.lift is None:
        blocks.append(Frame(say("paper.cautions"), [Words(say("paper.lift_none"), 10)], "caution"))
    else:
        facts: list[tuple[str, Text]] = [
            (say("paper.lift_people"), bold(str(plan.lift.people))),
            (say("paper.lift_aid"), bold(plan.lift.aid or say("paper.lift_by_hand"))),
            (say("paper.lift_reason"), plan.lift.reason),
        ]
        blocks.append(Facts(facts, 26, 11))
    blocks += [Heading(say("paper.lift_parts")), _parts(work)]
    blocks += [Gap(2), Fields([(say("paper.lift_card"), 1)]), Fields([(say("paper.lift_path"), 1)])]
    if work.lifting:
        blocks += [Heading(say("paper.lift_checks")), _lift_checks(work)]
        blocks.append(Words(say("paper.lift_working")))
    return blocks


def _lift_checks(work: Work) -> Table:
    """The checks of the lift; what is the same for several units stands once."""
    plan, say = work.plan, work.plan.say
    names = {each.id: each.name for each in plan.devices}
    alike: dict[tuple[Verdict, str, str, str], list[str]] = {}
    for check in work.lifting:
        unit = check.id.split("/")[1]
        why = plan.foreign(check.condition or check.reason)
        told = (check.verdict, plan.foreign(check.title), _measured(plan, check), why)
        alike.setdefault(told, []).append(names.get(unit, unit))
    rows: list[list[Text]] = [
        [verdict(found), title, listed(list(dict.fromkeys(of))), measured, why]
        for (found, title, measured, why), of in alike.items()
    ]
    head = ["", *(say(f"paper.lift_{word}") for word in ("check", "of", "compared", "condition"))]
    return Table(head, rows, [0, 3, 1.6, 3, 4], size=8.5)


def _measured(plan: Plan, check: Check) -> str:
    """Demand and limit as a crew reads them: lengths and masses in both units, an index to two digits."""
    sides = [value for value in (check.demand, check.limit) if value is not None]
    if len(sides) < 2 or any(value.missing or not isinstance(value.number, float) for value in sides):
        return plan.foreign(compared(check))
    ways = {
        "mm": lambda value: length_of(value, plan.language, metric=plan.metric),
        "kg": lambda value: mass_both(value, plan.language, metric=plan.metric),
    }
    shown = [ways.get(value.unit, lambda each: f"{each.quantity:.3g}")(value) for value in sides]
    sign = "=" if check.relation == "exactly" else check.relation
    return f" {sign} ".join(shown)


def _parts(work: Work) -> Table:
    """The parts of units and inverter: how many in all, the mass of one, and where each piece of a stack goes."""
    say, plan = work.plan.say, work.plan
    unknown = say("common.not_known")
    rows: list[list[Text]] = []
    for role in dict.fromkeys(each.role for each in plan.devices):
        devices, data = plan.of_role(role), plan.sheets[role]
        of = listed([each.name for each in devices])
        for part in data.sheet.parts:
            size = " × ".join(unknown if each is None else each.text for each in (part.width, part.height, part.depth))
            mass = mass_both(data.fact(f"parts.{part.id}.mass", "m", "kg"), plan.language, metric=plan.metric)
            pieces = str((part.count or 1) * len(devices))
            at = (
                ""
                if part.at is None
                else say(f"paper.lift_{'stand' if (part.count or 1) > 1 else 'stands'}", height=part.at.text)
            )
            way = unknown if part.lifted is None else say(f"paper.lifted_{part.lifted.replace(' ', '_')}")
            rows.append([bold(plan.told(data.sheet, part.name)), of, pieces, mass, size, way, at])
    words = ("part", "of", "pieces", "mass", "size", "way", "at")
    return Table([say(f"paper.lift_{word}") for word in words], rows, [3, 2, 0, 1.4, 3, 1.6, 2])


def _holes(work: Work) -> list[Block]:
    say, holes = work.plan.say, work.order.holes
    if not holes.holes:
        return [Words(say("paper.holes_none"))]
    blocks: list[Block] = []
    if holes.stop:
        blocks.append(Frame(say("paper.holes_stop"), [Bullets(list(holes.stop))], "caution"))
    blocks.append(Frame(say("paper.holes_first"), [Bullets(list(holes.first), "number")]))
    blocks += [Words(each) for each in holes.datums]
    rows: list[list[Text]] = []
    for hole in holes.holes:
        drill = [say("paper.holes_deep", bit=bit, depth=depth) for bit, depth in zip(hole.bit, hole.depth, strict=True)]
        rows.append([bold(hole.id), hole.name, hole.across, hole.up, "; ".join(drill), hole.into, box(), box()])
    words = ("hole", "for", "across", "up", "drill", "into", "scanned", "drilled")
    head = [say(f"paper.holes_{word}") for word in words]
    blocks.append(Table(head, rows, [0, 1.8, 2.2, 2.2, 4, 2, 1.1, 1.2], size=8.5))
    blocks.append(Words(holes.tolerance))
    return blocks


def _dead(work: Work) -> list[Block]:
    say = work.plan.say
    if not work.order.isolations:
        return [Words(say("paper.dead_none"))]
    blocks: list[Block] = [Words(say("paper.dead_intro"), 10)]
    for each in work.order.isolations:
        blocks.append(Heading(each.panel))
        blocks += [Words(told) for told in each.told]
        if each.live:
            told = say("paper.dead_live", sources=", ".join(each.live))
            blocks.append(Frame(say("paper.cautions"), [Words(told, 10)], "caution"))
        head = [say(f"paper.dead_{word}") for word in ("switch", "holds", "state", "lock")]
        rows: list[list[Text]] = [
            [bold(placed(work.plan, opening)), ", ".join(opening.sources), say(f"paper.dead_{state}"), ""]
            for state, openings in (("opened", each.openings), ("kept", each.kept_open))
            for opening in openings
        ]
        blocks.append(Table(head, rows, [4, 4, 3, 4], tall=9))
        blocks.append(Words(say("paper.dead_pairs", pairs=", ".join(each.pairs))))
        blocks += [Words(say("order.dead_before", switch=switch)) for switch in each.lugs]
        blocks += [Words(told) for told in told_live(work.plan, each)]
    return blocks


def _joints(work: Work) -> list[Block]:
    say = work.plan.say
    head = [say(f"paper.joints_{word}") for word in ("name", "number", "torque", "tool", "done")]
    rows: list[list[Text]] = [
        [bold(each.name), counted(each.number, work.plan.language), bold(each.shown), _tool(work, each), ""]
        for each in work.order.joints
    ]
    return [Words(say("paper.joints_intro")), Table(head, rows, [4, 1.2, 2.6, 2.6, 2.6], tall=8)]


def _tool(work: Work, joint: Joint) -> str:
    """What the data sheet says that fits, else the torque tool that covers it."""
    return joint.tool or work.tools.by_joint.get(joint.id, "")


def _tests(work: Work) -> list[Block]:
    """What is tested at which step, and against what; the spaces stand at the steps."""
    order, say = work.order, work.plan.say
    rows: list[list[Text]] = [
        [
            bold(each.id), each.what, str(order.numbers.get(order.done_at[each.id], "")),
            f"{each.limit} ({each.ground})" if each.limit else say("paper.tests_judged"),
        ]
        for each in order.tests
    ]  # fmt: skip
    head = [say(f"paper.tests_{word}") for word in ("test", "what", "step", "limit")]
    return [Words(say("paper.tests_intro")), Table(head, rows, [0, 3, 0, 4])]


def _again(work: Work) -> list[Block]:
    """Which steps are done again where one is done once more; steps with the same answer share a row."""
    say, order, alike = work.plan.say, work.order, dict[tuple[str, ...], list[str]]()
    for step in order.steps:
        if step.id in order.redo:
            alike.setdefault(order.redo[step.id], []).append(str(order.numbers[step.id]))
    rows: list[list[Text]] = [
        [bold(", ".join(steps)), ", ".join(str(order.numbers[id]) for id in again)] for again, steps in alike.items()
    ]
    if not rows:
        return []
    head = [say("paper.again_step"), say("paper.again_steps")]
    return [Table(head, rows, [2, 4], say("paper.again"), size=8.5), Words(say("paper.again_ground"))]


def _end(work: Work) -> list[Block]:
    say = work.plan.say
    blocks: list[Block] = [*_again(work), Heading(say("paper.end_changes"))]
    blocks += [Fields([("", 1)])] * 8
    blocks += [Gap(4), Bullets([say("paper.end_assumed"), say("paper.end_left")], "box"), Gap(4)]
    blocks += [Fields([(say("paper.end_sign"), 1)], 14), Fields([(say("paper.end_owner"), 1)], 14)]
    return blocks
