"""What the circuits of a metric job are worked out from: the books of its adoption, the job, the data sheets."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from standfast.equipment.model import Sheet
from standfast.reading import Document
from standfast.sheet import Clause, Value, missing
from standfast.shelf import Adoption, Edition
from standfast.survey.joined import has_inverter, owner
from standfast.survey.model import Job
from standfast.survey.power import Circuit, Panel

if TYPE_CHECKING:
    from standfast.design.wiring.metric.dialect import Dialect

JobFile = Document[Job]
SheetFile = Document[Sheet]
UTILITY = "utility"


class Question(NamedTuple):
    """The input of the engine.

    Attributes:
        adoption: the books in force.
        dialect: the rules of the country.
        job: the job file.
        sheets: data sheets by role.
    """

    adoption: Adoption
    dialect: "Dialect"
    job: JobFile
    sheets: Mapping[str, SheetFile]

    @property
    def rules(self) -> Edition:
        """The wiring rules in force."""
        return self.adoption.book(self.dialect.rules)

    def book(self, name: str) -> Edition:
        """Another book of the adoption. NotInEdition where it names none of that name."""
        return self.adoption.book(name)

    def clause(self, key: str) -> Clause:
        """A clause of the wiring rules. NotInEdition where the edition holds none for this."""
        return self.rules.clause(key)

    @property
    def role(self) -> str:
        """The word of ``[equipment]`` whose sheet speaks for the AC side: of the battery unit, or of its inverter."""
        return "inverter" if has_inverter(self.job.content) else "battery"

    def own(self, path: str, symbol: str, unit: str = "") -> Value:
        """A fact of the AC side of the sources."""
        return self.of(self.role, f"electrical.{path}", symbol, unit)

    def of(self, role: str, path: str, symbol: str, unit: str = "") -> Value:
        """A fact of a data sheet; missing where no such equipment was chosen."""
        sheet = self.sheets.get(role)
        if sheet is None:
            return missing(symbol, unit, f"equipment.{role}: choose one by the id of its data sheet")
        return sheet.fact(path, symbol, unit)

    def panel(self, id: str) -> Panel:
        """A panel by its id. KeyError where the job has none of that name."""
        for panel in self.job.content.panels:
            if panel.id == id:
                return panel
        raise KeyError(f"panels has no {id}")

    def name(self, panel: str) -> str:
        """A panel as people call it."""
        return self.panel(panel).name or panel

    def circuit_of(self, source: str) -> tuple[str, Circuit] | None:
        """Panel and circuit that a job lists for a source; None where it lists none."""
        job = self.job.content
        for panel in job.panels:
            for each in panel.circuits:
                if owner(job, each) == source:
                    return panel.id, each
        return None

    def circuit_of_source(self, circuit: Circuit) -> str:
        """The source that this job adds on a circuit; empty where it is none of them."""
        return owner(self.job.content, circuit)
