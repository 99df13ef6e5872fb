"""What the wiring of a job is worked out from: the books in force, the job file and the data sheets by role."""

from collections.abc import Mapping
from typing import NamedTuple

from standfast.design.installation.build import below, way_up
from standfast.equipment.electrical import Terminal
from standfast.equipment.model import Sheet
from standfast.reading import Document
from standfast.sheet import Value, missing
from standfast.shelf import Edition
from standfast.survey.joined import has_inverter, owner
from standfast.survey.model import Job
from standfast.survey.power import Panel

SheetFile = Document[Sheet]
JobFile = Document[Job]


class Material(NamedTuple):
    """The input of the wiring.

    Attributes:
        nec: the electrical code in force.
        handbook: methods that no code owns.
        job: the job file.
        sheets: data sheets by role: ``battery``, ``inverter``, ``breaker``, ``disconnect``, ``island_switch``.
        unit: name of the AC source that is asked about: ``battery-1``, or ``inverter-1``.
    """

    nec: Edition
    handbook: Edition
    job: JobFile
    sheets: Mapping[str, SheetFile]
    unit: str

    @property
    def role(self) -> str:
        """The word of ``[equipment]`` whose sheet speaks for the AC side: of the battery unit, or of its inverter."""
        return "inverter" if has_inverter(self.job.content) else "battery"

    @property
    def named(self) -> str:
        """The source as people call it: ``battery 1``, ``inverter``."""
        return "inverter" if self.role == "inverter" else self.unit.replace("-", " ")

    def own(self, path: str, symbol: str, unit: str = "") -> Value:
        """A fact of the AC side of the source."""
        return self.of(self.role, f"electrical.{path}", symbol, unit)

    def of(self, role: str, path: str, symbol: str, unit: str = "") -> Value:
        """A fact of a data sheet; missing where no such equipment was chosen."""
        sheet = self.sheets.get(role)
        if sheet is None:
            return missing(symbol, unit, f"equipment.{role}: choose one by the id of its data sheet")
        return sheet.fact(path, symbol, unit)

    def terminal(self, role: str, use: str) -> Terminal | None:
        """The terminals of a piece of equipment for one use; None where its sheet names none."""
        sheet = self.sheets.get(role)
        terminals = () if sheet is None else sheet.content.terminals
        return next((each for each in terminals if each.use == use), None)

    def panel(self, id: str) -> Panel:
        """A panel by its id. KeyError where the job has none of that name."""
        for panel in self.job.content.panels:
            if panel.id == id:
                return panel
        raise KeyError(f"panels has no {id}")

    def way_up(self, panel: str) -> list[str]:
        """The panels from one to the service, both included, as far as the job says what feeds them."""
        return way_up(self.job, panel)

    def below(self, panel: str) -> list[str]:
        """A panel and every panel that is fed from it, directly or through others."""
        return below(self.job, panel)

    def own_circuit(self, panel: str) -> str | None:
        """The circuit of a panel that belongs to the source; None where the job lists none."""
        circuits = self.panel(panel).circuits
        return next((each.id for each in circuits if owner(self.job.content, each) == self.unit), None)
