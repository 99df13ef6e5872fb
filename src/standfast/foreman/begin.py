"""What a job must hold before anything of it can be worked out: a battery, a wall, and the room of that wall."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from standfast.equipment.read import DataSheet
from standfast.faults import Fault, FaultsFound
from standfast.survey.read import Survey


class Lack(NamedTuple):
    """One thing that a job cannot begin without.

    Attributes:
        word: where it is written, dotted.
        what: what is not there.
        why: why nothing can be worked out without it.
        todo: what to write.
    """

    word: str
    what: str
    why: str
    todo: str


class NotBegun(FaultsFound):
    """A job file without a fault, in which what is needed to begin is not there yet."""

    def __init__(self, survey: Survey, lacks: list[Lack], faults: list[Fault]) -> None:
        self.survey, self.lacks = survey, lacks
        super().__init__(faults)


def lacks(survey: Survey, sheets: Mapping[str, DataSheet]) -> Iterator[Lack]:
    """Everything that a job lacks to begin, at once.

    Args:
        survey: the job file.
        sheets: data sheets by role.
    """
    job = survey.job
    if "battery" not in sheets:
        todo = 'write battery = "…" with the id of its data sheet under [equipment]'
        yield Lack("equipment.battery", "no battery is chosen", "there is nothing to design", todo)
    else:
        body = sheets["battery"].sheet.body
        lacking = [word for word in ("width", "height", "depth") if getattr(body, word) is None]
        if lacking:
            what = f"{sheets['battery'].file} does not state the {', '.join(lacking)} of the battery"
            yield Lack("equipment.battery", what, "nobody can say where it fits", "write it under [body] there")
    if not job.walls:
        todo = "write [[walls]] with id, room and length, and what is on the wall"
        yield Lack("walls", "the job has no wall for the battery", "there is nowhere to put it", todo)
    if not job.walls and not job.rooms:
        todo = 'write [[rooms]] with id and kind; kind = "outside" for a place outdoors'
        yield Lack("rooms", "the job has no room", "what is asked of a place hangs on its kind", todo)


def faults(survey: Survey, found: list[Lack]) -> list[Fault]:
    """What a job lacks to begin, as faults of its file."""
    return [_fault(survey, each) for each in found]


def _fault(survey: Survey, each: Lack) -> Fault:
    line, column = survey.index.word((each.word.partition(".")[0],))
    return Fault(survey.file, line, column, each.what, each.why, each.todo)
