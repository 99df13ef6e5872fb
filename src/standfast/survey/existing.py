"""What the job file says of the house as it stands: work that is done with the job on the side, and known defects."""

from datetime import date
from typing import Literal

from standfast.reading.quantities import Id, Table, Text
from standfast.terms import ExistingPart


class Adder(Table):
    """Work on the existing house that is offered with the job, because a code asks it of the chosen work."""

    id: Id
    """Name by which the job refers to it."""
    what: ExistingPart
    """Which part is put in order."""
    at: Id | None = None
    """Panel or circuit where it is done, by its id; absent where it is done everywhere it is asked."""
    accepted: bool | None = None
    """true where the owner agreed, and it is done with this job; false where the owner declined."""


class Defect(Table):
    """Something wrong with the house as it stands, found at the survey, whether or not the job touches it."""

    id: Id
    """Name by which the papers refer to it."""
    where: Text
    """Where it was found: "main panel, left side"."""
    what: Text
    """What was found, in a sentence that the owner understands."""
    found_on: date | None = None
    """Day of the survey, without quotes: 2026-05-04."""
    clause: Text | None = None
    """Clause that it is against, where one was named by whoever found it."""
    photo: Text | None = None
    """File in the folder documents/ that shows it."""
    danger: Literal["immediate", "soon", "note"] | None = None
    """How it hurts: a danger now; one that grows; or worth knowing only."""
    action: Literal["with this job", "made safe", "left"] | None = None
    """What is done: mended with this job, made safe but not mended, or left to the owner."""
    risk: Text | None = None
    """What can happen where it is left."""
    price: Text | None = None
    """Price of mending it with this job, with its currency: "340 USD"."""
