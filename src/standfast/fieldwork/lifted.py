"""One part of a unit or inverter that has to be lifted, and everything that its verdict hangs on."""

from typing import NamedTuple

from standfast.equipment.model import Part, Sheet
from standfast.reading import Document
from standfast.sheet import Value, chosen, work
from standfast.shelf import Adoption
from standfast.survey.model import Job


class Lift(NamedTuple):
    """One part to be lifted.

    Attributes:
        unit: name of the unit, or of the inverter.
        job: the job file, with [handling].
        battery: its data sheet.
        aid: data sheet of the lifting aid; None where none was chosen.
        books: the editions in force.
        bottom: height of its lower edge over the floor, mm.
        part: the part.
        units: how many such units the job puts up.
    """

    unit: str
    job: Document[Job]
    battery: Document[Sheet]
    aid: Document[Sheet] | None
    books: Adoption
    bottom: Value
    part: Part
    units: int = 1

    def id(self, rule: str) -> str:
        """The stable id of a check."""
        return f"lifting.{rule}/{self.unit}/{self.part.id}"

    @property
    def spoken(self) -> str:
        """Its name within a sentence: only its first letter is small."""
        return self.part.name[:1].lower() + self.part.name[1:]

    @property
    def mass(self) -> Value:
        """Mass of the part, kg."""
        return self.battery.fact(f"parts.{self.part.id}.mass", "m", "kg")

    @property
    def pieces(self) -> Value:
        """How many pieces of the part are lifted on the job, in all units together."""
        each = 1 if self.part.count is None else self.part.count
        how = f"pieces of {self.part.name}: {each} in each of {self.units}"
        return chosen("n_pieces", float(each * self.units), "1", how, None)

    @property
    def heights(self) -> list[Value]:
        """Height over the floor of the lower edge of each piece in its place, mm, from the lowest.

        A part of a stack stands where its data sheet says, each further piece on the one before; every part of a unit
        that hangs is taken to be hung with the lower edge of the unit.
        """
        if self.part.at is None and self.battery.content.body.hung is not False:
            return [self.bottom]
        at, tall = (self.battery.fact(f"parts.{self.part.id}.{word}", f"h_{word}", "mm") for word in ("at", "height"))
        return [
            work("y_piece", "y_bottom + h_at + n_below * h_height", "mm", None, at, tall, y_bottom=self.bottom,
                 n_below=chosen("n_below", float(below), "1", f"pieces under piece {below + 1}", None))
            for below in range(self.part.count or 1)
        ]  # fmt: skip

    def handling(self, word: str, symbol: str, unit: str = "") -> Value:
        """A fact of [handling]."""
        return self.job.fact(f"handling.{word}", symbol, unit)
