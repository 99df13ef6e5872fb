"""Where a graph is put together: parts and links in the order in which they are found."""

from collections.abc import Mapping

from standfast.design.installation.graph import Installation, Link, LinkKind, Part, PartKind
from standfast.equipment.model import Sheet
from standfast.reading import Document
from standfast.sheet import Value
from standfast.survey.model import Job

JobFile = Document[Job]
SheetFile = Document[Sheet]
Sheets = Mapping[str, SheetFile]


class Yard:
    """Parts and links as they are put together."""

    def __init__(self, job: JobFile, sheets: Sheets) -> None:
        self.job, self.sheets = job, sheets
        self.parts: list[Part] = []
        self.links: list[Link] = []

    @property
    def metric(self) -> bool:
        """True in countries of 230 V, whose trade has other names for the same parts."""
        return (self.job.content.supply.system or "").startswith("230")

    def put(
        self, id: str, kind: PartKind, name: str, facts: Mapping[str, Value], *, existing: bool, role: str = ""
    ) -> str:
        """A part; its id is given back. `role` is the word of ``[equipment]`` that says what it is made of."""
        self.parts.append(Part(id, kind, name, facts, existing, role))
        return id

    def join(self, a: str, b: str, kind: LinkKind, id: str = "") -> None:
        """A link from the part on the utility's side to the other one."""
        self.links.append(Link(id or f"{a}–{b}", a, b, kind))

    def fact(self, role: str, path: str, name: str, symbol: str, unit: str = "A") -> dict[str, Value]:
        """One fact of a chosen sheet by its name in the graph; nothing where no sheet was chosen for the role."""
        return {name: self.sheets[role].fact(path, symbol, unit)} if role in self.sheets else {}

    def done(self) -> Installation:
        """The graph.

        Raises:
            BadFormula: where two parts have one id, or a link joins what is not there.
        """
        return Installation(self.parts, self.links)
