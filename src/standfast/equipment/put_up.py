"""Faults in how a data sheet has its device put up: marked, drilled, fitted from what carries to what is carried."""

from collections.abc import Iterator, Mapping, Sequence

from standfast.equipment.model import Sheet
from standfast.equipment.task import Step
from standfast.faults import Fault
from standfast.reading import Document

Before = Mapping[str, set[str]]


def put_up(sheet: Document[Sheet], before: Before) -> Iterator[Fault]:
    """Faults of what is put up, part by part.

    Args:
        sheet: of a battery unit or inverter, with steps.
        before: of each step the ids of all that are before it.
    """
    content = sheet.content
    parts = {part.id: part for part in content.parts}
    fits = {id: number for number, step in enumerate(content.steps) if _does(step, "fit") for id in step.parts}
    named = {id for step in content.steps if step.does is not None for id in step.parts}
    for number, part in enumerate(content.parts):
        if part.on is not None and part.on not in parts:
            yield sheet.fault(("parts", number, "on"), f'there is no part "{part.on}"', "", "name a part by its id")
        if part.id not in named and part.lifted != "not lifted":
            advice = "add a step that fits it, with the part under parts"
            yield sheet.fault(("parts", number, "id"), f'no step fits the part "{part.id}"', "", advice)
    for id, number in fits.items():
        if id in parts:
            under = parts[id].on
            drilled = [each for each in content.steps if _does(each, "drill")]
            needed = drilled if under is None else _fitting(content, under)
            yield from _due(sheet, number, needed, before, f'"{id}" is fitted')
    for number, step in enumerate(content.steps):
        if drills(step) and not (_does(step, "drill") or _does(step, "fit")):
            advice = 'add does = { change = "drill", to = "holes" }'
            yield sheet.fault(("steps", number), f'step "{step.id}" drills and does not say so', "", advice)
        if _does(step, "drill") and not any(_does(each, "mark") for each in content.steps):
            advice = 'add does = { change = "mark", to = "holes" } to the step that marks them'
            yield sheet.fault(
                ("steps", number, "does"), f'step "{step.id}" drills holes that no step marks', "", advice
            )
        if _does(step, "drill"):
            marks = [each for each in content.steps if _does(each, "mark")]
            yield from _due(sheet, number, marks, before, "holes are drilled")
        joint = next((each for each in content.joints if each.id == step.joint), None)
        for id in () if joint is None else joint.joins:
            needed = [each for each in _fitting(content, id) if each.id != step.id]
            yield from _due(sheet, number, needed, before, f'"{step.joint}" is tightened')


def _due(
    sheet: Document[Sheet], number: int, needed: Sequence[Step], before: Before, what: str
) -> Iterator[Fault]:  # fmt: skip
    step = sheet.content.steps[number]
    for each in needed:
        if each.id not in before[step.id]:
            told = f'in step "{step.id}" {what}, and "{each.id}" need not be done before'
            yield sheet.fault(("steps", number, "after"), told, "", f'add "{each.id}" to after')


def drills(step: Step) -> bool:
    """True where a step names a drill or a bit among its tools."""
    words = {word for tool in step.tools for word in tool.lower().split()}
    return bool(words & {"drill", "bit", "hammer"})


def _fitting(content: Sheet, part: str) -> list[Step]:
    """The steps that fit a part."""
    return [step for step in content.steps if _does(step, "fit") and part in step.parts]


def _does(step: Step, change: str) -> bool:
    return step.does is not None and step.does.change == change
