"""The text of a job file → a Survey and its faults."""

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from standfast.faults import Fault
from standfast.reading import Document, engine
from standfast.reading.document import NOT_KNOWN
from standfast.reading.positions import Path
from standfast.survey.cross import crossed
from standfast.survey.model import Job

_STAND_IN: dict[Path, object] = {
    ("schema",): 1, ("job",): {}, ("job", "name"): NOT_KNOWN, ("job", "date"): date.min, ("job", "adoption"): NOT_KNOWN,
}  # fmt: skip
"""Lets the rest of a file with a faulty head be looked at for faults. Never comes out of `read`."""


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


def changed(survey: Survey, changes: Iterable[tuple[Path, object]]) -> Survey | None:
    """A job with words changed, for trying what a change would do; None where it has faults then.

    Args:
        survey: a job without faults.
        changes: path → new value; None takes the word out.
    """
    document = engine.again(survey, changes)
    if document is None:
        return None
    made = Survey(survey.file, document.content, document.index, document.unknown, document.raw)
    return None if any(crossed(made)) else made


def read(text: str, file: str = "job.toml") -> Reading:
    """Read a job file: everything that is wrong, at once."""
    document, faults, headed = engine.read(text, file, Job, _STAND_IN)
    if document is None:
        return Reading(None, faults)
    survey = Survey(file, document.content, document.index, document.unknown, document.raw)
    return Reading(survey if headed else None, engine.in_order([*faults, *crossed(survey)]))
