"""The sheets of the van: what is loaded where, how bars are cut, and what is looked at when the equipment arrives.

Rows are high and ticks large: they are made in gloves, with one hand.
"""

from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from standfast.fieldwork.cut_plan import CutPlan, told
from standfast.fieldwork.delivery import Received
from standfast.fieldwork.pick_list import Pick
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.rows import counted, length_of, metres
from standfast.paper.document import Block, Frame, Table, Text, Words, bold, tick
from standfast.paper.schedule import Cell, Schedule, cell

IN_BOXES = "in the boxes"
SEALS = "seals and labels"
_PICKS = ("place", "what", "amount", "goes to", "steps", "what for", "basis", "in the store", "to buy", "cost")
_CUTS = ("ware", "what", "bar", "bar length", "unit", "pieces", "proven")
_DELIVERY = ("device", "kind", "what", "number", "if not", "as read")


class Van(NamedTuple):
    """What the sheets of the van are made from."""

    picks: Sequence[Pick]
    cuts: Sequence[CutPlan]
    received: Sequence[Received]


def van_list(plan: Plan, van: Van) -> list[Block]:
    """The van list by its places, in the order in which the van is loaded; what is in the boxes stands on the delivery
    check."""
    say, blocks = plan.say, list[Block]([Words(plan.say("van.list_intro"), 10)])
    stocked = any(row.have for row in van.picks)
    for place, rows in groupby((row for row in van.picks if row.place != IN_BOXES), key=lambda row: row.place):
        title, found = say(f"van.place_{place.replace(' ', '_').replace('-', '_')}"), list(rows)
        pieces, tools = [row for row in found if row.amount], [row for row in found if not row.amount]
        if pieces:
            blocks.append(_pieces(plan, pieces, title, stocked=stocked))
        if tools:
            head: list[Text] = ["", *(say(f"van.head_{word}") for word in ("what", "why", "steps"))]
            cells: list[list[Text]] = [[tick(), bold(row.what), row.why, row.steps] for row in tools]
            blocks.append(Table(head, cells, [0, 4.4, 4.4, 1.4], "" if pieces else title, size=9.5, tall=9))
    return blocks


def _pieces(plan: Plan, found: list[Pick], title: str, *, stocked: bool) -> Table:
    """What is counted; the last column where a firm file says what lies in the store."""
    words = ("amount", "what", "goes", "steps", *(("buy",) if stocked else ()))
    rows: list[list[Text]] = [
        [tick(), bold(row.amount), bold(row.what), _whereto(row), row.steps, *([_there(plan, row)] if stocked else [])]
        for row in found
    ]
    widths = [0, 1.2, 4.2, 3.6, 1.2, *([1.4] if stocked else [])]
    return Table(["", *(plan.say(f"van.head_{word}") for word in words)], rows, widths, title, size=9.5, tall=9)


def _whereto(row: Pick) -> str:
    """Where a thing goes; of a seal which rooms it parts, and of what goes nowhere what it is for."""
    return row.why if row.place == SEALS or not row.goes else row.goes


def cut_sheet(plan: Plan, van: Van) -> list[Block]:
    """The cut plan, a table a kind of ware, a row a bar."""
    say, saw = plan.say, length_of(plan.practice.number("saw_cut"), plan.language, metric=plan.metric)
    blocks: list[Block] = [Words(say("van.cut_intro", saw=saw), 10)]
    head: list[Text] = ["", say("van.head_what"), say("van.cut_head_bar"), say("van.cut_head_pieces")]
    for ware, plans in groupby(van.cuts, key=lambda found: found.ware):
        rows = [row for found in plans for row in _bars(plan, found)]
        blocks.append(Table(head, rows, [0, 2.8, 1.6, 5], say(f"van.cut_{ware}"), size=9.5, tall=9))
    return blocks


def _bars(plan: Plan, found: CutPlan) -> list[list[Text]]:
    """The bars of one ware: what and how surely few stand with the first."""
    count = counted(found.number, plan.language)
    title = plan.say("van.cut_title", what=found.what, count=count)
    sure = "" if found.number.missing else f" ({_sure(plan, found)})"
    bar = "" if found.number.missing else _bar(plan, found)
    return [
        [tick(), [bold(title), sure] if not number else "", f"{number + 1}: {bar}" if bar else "", line]
        for number, line in enumerate(told(plan, found))
    ]


def delivery_sheet(plan: Plan, van: Van) -> list[Block]:
    """The delivery check: damage first, then contents, then what is written down."""
    say = plan.say
    blocks: list[Block] = [Words(say("van.delivery_before"), 10)]
    damage = [row for row in van.received if row.kind == "damage"]
    rows: list[list[Text]] = [[tick(), tick(), bold(row.what)] for row in damage]
    marks: list[Text] = [say("van.delivery_none"), bold(say("van.delivery_found")), say("van.delivery_what")]
    blocks.append(Table(marks, rows, [0, 0, 9], say("van.delivery_damage"), size=10, tall=9))
    for todo in dict.fromkeys(row.todo for row in damage):
        blocks.append(Frame(say("paper.cautions"), [Words(todo, 10)], "caution"))
    others = [row for row in van.received if row.kind != "damage"]
    for device, found in groupby(others, key=lambda row: row.device):
        mine = list(found)
        boxed: list[list[Text]] = [
            [tick(), bold(row.number), row.what, row.todo] for row in mine if row.kind == "contents"
        ]
        head: list[Text] = ["", say("van.delivery_number"), say("van.head_what"), say("van.delivery_else")]
        blocks.append(Table(head, boxed, [0, 1, 4, 4], f"{device}: {say('van.delivery_count')}", size=9.5, tall=9))
        read: list[list[Text]] = [[tick(), row.what, "", row.todo] for row in mine if row.kind != "contents"]
        head = ["", say("van.head_what"), say("van.delivery_read"), say("van.delivery_else")]
        blocks.append(Table(head, read, [0, 3, 3, 3], f"{device}: {say('van.delivery_write')}", size=9.5, tall=10))
    return blocks


def van_schedules(plan: Plan, van: Van) -> list[Schedule]:
    """Pick list, cut plan and delivery check as rows for spreadsheets."""
    picks = [tuple(row) for row in van.picks]
    received = [(*row, "") for row in van.received]
    return [
        Schedule("pick-list", _PICKS, tuple(picks)),
        Schedule("cut-plan", _CUTS, tuple(row for found in van.cuts for row in _cut_rows(plan, found))),
        Schedule("delivery-check", _DELIVERY, tuple(received)),
    ]


def _cut_rows(plan: Plan, found: CutPlan) -> list[tuple[Cell, ...]]:
    return [
        (found.ware, found.what, cell(found.number) if found.number.missing else float(number), cell(found.bar),
         found.bar.unit, line, "" if found.number.missing else _sure(plan, found))
        for number, line in enumerate(told(plan, found), 1)
    ]  # fmt: skip


def _sure(plan: Plan, found: CutPlan) -> str:
    return plan.say("van.cut_proven") if found.cuts.proven else plan.say("van.cut_bound", bound=found.cuts.bound)


def _bar(plan: Plan, found: CutPlan) -> str:
    return metres(found.bar, plan.language) if found.ware == "cable" else length_of(found.bar, plan.language)


def _there(plan: Plan, row: Pick) -> str:
    if not (row.have or row.buy):
        return ""
    return plan.say("van.there_to_buy", have=row.have or plan.say("van.not_listed"), buy=row.buy)
