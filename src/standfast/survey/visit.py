"""The day of the visit: when the crew arrives, by which clock, and how long ahead the utility wants to be asked."""

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Annotated

from pydantic import Field

from standfast.faults import Fault
from standfast.reading import Document
from standfast.reading.quantities import Table, Text

if TYPE_CHECKING:
    from standfast.survey.model import Job

Clock = Annotated[str, Field(pattern=r"^([01][0-9]|2[0-3]):[0-5][0-9]$")]
"""A time of day that a clock on the wall shows: "08:00"."""


class Visit(Table):
    """The day of the visit; without it nothing is put into a calendar."""

    on: date | None = None
    """Day on which the crew comes, without quotes: 2026-05-11."""
    arrive: Clock | None = None
    """Time of day at which it arrives: "08:00"; absent: as the firm file says."""
    time_zone: Text | None = None
    """Zone of the clock at the house, by its name in the time zone database: "Etc/UTC"."""
    utility_notice: Text | None = None
    """How long ahead the utility wants to be asked to disconnect, in its own words: "three working days"."""


def visited(survey: "Document[Job]") -> Iterator[Fault]:
    """A zone that the time zone database does not hold."""
    name = survey.content.visit.time_zone
    if name is None:
        return
    from zoneinfo import ZoneInfo

    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        what, todo = f'there is no time zone "{name}"', 'name one of the database: "Etc/UTC"'
        yield survey.fault(("visit", "time_zone"), what, "", todo)
