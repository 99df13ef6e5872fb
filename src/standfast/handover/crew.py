"""The crew's day on paper: a bar chart of steps and people, and the sheet that tells the owner what is off when.

What a bar means is told by its pattern, its row and its letters, never by a colour.
"""

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from standfast.fieldwork.crew.day import DAY_MIN, CrewDay
from standfast.fieldwork.crew.notice import for_crew, for_owner, lasting, moment
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import WorkOrder
from standfast.paper.document import Block, Bullets, Document, Facts, Frame, Picture, Sheet, Table, Text, bold
from standfast.paper.drawing import Drawing
from standfast.paper.hatching import HatchName
from standfast.paper.lettering import LEAST_MM, width_mm
from standfast.paper.sheets import ANSI_A

HIGH_MM = 232.0
"""Height of the tallest chart: what a sheet of the work order holds."""
ROW_MM, LANE_MM = 3.9, 6.0
NUMBER_MM, TEXT_MM, WHO_MM, EDGE_MM = 8.0, 62.0, 12.0, 4.0
FOOT_MM, HEAD_MM, TITLE_MM = 8.5, 8.0, 6.0
WAIT: HatchName = "upright"
OFF: HatchName = "sparse"
PAUSE: HatchName = "cross"
ROUND_MIN = (15, 30, 60, 120, 240)
"""Distances of the marks of the time axis."""


class _Frame(NamedTuple):
    """Where things stand on a chart, mm: left edge and width of the time axis, its first minute and how many there are,
    top of the rows."""

    left: float
    wide: float
    first: int
    minutes: int
    top: float

    def x(self, minute: int) -> float:
        """Place of a minute; of one that is not on the chart the nearer end."""
        within = min(max(minute - self.first, 0), self.minutes)
        return self.left + self.wide * within / self.minutes


def letters(day: CrewDay) -> list[str]:
    """A letter for each person."""
    return [chr(ord("A") + number) for number in range(len(day.hands.names))]


