"""Where an inverter of its own hangs: it is a thing of a wall that the job puts up."""

from standfast.design.anchorage.task import JobFile, Place
from standfast.sheet import Check, cannot_tell
from standfast.shelf import Adoption
from standfast.survey.joined import INVERTER, has_inverter

NEED = 'walls.obstacles: write an obstacle of kind "inverter" and state "new" on the wall where it hangs'


def inverter_place(job: JobFile) -> Place | None:
    """Wall, left edge and lower edge of the inverter; None where the job does not say where it hangs."""
    for wall in job.content.walls:
        for thing in wall.obstacles:
            if thing.kind == "inverter" and thing.state == "new":
                left, bottom = (
                    job.fact(f"walls.{wall.id}.obstacles.{thing.id}.{word}", f"{axis}_{word}", "mm")
                    for word, axis in (("left", "x"), ("bottom", "y"))
                )
                return Place(wall.id, left, bottom)
    return None


def unhung(job: JobFile, books: Adoption) -> list[Check]:
    """A check that says so where an inverter was chosen and nobody knows where it hangs."""
    if not has_inverter(job.content) or inverter_place(job) is not None:
        return []
    clause = books.book("practice").clause("hanging")
    return [cannot_tell(f"anchorage.place/{INVERTER}", "It is known where the inverter hangs", clause, NEED)]
