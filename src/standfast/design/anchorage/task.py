"""What the anchorage of one unit is worked out from: job, data sheet, place on the wall, books in force."""

from typing import Literal, NamedTuple

from standfast.equipment.fixing import Fixing
from standfast.equipment.model import Sheet
from standfast.reading import Document
from standfast.reading.help import sentence
from standfast.sheet import Clause, Value, chosen, given, work
from standfast.shelf import Adoption, Edition
from standfast.survey.house import BuildUp, Room, Wall
from standfast.survey.model import Job

JobFile = Document[Job]
SheetFile = Document[Sheet]


class Place(NamedTuple):
    """Where a unit hangs: id of the wall, left edge from its left end and lower edge above the floor, both mm."""

    wall: str
    left: Value
    bottom: Value


class Task(NamedTuple):
    """One unit to be held, at its wall or at its foot.

    Attributes:
        unit: its name everywhere: ``battery-1``.
        job: the job file.
        battery: data sheet of the unit.
        place: where it hangs or stands.
        books: the editions in force.
        part: ``wall`` for what holds it at its wall, ``foot`` for what holds it on its slab or pad.
    """

    unit: str
    job: JobFile
    battery: SheetFile
    place: Place
    books: Adoption
    part: Literal["wall", "foot"] = "wall"

    def id(self, rule: str, *parts: str) -> str:
        """The stable id of a check: ``anchorage.wood-withdrawal/battery-1``, at its foot ``…/battery-1/foot``."""
        at = ("foot",) if self.part == "foot" else ()
        return "/".join((f"anchorage.{rule}", self.unit, *at, *parts))

    @property
    def held_part(self) -> str:
        """What the fasteners go through, in words."""
        return "foot" if self.part == "foot" else "bracket"

    def of_part(self, word: str, symbol: str, unit: str = "") -> Value:
        """A fact of the bracket, or of the foot: ``hole``, ``plate``, ``fasteners``."""
        return self.battery.fact(f"fixing.{'base_' if self.part == 'foot' else ''}{word}", symbol, unit)

    def unsaid(self, word: str) -> str:
        """What to find out where the data sheet gives no items for a list of [fixing]."""
        return f"fixing.{word}: {self.battery.file} does not say. Find out and write there: {sentence(Fixing, word)}"

    def of_concrete(self, word: str, symbol: str, unit: str = "") -> Value:
        """A fact of the concrete that holds: of the wall, or of the slab or pad."""
        if self.part == "wall":
            return self.of_build_up(word, symbol, unit)
        return self.of_wall("footing." + word.replace("concrete_thickness", "thickness"), symbol, unit)

    @property
    def practice(self) -> Edition:
        """Rules of thumb of the trade."""
        return self.books.book("practice")

    @property
    def maker(self) -> Clause:
        """The maker's word about fixing, as a clause."""
        return Clause(self.battery.content.name, "data sheet", "[fixing]")

    @property
    def wall(self) -> Wall:
        """The wall. KeyError where the job has none of that name."""
        for wall in self.job.content.walls:
            if wall.id == self.place.wall:
                return wall
        raise KeyError(self.place.wall)

    @property
    def build_up(self) -> BuildUp:
        """What the wall is made of."""
        return self.wall.build_up

    @property
    def room(self) -> Room | None:
        """The room from which the wall is seen."""
        return next((room for room in self.job.content.rooms if room.id == self.wall.room), None)

    def of_wall(self, word: str, symbol: str, unit: str = "") -> Value:
        """A fact of the wall."""
        return self.job.fact(f"walls.{self.place.wall}.{word}", symbol, unit)

    def of_build_up(self, word: str, symbol: str, unit: str = "") -> Value:
        """A fact of what the wall is made of."""
        return self.of_wall(f"build_up.{word}", symbol, unit)

    @property
    def tolerance(self) -> Value:
        """Placing tolerance of the survey, in; the common one where the job states none."""
        if self.job.has("tolerances.placing"):
            return self.job.fact("tolerances.placing", "t_placing", "in")
        return inches("t_placing", self.practice.number("placing_tolerance"))

    @property
    def lining(self) -> Value:
        """Board between bracket and what carries, in; 0 where there is none."""
        if self.build_up.lining == "none":
            return chosen("g", 0.0, "in", "the wall has no board", None, self.of_build_up("lining", "lining"))
        return self.of_build_up("lining_thickness", "g", "in")


def inches(symbol: str, mm: Value) -> Value:
    """A length in mm as inches."""
    return work(symbol, "x / 25.4", "in", None, x=mm)


def millimetres(symbol: str, value: Value) -> Value:
    """A length in inches as mm."""
    return work(symbol, "x * 25.4", "mm", None, x=value)


def nothing(symbol: str, unit: str, why: str) -> Value:
    """A load or length that is not there."""
    return given(symbol, 0.0, unit, why)
