"""Panel directories at full size, to be cut out and hung in the door: two columns of spaces as they lie in the panel.

A board of a metric country has its ways below each other, with device, curve and residual current device.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.handover.directory import Directory, Row
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.labels import lines_of
from standfast.paper.lettering import LEAST_MM, wrapped
from standfast.paper.sheets import ANSI_B
from standfast.survey.model import Job

TITLE = "Panel directories"
WIDE_MM, APART_MM = 160.0, 14.0
"""Width of a card, and between two of them."""
LINE_MM = LEAST_MM * 1.65
PAD_MM = 1.2
NUMBER_MM, RATING_MM = 8.0, 16.0
HEAD_MM = 6.0
WAYS = (("Way", 10.0), ("Circuit", 82.0), ("Device", 16.0), ("A/poles", 15.0), ("Curve", 13.0), ("RCD", 24.0))
"""Columns of a board with ways, mm."""


class Facts(NamedTuple):
    """What the head of every card says: system of the supply, job with revision and date, who made it, the clause."""

    system: str
    issue: str
    firm: str
    clause: str


class Line(NamedTuple):
    """One line of a card: its cells, each with left edge and width, its height, and whether it is bold."""

    cells: tuple[tuple[float, float, list[str]], ...]
    height: float
    bold: tuple[bool, ...]


def facts_of(job: Job, clause: str) -> Facts:
    """What the head of every card says.

    Args:
        job: the job file.
        clause: that asks for the directory; empty where the adoption names none.
    """
    made = job.job
    issue = f"{made.name}; revision {made.revision}, {made.date.isoformat()}"
    return Facts(job.supply.system or "system not known", issue, job.contractor.firm or "", clause)


def drawings(
    cards: Sequence[Directory], facts: Facts, paper: tuple[float, float] = ANSI_B.drawing
) -> dict[str, Drawing]:
    """The cards, two on a sheet: ``panel directory``, ``panel directory, 2`` and so on.

    Raises:
        DoesNotFit: where a panel has more spaces than a card can hold.
    """
    made: dict[str, Drawing] = {}
    each_sheet = max(1, int((paper[0] + APART_MM) // (WIDE_MM + APART_MM)))
    for at in range(0, len(cards), each_sheet):
        drawing = Drawing(TITLE, "What every breaker space of each panel serves, as the panel will be", *paper)
        for number, card in enumerate(cards[at : at + each_sheet]):
            with drawing.part(f"directory-{card.panel.id}", f"Directory of {card.name}"):
                _Card(drawing, card, facts, 1.0 + number * (WIDE_MM + APART_MM), paper[1] - 2.0).draw()
        drawing.finish()
        made[f"panel directory, {len(made) + 1}" if made else "panel directory"] = drawing
    return made


class _Card:
    def __init__(self, drawing: Drawing, card: Directory, facts: Facts, left: float, top: float) -> None:
        self.drawing, self.card, self.facts, self.left, self.top = drawing, card, facts, left, top

    def draw(self) -> None:
        y = self._head()
        lines = list(_ways(self.card) if self.card.metric else _spaces(self.card))
        for line in lines:
            y = self._line(line, y)
        loose = [row for row in self.card.rows if row.space is None]
        if loose and not self.card.metric:
            y = self._paragraph("Spaces not surveyed: " + "; ".join(_told(row) for row in loose), y - 1.5)
        y = self._paragraph(self._foot(), y - 1.5)
        if y < 2:
            raise DoesNotFit(f"the directory of {self.card.name} is {2 - y:.0f} mm too long for the sheet")
        self.drawing.rect(self.left, y - 1.5, WIDE_MM, self.top - y + 1.5, "medium")

    def _head(self) -> float:
        x, y, panel = self.left + 2, self.top, self.card.panel
        self.drawing.text((x, y), self.card.name, 4.5, bold=True, shift=(0, -6.5))
        busbar, main = ("not known" if each is None else each.text for each in (panel.busbar, panel.main))
        lines = [
            f"{self.facts.system}; busbar {busbar}, main {main}",
            " · ".join(each for each in (self.facts.issue, self.facts.firm) if each),
        ]
        told = [part for line in lines for part in wrapped(line, WIDE_MM - 4, LEAST_MM)]
        lines_of(self.drawing, (x, y - 8.5), told)
        return y - 10.5 - LINE_MM * len(told)

    def _foot(self) -> str:
        marks = "SOURCE: power comes in through this breaker too."
        if self.card.metric:
            marks += " MCB: circuit breaker. RCBO: one with a residual current device."
        else:
            marks += " A/P: amperes and poles."
        asked = f" Directory as {self.facts.clause} asks." if self.facts.clause else ""
        return f"{marks} Prove each circuit before this is hung.{asked}"

    def _line(self, line: Line, y: float) -> float:
        for (left, wide, lines), bold in zip(line.cells, line.bold, strict=True):
            self.drawing.rect(self.left + left, y - line.height, wide, line.height, "thin")
            if any(lines):
                lines_of(self.drawing, (self.left + left + PAD_MM, y - PAD_MM), lines, bold=bold)
        return y - line.height

    def _paragraph(self, text: str, y: float) -> float:
        lines = wrapped(text, WIDE_MM - 4, LEAST_MM)
        lines_of(self.drawing, (self.left + 2, y), lines)
        return y - LINE_MM * len(lines)


def _spaces(card: Directory) -> Iterator[Line]:
    """Odd spaces on the left, even ones on the right."""
    rows = [row for row in card.rows if row.space is not None]
    half = WIDE_MM / 2
    wide = half - NUMBER_MM - RATING_MM
    yield _line([(part, ["", "Serves", "A/P"], True) for part in (0.0, half)], wide)
    for number in range(0, len(rows), 2):
        parts = [(half * side, _cells(row), row.source) for side, row in enumerate(rows[number : number + 2])]
        yield _line(parts, wide)


def _line(parts: Sequence[tuple[float, list[str], bool]], wide: float) -> Line:
    cells: list[tuple[float, float, list[str]]] = []
    bold: list[bool] = []
    for left, (number, text, rating), heavy in parts:
        cells += [
            (left, NUMBER_MM, [number]),
            (left + NUMBER_MM, wide, wrapped(text, wide - 2 * PAD_MM, LEAST_MM, heavy)),
            (left + NUMBER_MM + wide, RATING_MM, [rating]),
        ]
        bold += [True, heavy, heavy]
    return Line(tuple(cells), _high(cells), tuple(bold))


def _ways(card: Directory) -> Iterator[Line]:
    rows = [[name for name, _ in WAYS]]
    heavy = [True]
    for row in card.rows:
        number = "?" if row.space is None else str(row.space)
        known = row.named
        told = ["", row.rating, "", ""]
        if known is not None:
            told = [known.device or "?", row.rating, known.curve or "?", known.residual or "none stated"]
        rows.append([number, _named(row), *told])
        heavy.append(row.source)
    for texts, bold in zip(rows, heavy, strict=True):
        cells: list[tuple[float, float, list[str]]] = []
        left = 0.0
        for (_, wide), text in zip(WAYS, texts, strict=True):
            cells.append((left, wide, wrapped(text, wide - 2 * PAD_MM, LEAST_MM, bold)))
            left += wide
        yield Line(tuple(cells), _high(cells), tuple(bold for _ in cells))


def _high(cells: Sequence[tuple[float, float, list[str]]]) -> float:
    return max(HEAD_MM, 2 * PAD_MM + LINE_MM * max(len(lines) for _, _, lines in cells))


def _cells(row: Row) -> list[str]:
    return [str(row.space), _named(row), row.rating]


def _named(row: Row) -> str:
    new = row.held is not None and row.first is None and row.held.circuit.state == "new"
    return f"{'SOURCE: ' if row.source else ''}{row.serves}{' (new)' if new else ''}"


def _told(row: Row) -> str:
    return f"{_named(row)} {row.rating}"
