"""What siting reads from lists of the job: a list that nobody wrote says nothing, and never *there is none*."""

from collections.abc import Iterator, Mapping

from standfast.design.installation.build import JobFile
from standfast.design.siting.ground import Ground
from standfast.design.siting.things import same_room
from standfast.sheet import Check, Clause, Value, at_least, chosen, given, is_, missing
from standfast.shelf import Adoption
from standfast.survey.power import Panel

_LISTS = {
    "openings": "Were the doors, windows and other openings of {} surveyed?",
    "obstacles": "Was what hangs on {} or stands before it surveyed?",
}


def checks(adoption: Adoption, grounds: Mapping[str, Ground], used: set[str]) -> Iterator[Check]:
    """Whether each list that siting goes by was written.

    Args:
        adoption: the books in force.
        grounds: every wall of the job.
        used: ids of the walls that hold a unit; those with new equipment are looked at too, and for each of them the
            other walls of its room.
    """
    clause = adoption.book("practice").clause("surveyed")
    looked = [at for wall, at in grounds.items() if wall in used or any(o.state == "new" for o in at.wall.obstacles)]
    read = [wall for wall, at in grounds.items() if any(each is at or same_room(each.seen, at.wall) for each in looked)]
    job = next(iter(grounds.values())).seen.job
    for wall in read:
        for word, title in _LISTS.items():
            id = f"siting.surveyed-{word}/{wall}"
            yield _written(id, title.format(wall), clause, job.count(f"walls.{wall}.{word}", f"n_{word}"))
    if any(each.seen.outdoors for each in looked):
        title = "Were the meters and gas vents of the plot surveyed?"
        yield _written("siting.surveyed-marks", title, clause, job.count("land.marks", "n_marks"))
    for panel in job.content.panels:
        if _worked_on(job, panel):
            yield _placed(job, panel, clause)


def holds_work(at: Ground) -> bool:
    """True where a panel of this wall is worked on."""
    job = at.seen.job
    worked = {panel.id for panel in job.content.panels if _worked_on(job, panel)}
    return any(thing.panel in worked for thing in at.wall.obstacles if thing.panel is not None)


def _written(id: str, title: str, clause: Clause, count: Value) -> Check:
    return at_least(id, title, clause, count, chosen("n_least", 0.0, "1", "none is an answer too", clause))


def _worked_on(job: JobFile, panel: Panel) -> bool:
    """True unless the job says that the panel stays as it is: nothing is put in, moved out, or joined to it."""
    inside = any(each.state != "existing" or each.moved_from is not None for each in panel.circuits)
    moved = any(each.moved_from == panel.id for other in job.content.panels for each in other.circuits)
    joined = any(panel.id in (route.from_, route.to) and route.state != "existing" for route in job.content.routes)
    return panel.state != "existing" or inside or moved or joined or not job.stated(f"panels.{panel.id}.circuits")


def _placed(job: JobFile, panel: Panel, clause: Clause) -> Check:
    """Whether a panel that is worked on stands on a wall of the job, so that its working space can be judged."""
    yes = chosen("needed", True, "", "work is done at it, and needs room", clause)
    title = f"Is it known where the {panel.name or panel.id} stands?"
    return is_(f"siting.panel-place/{panel.id}", title, clause, _drawn(job, panel), yes)


def _drawn(job: JobFile, panel: Panel) -> Value:
    for wall in job.content.walls:
        for thing in wall.obstacles:
            if thing.panel == panel.id:
                return given("drawn", True, "", job.place(f"walls.{wall.id}.obstacles.{thing.id}.panel"))
    if panel.wall is None or panel.wall not in job.ids("walls"):
        at = job.fact(f"panels.{panel.id}.wall", "wall")
        return missing("drawn", "", at.how if at.missing else f"panels.{panel.id}.wall: the job has no such wall")
    need = f'walls.{panel.wall}.obstacles: none of them says panel = "{panel.id}": measure the panel on its wall'
    return missing("drawn", "", f"{need}, so that its working space can be judged")
