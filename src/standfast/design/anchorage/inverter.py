"""Where an inverter of its own hangs: it is a thing of a wall that the job puts up."""

from collections.abc import Iterator

from standfast.design.anchorage.task import JobFile, Place, SheetFile
from standfast.sheet import Check, at_least, cannot_tell
from standfast.shelf import Adoption
from standfast.survey.joined import INVERTER, has_inverter

NEED = 'walls: write an obstacle of kind "inverter" and state "new" on the wall where it hangs'
SIZE = "write its size by the data sheet, and look whether all that stands beside it is still where it can be"


def inverter_place(job: JobFile) -> Place | None:
    """Wall, left edge and lower edge of the inverter; None where the job does not say where it hangs."""
    found = _box(job)
    if found is None:
        return None
    wall, path = found
    left, bottom = (
        job.fact(f"{path}.{word}", f"{axis}_{word}", "mm") for word, axis in (("left", "x"), ("bottom", "y"))
    )
    return Place(wall, left, bottom)


def _box(job: JobFile) -> tuple[str, str] | None:
    """Wall and path of the thing on it that is the chosen inverter."""
    for wall in job.content.walls:
        for thing in wall.obstacles:
            if thing.kind == "inverter" and thing.state == "new":
                return wall.id, f"walls.{wall.id}.obstacles.{thing.id}"
    return None


def boxed(job: JobFile, sheet: SheetFile | None, books: Adoption) -> Iterator[Check]:
    """Is the room that the job keeps for the inverter as large as its data sheet says that it is?

    Everything round it keeps its distance from that room: were it smaller, all of it would be judged too well.
    """
    found = _box(job)
    if sheet is None or found is None:
        return
    clause = books.book("practice").clause("hanging")
    for word in ("width", "height", "depth"):
        title = f"The {word} that the job gives the inverter is not less than that of its data sheet"
        there, due = (
            at.fact(f"{path}.{word}", f"{symbol}_{word}", "mm")
            for at, path, symbol in ((job, found[1], "kept"), (sheet, "body", "body"))
        )
        check = at_least(f"anchorage.inverter-{word}/{INVERTER}", title, clause, there, due)
        yield check._replace(reason=SIZE) if check.verdict == "fail" else check


def unhung(job: JobFile, books: Adoption) -> list[Check]:
    """A check that says so where an inverter was chosen and nobody knows where it hangs."""
    if not has_inverter(job.content) or inverter_place(job) is not None:
        return []
    clause = books.book("practice").clause("hanging")
    return [cannot_tell(f"anchorage.place/{INVERTER}", "It is known where the inverter hangs", clause, NEED)]
