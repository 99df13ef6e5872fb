"""The text of a job file → a Survey and its faults."""

from typing import NamedTuple

from standfast.faults import Fault
from standfast.reading import Document, engine
from standfast.survey.cross import crossed
from standfast.survey.model import Job


class Survey(Document[Job]):
    """A job file as read; `fact` gives its numbers to the calculation sheet."""

    __slots__ = ()

    @property
    def job(self) -> Job:
        """The model of the whole file."""
        return self.content


class Reading(NamedTuple):
    """What came out of a job file; `survey` is None where not even its head could be understood."""

    survey: Survey | None
    faults: list[Fault]


def read(text: str, file: str = "job.toml") -> Reading:
    """Read a job file: everything that is wrong, at once."""
    document, faults = engine.read(text, file, Job)
    if document is None:
        return Reading(None, faults)
    survey = Survey(file, document.content, document.index, document.unknown, document.raw)
    return Reading(survey, engine.in_order([*faults, *crossed(survey)]))
