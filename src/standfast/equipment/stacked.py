"""Faults in the order of a stack: a brace is bolted to a piece of it that is there already."""

from collections.abc import Iterator

from standfast.equipment.model import Part, Sheet
from standfast.faults import Fault
from standfast.reading import Document
from standfast.reading.quantities import amount

BRACE = "brace"
"""Id of the part that holds a standing unit to its wall."""


def braced(sheet: Document[Sheet]) -> Iterator[Fault]:
    """A brace that is fitted before the piece of the stack at whose height its holes are.

    Asked of a unit that stands and whose sheet says where its pieces stand and which step fits the brace.
    """
    content = sheet.content
    number = next((n for n, step in enumerate(content.steps) if BRACE in step.parts), None)
    if content.body.hung is not False or content.fixing is None or number is None:
        return
    before = _before(content, content.steps[number].id)
    fitted = {part for step in content.steps if step.id in before for part in step.parts}
    holes = [amount(y, "mm") for _, y in content.fixing.holes]
    behind = [part.id for part in content.parts if part.id != BRACE and _holds(part, holes)]
    if behind and fitted.isdisjoint(behind):
        what = f'step "{content.steps[number].id}" bolts the brace to the part "{behind[0]}", which is not there yet'
        todo = "fit that part in a step before, or correct its height or that of the holes of the brace"
        yield sheet.fault(("steps", number, "after"), what, "the holes of the brace are at its height", todo)


def _before(sheet: Sheet, id: str) -> set[str]:
    """The steps that are done before one."""
    waits = {step.id: set(step.after) for step in sheet.steps}
    found, todo = set[str](), [id]
    while todo:
        new = waits.get(todo.pop(), set()) - found
        found |= new
        todo += new
    return found


def _holds(part: Part, holes: list[float]) -> bool:
    """Whether a hole is at the height of a part, or of its pieces where they stand on one another."""
    if part.at is None or part.height is None:
        return False
    low = amount(part.at, "mm")
    return any(low < hole < low + (part.count or 1) * amount(part.height, "mm") for hole in holes)
