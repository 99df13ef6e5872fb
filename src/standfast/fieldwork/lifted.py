"""One part of a unit that has to be lifted, and everything that its verdict hangs on."""

from typing import NamedTuple

from standfast.equipment.model import Part, Sheet
from standfast.reading import Document
from standfast.sheet import Value
from standfast.shelf import Adoption
from standfast.survey.model import Job


class Lift(NamedTuple):
    """One part to be lifted.

    Attributes:
        unit: name of the unit.
        job: the job file, with [handling].
        battery: data sheet of the unit.
        aid: data sheet of the lifting aid; None where none was chosen.
        books: the editions in force.
        bottom: height of the lower edge of the unit over the floor, mm.
        part: the part.
    """

    unit: str
    job: Document[Job]
    battery: Document[Sheet]
    aid: Document[Sheet] | None
    books: Adoption
    bottom: Value
    part: Part

    def id(self, rule: str) -> str:
        """The stable id of a check."""
        return f"lifting.{rule}/{self.unit}/{self.part.id}"

    @property
    def mass(self) -> Value:
        """Mass of the part, kg."""
        return self.battery.fact(f"parts.{self.part.id}.mass", "m", "kg")

    def handling(self, word: str, symbol: str, unit: str = "") -> Value:
        """A fact of [handling]."""
        return self.job.fact(f"handling.{word}", symbol, unit)