def charts(plan: Plan, order: WorkOrder, day: CrewDay) -> dict[str, Drawing]:
    """The bar charts of a day by name, in the order of the begins of the steps; each has the time axis of its steps.

    No chart shows two days.
    """
    if day.schedule is None:
        return {}
    slots, told = day.schedule.slots, {each.id: each for each in order.steps}  # the day may speak another language
    steps = sorted((told[one.id] for one in day.steps), key=lambda one: (slots[one.id].start, order.numbers[one.id]))
    rows = int((HIGH_MM - FOOT_MM - HEAD_MM - TITLE_MM - 2 - LANE_MM * len(day.hands.names)) // ROW_MM)
    several = len(day.visits) > 1
    pages = list[list[WorkStep]]()
    for _, of_day in groupby(steps, lambda one: slots[one.id].start // DAY_MIN if several else 0):
        here = list(of_day)
        each = -(-len(here) // -(-len(here) // max(1, rows)))
        pages += [here[begin : begin + each] for begin in range(0, len(here), each)]
    return {
        "crew day" if not page else f"crew day, {page + 1}": _chart(plan, order, day, found)
        for page, found in enumerate(pages)
    }


def with_day(
    document: Document, plan: Plan, order: WorkOrder, day: CrewDay, drawn: Mapping[str, Drawing]
) -> Document:  # fmt: skip
    """The work order with the sheets of the day behind its own, `drawn` its charts."""
    names = {f"{name.replace(', ', '-').replace(' ', '-')}.svg": each for name, each in drawn.items()}
    told: list[Block] = [Bullets(for_crew(plan, order, day))]
    people: list[tuple[str, str]] = list(zip(letters(day), day.hands.names, strict=True))
    told += [Facts(people, 8)] if people else []
    title = plan.say("crew.title")
    sheets = [Sheet("D1", title, told)]
    sheets += [
        Sheet(f"D{number}", title, [Picture(name, each.description, each.width)])
        for number, (name, each) in enumerate(names.items(), 2)
    ]
    owner = Frame(plan.say("crew.owner_title"), [Bullets(for_owner(plan, order, day))], "caution")
    sheets.append(Sheet(f"D{len(sheets) + 1}", plan.say("crew.owner_title"), [owner, *off_table(plan, day)]))
    pictures = {**document.pictures, **{name: each.svg() for name, each in names.items()}}
    return document._replace(sheets=[*document.sheets, *sheets], pictures=pictures)


def off_table(plan: Plan, day: CrewDay) -> list[Block]:
    """Every circuit with each time in which it is without power; one that stays on says so."""
    if not day.loads or day.schedule is None:
        return []
    rows = list[list[Text]]()
    for load in day.loads:
        found = [each for each in day.off if each.load == load.id]
        rows += [[load.name, load.panel, "–", "–", plan.say("crew.stays_on")]] if not found else []
        for each in found:
            start, end = moment(plan, day, each.start), moment(plan, day, each.end, end=True)
            long = lasting(plan, day.at(each.end, end=True) - day.at(each.start))
            rows.append([bold(load.name), load.panel, start, end if each.back else "–", long])
    head = [plan.say(f"crew.off_{word}") for word in ("circuit", "panel", "from", "to", "long")]
    return [Table(head, rows, [3, 2, 2, 2, 1.5])]


def _chart(plan: Plan, order: WorkOrder, day: CrewDay, steps: Sequence[WorkStep]) -> Drawing:
    wide = ANSI_A.drawing[0]
    lanes = len(day.hands.names) * LANE_MM
    level = FOOT_MM + len(steps) * ROW_MM + 2 + lanes
    high = level + HEAD_MM + TITLE_MM
    job = plan.survey.job.job.name
    drawing = Drawing(plan.say("crew.title"), plan.say("crew.chart", job=job), wide, high)
    left = NUMBER_MM + TEXT_MM + WHO_MM
    first, last = _minutes(day, steps)
    frame = _Frame(left, wide - left - EDGE_MM, first, max(1, last - first), level - lanes - 2)
    key = "chart_minutes_day" if len(day.visits) > 1 else "chart_minutes"
    told = plan.say(f"crew.{key}", day=first // DAY_MIN + 1)
    drawing.text((0, high - 5), f"{drawing.title}: {told}", 3.5, bold=True)
    _bands(plan, drawing, day, frame, level)
    _axis(plan, drawing, frame, level)
    _lanes(drawing, order, day, frame)
    for row, step in enumerate(steps):
        _row(plan, drawing, order, day, frame, step, frame.top - row * ROW_MM)
    drawing.line((0, FOOT_MM), (wide, FOOT_MM), pen="thin")
    _key(plan, drawing, day)
    return drawing


def _minutes(day: CrewDay, steps: Sequence[WorkStep]) -> tuple[int, int]:
    """First and last minute of some steps, from arrival."""
    slots = {} if day.schedule is None else day.schedule.slots
    begins = [day.at(slots[step.id].start) for step in steps if step.id in slots]
    ends = [day.at(slots[step.id].free, end=True) for step in steps if step.id in slots]
    return min(begins, default=0), max(ends, default=0)


def _bands(plan: Plan, drawing: Drawing, day: CrewDay, frame: _Frame, top: float) -> None:
    """The time in which some circuit is off, and breaks, from the axis to the foot, behind everything."""
    for start, end in off_spans(day):
        _zone(drawing, frame, start, end, (FOOT_MM, top), OFF, plan.say("crew.chart_off"))
    before = frame.first // DAY_MIN * DAY_MIN if len(day.visits) > 1 else 0
    for pause in day.pauses:
        span = (before + pause.start, before + pause.end)
        _zone(drawing, frame, *span, (FOOT_MM, top), PAUSE, plan.say("crew.chart_pause"))


def off_spans(day: CrewDay) -> list[tuple[int, int]]:
    """Minutes from arrival between which some circuit is without power, those that touch as one."""
    found = list[tuple[int, int]]()
    for start, end in sorted({(day.at(each.start), day.at(each.end, end=True)) for each in day.off}):
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        else:
            found.append((start, end))
    return found


def _zone(
    drawing: Drawing, frame: _Frame, start: int, end: int, levels: tuple[float, float], name: HatchName, meaning: str
) -> None:
    left, right, (low, high) = frame.x(start), frame.x(end), levels
    if right <= left:
        return
    drawing.zone([[(left, low), (right, low), (right, high), (left, high)]], name, meaning, "medium")


def _axis(plan: Plan, drawing: Drawing, frame: _Frame, level: float) -> None:
    """Marks of the time axis, as far apart as their numbers need, and lines down from them."""
    apart = next((each for each in ROUND_MIN if frame.wide * each / frame.minutes >= 11), ROUND_MIN[-1])
    drawing.line((frame.left, level), (frame.left + frame.wide, level), pen="medium")
    for minute in range(-(-frame.first // apart) * apart, frame.first + frame.minutes + 1, apart):
        x = frame.x(minute)
        drawing.line((x, FOOT_MM), (x, level + 1), pen="fine")
        drawing.text((x, level + 2), str(minute % DAY_MIN), anchor="middle")
    drawing.text((0, level + 2), plan.say("crew.chart_step"), bold=True)
    drawing.text((NUMBER_MM + TEXT_MM, level + 2), plan.say("crew.chart_who"), bold=True)


def _lanes(drawing: Drawing, order: WorkOrder, day: CrewDay, frame: _Frame) -> None:
    """One lane a person with their steps: the number of each where its bar is wide enough."""
    if day.schedule is None:
        return
    for who, (letter, name) in enumerate(zip(letters(day), day.hands.names, strict=True)):
        low = frame.top + 2 + (len(day.hands.names) - 1 - who) * LANE_MM
        drawing.text((0, low + 1.4), letter, bold=True)
        drawing.text((NUMBER_MM, low + 1.4), clipped(name, TEXT_MM + WHO_MM - 3))
        for id, slot in day.schedule.slots.items():
            left, right = frame.x(day.at(slot.start)), frame.x(day.at(slot.end, end=True))
            if who in slot.people and right > left:
                drawing.rect(left, low + 0.4, right - left, LANE_MM - 0.8, "thin", "white")
                number = str(order.numbers[id])
                if width_mm(number, LEAST_MM) + 2 < right - left:
                    drawing.text(((left + right) / 2, low + 1.6), number, anchor="middle")


def _row(
    plan: Plan, drawing: Drawing, order: WorkOrder, day: CrewDay, frame: _Frame, step: WorkStep, level: float
) -> None:
    """One step: number, what, who, its bar and its wait."""
    if day.schedule is None:
        return
    slot, low = day.schedule.slots[step.id], level - ROW_MM
    drawing.text((0, low + 0.9), str(order.numbers[step.id]), bold=True)
    drawing.text((NUMBER_MM, low + 0.9), clipped(step.text, TEXT_MM - 2))
    drawing.text((NUMBER_MM + TEXT_MM, low + 0.9), "".join(letters(day)[who] for who in slot.people))
    start, end, free = day.at(slot.start), day.at(slot.end, end=True), day.at(slot.free, end=True)
    if free > end:
        _zone(drawing, frame, end, free, (low + 0.5, level - 0.5), WAIT, plan.say("crew.chart_wait"))
    if end > start:
        left, right = frame.x(start), frame.x(end)
        drawing.rect(left, low + 0.7, max(0.4, right - left), ROW_MM - 1.4, "thin", "black")


def _key(plan: Plan, drawing: Drawing, day: CrewDay) -> None:
    """What bars and hatches mean, and what the axis counts."""
    drawing.rect(0, 2.2, 7, 2, "thin", "black")
    x = 9.0
    x = drawing.text((x, 2), plan.say("crew.chart_work")).right + 6
    for meaning, name in drawing.keys.items():
        drawing.zone([[(x, 1.4), (x + 8, 1.4), (x + 8, 5.4), (x, 5.4)]], name, meaning)
        x = drawing.text((x + 10, 2), meaning).right + 6


def clipped(text: str, wide: float) -> str:
    """A text that is cut, with a sign that it was, where it is wider than there is room."""
    if width_mm(text, LEAST_MM) <= wide:
        return text
    fits = bisect_right(range(len(text)), wide, key=lambda end: width_mm(f"{text[:end]}…", LEAST_MM))
    return f"{text[: max(0, fits - 1)].rstrip()}…"
