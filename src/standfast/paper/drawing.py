"""One drawing to scale: real mm in, marks in paper mm out.

Model coordinates are real mm with y upward; a schematic is a drawing of scale 1, so its model mm are paper mm. Texts
stand where they are put (`text`) or are wanted somewhere near a point and placed at the end, when everything else
stands (`want`, used by `labels` and `dimension`). Every text knows its box: `flaws` proves that none overlaps another,
none leaves the sheet and none is under 2.5 mm.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from itertools import combinations
from typing import NamedTuple

from standfast.faults import Refusal
from standfast.paper import dxf
from standfast.paper.board import Board, Box, Spot
from standfast.paper.hatching import HatchName, hatch
from standfast.paper.lettering import LEAST_MM, width_mm
from standfast.paper.svg import Anchor, Arc, Circle, Fill, Group, Lettering, Mark, Path, PenName, Point, write

PAD_MM = 0.6
"""Clear paper around every text."""
LEADING = 1.65
"""Distance of base lines, in heights of capitals."""


class DoesNotFit(Refusal):
    """A sheet that cannot hold what must stand on it, or lettering asked smaller than the least height."""


class Scale(NamedTuple):
    """A drawing scale: real mm per paper mm, and its name in the trade."""

    ratio: float
    name: str

    def __str__(self) -> str:
        return f"{self.name} (1:{self.ratio:g})" if self.name else "not to scale"


ARCHITECT = tuple(
    Scale(ratio, f"{name} in = 1 ft")
    for ratio, name in (
        (4, "3"), (8, "1-1/2"), (12, "1"), (16, "3/4"), (24, "1/2"), (32, "3/8"), (48, "1/4"), (64, "3/16"),
        (96, "1/8"), (192, "1/16"),
    )
)  # fmt: skip
ENGINEER = tuple(Scale(12 * feet, f"1 in = {feet} ft") for feet in (10, 20, 30, 40, 50, 60, 80, 100, 200, 400))
SCHEMATIC = Scale(1, "")


class Note(NamedTuple):
    """A text that stands in the list of notes, because its drawing had no room: its mark there, and its lines."""

    mark: str
    text: str


class Want(NamedTuple):
    """A text that is placed when everything else stands: its lines, its spots, and where its leader ends."""

    lines: tuple[str, ...]
    spots: tuple[Spot, ...]
    height: float
    arrow: bool
    ring: bool
    target: Point


class Drawing:
    """A drawing on a piece of paper of known size.

    Attributes:
        title: name of the drawing.
        description: what it shows, in a sentence, for people who cannot see it.
        width: of its paper, mm.
        height: of its paper, mm.
        scale: real mm per paper mm.
        origin: paper point of the model point (0, 0).
        notes: texts that found no room and stand in the list of notes beside the drawing.
        keys: hatches used, with their meaning, in order of use.
    """

    def __init__(
        self,
        title: str,
        description: str,
        width: float,
        height: float,
        scale: Scale = SCHEMATIC,
        origin: Point | None = None,
    ) -> None:
        self.title, self.description = title, description
        self.width, self.height, self.scale = width, height, scale
        self.origin = origin or (0.0, height)
        self.board = Board(Box(0, 0, width, height))
        self.texts: list[tuple[Box, Lettering]] = []
        self.notes: list[Note] = []
        self.keys: dict[str, HatchName] = {}
        self._back: list[Mark] = []
        self._zones: list[dxf.Zone] = []
        self._front: list[Mark] = []
        self._leaders: list[Mark] = []
        self._groups: dict[str, tuple[str, list[Mark]]] = {"lines": (title, [])}
        self._part = "lines"
        self._wants: list[Want] = []

    @classmethod
    def fitted(
        cls,
        title: str,
        description: str,
        paper: tuple[float, float],
        extent: tuple[float, float, float, float],
        margins: tuple[float, float, float, float],
        scales: Sequence[Scale] = ARCHITECT,
    ) -> "Drawing":
        """The drawing at the largest scale that fits, centred between its margins.

        Args:
            title: name of the drawing.
            description: what it shows, for people who cannot see it.
            paper: width and height in mm.
            extent: left, bottom, right, top of the model in real mm.
            margins: paper mm kept at the left, bottom, right and top for dimensions, notes, key and scale bar.
            scales: the scales to choose from, largest first.

        Raises:
            DoesNotFit: where even the smallest scale is too large.
        """
        left, bottom, right, top = extent
        room = (paper[0] - margins[0] - margins[2], paper[1] - margins[1] - margins[3])
        for scale in scales:
            wide, high = (right - left) / scale.ratio, (top - bottom) / scale.ratio
            if wide <= room[0] and high <= room[1]:
                x = margins[0] + (room[0] - wide) / 2 - left / scale.ratio
                y = paper[1] - margins[1] - (room[1] - high) / 2 + bottom / scale.ratio
                return cls(title, description, *paper, scale, (x, y))
        size = f"{right - left:.0f} × {top - bottom:.0f} mm"
        raise DoesNotFit(f"{title}: {size} does not fit on {room[0]:.0f} × {room[1]:.0f} mm of paper at any scale")

    def detail(self, scale: Scale, origin: Point) -> "Drawing":
        """A drawing of another scale on the same paper: whatever is drawn there stands on this one.

        Args:
            scale: real mm per paper mm of the detail.
            origin: paper point of its model point (0, 0).
        """
        other = Drawing(self.title, self.description, self.width, self.height, scale, origin)
        other.board, other.texts, other.notes, other.keys = self.board, self.texts, self.notes, self.keys
        other._back, other._front, other._leaders = self._back, self._front, self._leaders
        other._zones = self._zones
        other._groups, other._wants = self._groups, self._wants
        return other

    def at(self, point: Point) -> Point:
        """The paper point of a model point."""
        return self.origin[0] + point[0] / self.scale.ratio, self.origin[1] - point[1] / self.scale.ratio

    def real(self, paper_mm: float) -> float:
        """Real mm of a length on paper."""
        return paper_mm * self.scale.ratio

    @contextmanager
    def part(self, id: str, title: str) -> Iterator[None]:
        """Marks made inside belong to one named thing."""
        before, self._part = self._part, id
        self._groups.setdefault(id, (title, []))
        yield
        self._part = before

    # Marks in model coordinates

    def line(self, *points: Point, pen: PenName = "outline") -> None:
        """Straight lines through points."""
        self.put(Path(tuple(self.at(each) for each in points), pen))

    def area(self, points: Sequence[Point], pen: PenName = "outline", fill: Fill = "none") -> None:
        """A closed outline."""
        self.put(Path(tuple(self.at(each) for each in points), pen, True, fill))

    def rect(
        self, left: float, bottom: float, width: float, height: float, pen: PenName = "outline", fill: Fill = "none"
    ) -> None:
        """A rectangle."""
        right, top = left + width, bottom + height
        self.area([(left, bottom), (right, bottom), (right, top), (left, top)], pen, fill)

    def circle(self, centre: Point, radius: float, pen: PenName = "outline", fill: Fill = "none") -> None:
        """A circle of a real radius."""
        self.put(Circle(self.at(centre), radius / self.scale.ratio, pen, fill))

    def dot(self, centre: Point, radius_mm: float = 0.7) -> None:
        """A filled dot of a radius on paper."""
        self.put(Circle(self.at(centre), radius_mm, "none", "black"))

    def cross(self, centre: Point, arm_mm: float = 1.5, pen: PenName = "thin") -> None:
        """A centre mark with arms of a length on paper."""
        x, y = self.at(centre)
        self.put(Path(((x - arm_mm, y), (x + arm_mm, y)), pen))
        self.put(Path(((x, y - arm_mm), (x, y + arm_mm)), pen))

    def arc(self, centre: Point, radius: float, start: float, end: float, pen: PenName = "outline") -> None:
        """A part of a circle; degrees from the right, against the clock."""
        self.put(Arc(self.at(centre), radius / self.scale.ratio, start, end, pen))

    def zone(
        self, rings: Sequence[Sequence[Point]], name: HatchName, meaning: str, pen: PenName = "thin", edge: bool = True
    ) -> None:
        """A hatched area behind everything else, with its meaning for the key. A ring inside another is a hole."""
        known = self.keys.setdefault(meaning, name)
        paper = [[self.at(each) for each in ring] for ring in rings]
        self._zones.append(dxf.Zone(tuple(tuple(ring) for ring in paper), known, pen if edge else "none"))
        self._back.extend(hatch(paper, known))
        if edge:
            self._back.extend(Path(tuple(ring), pen, True) for ring in paper)
            for ring in paper:
                self.board.draw([*ring, ring[0]])

    def text(
        self,
        at: Point,
        text: str,
        height: float = LEAST_MM,
        anchor: Anchor = "start",
        turned: bool = False,
        bold: bool = False,
        shift: Point = (0, 0),
    ) -> Box:
        """One line of text at a model point, moved by `shift` paper mm to the right and up. Its box is returned."""
        x, y = self.at(at)
        point = (x + shift[0], y - shift[1])
        return self.letter(Lettering(point, text, height, anchor, 90 if turned else 0, bold))

    def keep_clear(self, left: float, bottom: float, right: float, top: float, *, own: bool = False) -> None:
        """No text may be placed on this area of the model; `own`: but its own, and others if nothing else is free."""
        (x1, y1), (x2, y2) = self.at((left, top)), self.at((right, bottom))
        (self.board.body if own else self.board.block)(Box(x1, y1, x2, y2))

    # Marks in paper coordinates

    def put(self, mark: Mark) -> None:
        """A mark in paper mm, in the part that is open."""
        self._groups[self._part][1].append(mark)
        if isinstance(mark, Path):
            if mark.closed and mark.fill != "none":
                xs, ys = [x for x, _ in mark.points], [y for _, y in mark.points]
                if len(set(xs)) == len(set(ys)) == 2:
                    self.board.cover(Box(min(xs), min(ys), max(xs), max(ys)))
            self.board.draw([*mark.points, mark.points[0]] if mark.closed else mark.points)
        elif isinstance(mark, Circle) and mark.radius > 1:
            x, y, r = *mark.centre, mark.radius
            self.board.draw([(x - r, y), (x, y - r), (x + r, y), (x, y + r), (x - r, y)])

    def letter(self, mark: Lettering) -> Box:
        """A line of text in paper mm, on white, in front of everything. Its box is returned.

        DoesNotFit where the lettering is under the least height.
        """
        if mark.height < LEAST_MM:
            raise DoesNotFit(
                f"{self.title}: {mark.text!r} is asked {mark.height:g} mm high, the least is {LEAST_MM} mm"
            )
        box = box_of(mark)
        clear = box.grown(PAD_MM)
        corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
        self._front += [Path(corners, "none", True, "white"), mark]
        self.texts.append((box, mark))
        self.board.block(clear)
        return clear

    def lead(self, leader: tuple[Point, ...], arrow: bool = True) -> None:
        """A leader line through paper points, with an arrowhead or a dot at its first."""
        self._leaders.append(Path(leader, "thin"))
        self.board.draw(leader)
        self._end(leader, arrow)

    def want(self, want: Want) -> None:
        """Ask for a text that is placed at the end."""
        self._wants.append(want)

    def finish(self) -> None:
        """Place every wanted text where it crosses least; one without a spot becomes a note with a mark."""
        wants, self._wants = self._wants, []
        for number, want in enumerate(wants, 1):
            waiting = [each.target for each in wants[number:]]
            spot = self.board.best(each for each in want.spots if not _hides(each.box, waiting))
            if spot is not None:
                self._place(want, spot)
            else:
                self._note(want)

    def flaws(self) -> list[str]:
        """What a draughtsman would not sign: texts that overlap, leave the sheet, or are too small; stray marks."""
        edge = self.board.edge
        found = [f"{mark.text!r} leaves the sheet" for box, mark in self.texts if not box.within(edge)]
        found += [f"{mark.text!r} is under {LEAST_MM} mm" for _, mark in self.texts if mark.height < LEAST_MM]
        for (one, first), (other, second) in combinations(self.texts, 2):
            if one.meets(other):
                found.append(f"{first.text!r} overlaps {second.text!r}")
        marks = [mark for _, marks in self._groups.values() for mark in marks] + self._back
        points = [point for mark in marks if isinstance(mark, Path) for point in mark.points]
        points += [mark.centre for mark in marks if isinstance(mark, Circle | Arc)]
        found += [
            f"a line leaves the sheet at {x:.1f}, {y:.1f}"
            for x, y in points
            if not Box(x, y, x, y).within(edge.grown(0.01))
        ]
        return found

    def svg(self) -> str:
        """The drawing as SVG. Places what is still wanted."""
        groups = [Group("zones", "Zones", tuple(self._back)), *self._before_zones()]
        return write(groups, self.width, self.height, self.title, self.description)

    def _repr_svg_(self) -> str:
        return self.svg()

    def dxf(self) -> str:
        """The drawing as DXF, from the same marks. Places what is still wanted.

        Raises:
            NotInstalled: where the extra ``dxf`` is not there.
        """
        groups, paper = self._before_zones(), (self.width, self.height)
        facts = [("Shows", self.description), ("Scale", str(self.scale)), ("Unit", "mm on paper")]
        return dxf.write(self._zones, groups, paper, self.title, facts, self.notes)

    def _before_zones(self) -> list[Group]:
        """Everything that stands before the hatched zones, in painting order."""
        self.finish()
        return [
            *(Group(id, title, tuple(marks)) for id, (title, marks) in self._groups.items()),
            Group("leaders", "Leader lines", tuple(self._leaders)),
            Group("lettering", "Lettering", tuple(self._front)),
        ]

    def _place(self, want: Want, spot: Spot) -> None:
        if spot.leader:
            self.lead(spot.leader, want.arrow)
        size = want.height
        box = spot.box.grown(-PAD_MM)
        middle, level = (box.left + box.right) / 2, (box.top + box.bottom) / 2
        if want.ring:
            centre = (middle, level)
            self._leaders.append(Circle(centre, (spot.box.right - spot.box.left) / 2, "thin", "white"))
        for index, line in enumerate(want.lines):
            y = box.top + size * (_ASCENT + LEADING * index)
            at = (middle, level + size / 2) if want.ring else (box.left, y)
            self.letter(Lettering(at, line, size, "middle" if want.ring else "start"))

    def _end(self, leader: tuple[Point, ...], arrow: bool) -> None:
        (x, y), (x2, y2) = leader[0], leader[1]
        if not arrow:
            self._leaders.append(Circle((x, y), 0.6, "none", "black"))
            return
        length = ((x2 - x) ** 2 + (y2 - y) ** 2) ** 0.5 or 1.0
        ux, uy = (x2 - x) / length * 2.5, (y2 - y) / length * 2.5
        wing = ((x + ux - uy * 0.18, y + uy + ux * 0.18), (x + ux + uy * 0.18, y + uy - ux * 0.18))
        self._leaders.append(Path(((x, y), *wing), "none", True, "black"))

    def _note(self, want: Want) -> None:
        """A ring with a number at the point, and the text in the list of notes."""
        from standfast.paper.labels import ring_spots

        note = Note(str(len(self.notes) + 1), " ".join(want.lines))
        spot = self.board.best(ring_spots(want.target, note.mark, LEAST_MM))
        if want.ring or spot is None:
            raise DoesNotFit(f"{self.title}: no room for {note.text!r}")
        self.notes.append(note)
        self._place(Want((note.mark,), (), LEAST_MM, False, True, want.target), spot)


def _hides(box: Box, points: Sequence[Point]) -> bool:
    """True where a box would stand on a point that another text still has to lead to."""
    return any(box.left <= x <= box.right and box.top <= y <= box.bottom for x, y in points)


_ASCENT = 1.12
"""Top of the tallest letter above the base line, in heights of capitals; 0.33 lies below it."""
_DESCENT = 0.33


def box_of(mark: Lettering) -> Box:
    """The box of a line of text, from the tallest letter to the lowest."""
    wide, (x, y) = width_mm(mark.text, mark.height, mark.bold), mark.at
    up, down = mark.height * _ASCENT, mark.height * _DESCENT
    before = {"start": 0.0, "middle": wide / 2, "end": wide}[mark.anchor]
    if mark.turn:
        return Box(x - up, y - wide + before, x + down, y + before)
    return Box(x - before, y - up, x - before + wide, y + down)


def size_of(lines: Sequence[str], height: float, bold: bool = False) -> tuple[float, float]:
    """Width and height of a block of lines with its clear paper."""
    wide = max((width_mm(line, height, bold) for line in lines), default=0.0)
    high = height * (_ASCENT + _DESCENT + LEADING * (len(lines) - 1))
    return wide + 2 * PAD_MM, high + 2 * PAD_MM
