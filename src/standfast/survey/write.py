"""Writes a job file: whole from a Survey, one word of a text, or a new one with every word explained."""

from datetime import date
from json import dumps

from standfast.reading.positions import Path
from standfast.reading.template import template
from standfast.reading.write import put as _put
from standfast.reading.write import write as _write
from standfast.survey.model import Job
from standfast.survey.read import Survey

_INTRO = """A job of standfast. Take the # away before a word when its fact is known, and write the fact.
Leave a word out, or write "not known", where the fact is not known: nothing is ever filled in for you.
Quantities stand in quotes with their unit: "3 ft 6 in", "914 mm", "104 °F", "30 A".
An item of a list, such as [[walls]], is copied as often as there are items.
"standfast check" says what is wrong, what is missing and what the rules say."""


def write(survey: Survey) -> str:
    """The whole job as TOML: reading it again gives the same job."""
    return _write(survey)


def put(text: str, path: Path, value: str | bool | int | float | list[int] | dict[str, object] | None) -> str:
    """A job text with one word changed, or taken out where the value is None; all else stays as it was written."""
    return _put(text, path, value)


def new(name: str, day: date, adoption: str) -> str:
    """The text of a new job.

    Args:
        name: name of the job.
        day: date of its first revision.
        adoption: the codes in force, for instance "us-2021".
    """
    filled = {
        "schema": "1",
        "job.name": dumps(name, ensure_ascii=False),
        "job.date": day.isoformat(),
        "job.adoption": dumps(adoption),
    }
    return "#:schema ./job.schema.json\n" + template(Job, _INTRO, filled)
