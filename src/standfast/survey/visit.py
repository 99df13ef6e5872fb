"""The day of the visit: when the crew arrives, by which clock, and how long ahead the utility wants to be asked."""

from datetime import date
from typing import Annotated

from pydantic import Field

from standfast.reading.quantities import Table, Text

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
