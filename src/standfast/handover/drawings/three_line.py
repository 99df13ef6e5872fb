"""The three-line diagram: every conductor as a line of its own, through the poles of every device."""

from collections.abc import Iterator, Sequence

from standfast.handover.drawings import one_line_schedule
from standfast.handover.drawings.one_line_draw import words_of
from standfast.handover.drawings.one_line_told import CODES
from standfast.handover.drawings.one_line_tree import LINE_MM
from standfast.handover.drawings.three_line_told import CELLS, SOURCES, Gap, Stop, Strip, ThreeLine
from standfast.paper import symbols
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.lettering import LEAST_MM, wrapped
from standfast.paper.sheets import ANSI_B
from standfast.paper.svg import Anchor, PenName, Point

TITLE = "Three-line diagram"
FOOT = (
    f"Ringed numbers: see the conductor schedule of the one-line diagram, sheet {CODES['one-line']} or "
    f"{CODES['one-line schedule']}. Dashed: not known. Not to scale."
)
PITCH_MM = 6.5
"""Between conductors."""
MOST_MM = 60.0
"""Between devices, at most."""
SIDE_MM = 16.0
"""Left of the first device: names of the conductors."""
GAP_MM = 7.0
"""Between strips."""
HALF_MM = 3.2
"""Half the width of a contact."""
FOOT_MM = 7.0
BLOCK_MM = 10.5
"""Half the width of a source, its terminals inside."""
EARTH_MM = 14.0
"""Room for the grounding electrode below the texts of a strip."""


def drawings(told: ThreeLine, paper: tuple[float, float] = ANSI_B.drawing) -> dict[str, Drawing]:
    """The diagram on as many sheets as it takes: ``three-line``, ``three-line, 2`` and so on.

    Raises:
        DoesNotFit: where one strip is too large for a sheet.
    """
    made: dict[str, Drawing] = {}
    for number, row in enumerate(_sheets(told, paper), 1):
        shows = "Every conductor from the utility to each source, through the poles of every device"
        drawing = Drawing(TITLE, shows, *paper)
        y = paper[1] - 2.0
        for strip in row:
            with drawing.part(f"strip-{len(drawing.texts)}", strip.title):
                _Strip(drawing, told, strip, paper[0], y).draw()
            y -= _Strip(drawing, told, strip, paper[0], y).height + GAP_MM
        drawing.text((4.0, 3.0), FOOT)
        drawing.finish()
        made[f"three-line, {number}" if number > 1 else "three-line"] = drawing
    return made


def _sheets(told: ThreeLine, paper: tuple[float, float]) -> Iterator[list[Strip]]:
    row: list[Strip] = []
    left = room = paper[1] - 2.0 - FOOT_MM
    for strip in told.strips:
        high = _Strip(None, told, strip, paper[0], 0.0).height
        if high > room:
            raise DoesNotFit(f"the strip {strip.title!r} of the three-line diagram is higher than the sheet")
        if row and high > left:
            yield row
            row, left = [], room
        row.append(strip)
        left -= high + GAP_MM
    if row:
        yield row


class _Strip:
    """One strip with its texts wrapped and all its heights known; `top` is its upper edge."""

    def __init__(self, drawing: Drawing | None, told: ThreeLine, strip: Strip, width: float, top: float) -> None:
        self.on, self.told, self.strip, self.top = drawing, told, strip, top
        count = len(strip.stops)
        self.pitch = min(MOST_MM, (width - SIDE_MM - 24) / max(count - 1, 1))
        self.xs = [SIDE_MM + 14 + self.pitch * number for number in range(count)]
        wide = self.pitch - 3
        self.names = [wrapped(words_of(told.facts, stop.part).name, wide, LEAST_MM, True) for stop in strip.stops]
        self.below = [self._wrapped(stop, wide) for stop in strip.stops]
        self.head = 6.0 + LINE_MM * max(map(len, self.names)) + 5.5
        self.foot = 4.0 + LINE_MM * max(map(len, self.below), default=0)
        if any(self._earthed(stop) for stop in strip.stops[1:]):
            self.foot += EARTH_MM

    @property
    def height(self) -> float:
        """Of the whole strip, mm."""
        return self.head + PITCH_MM * (len(self.strip.conductors) - 1) + self.foot

    @property
    def drawing(self) -> Drawing:
        """The drawing that it is put on."""
        if self.on is None:
            raise DoesNotFit("a strip that is only measured cannot be drawn")
        return self.on

    def draw(self) -> None:
        """Title, conductors, devices."""
        drawing = self.drawing
        drawing.text((4.0, self.top), self.strip.title, 3.0, bold=True, shift=(0, -3.4))
        for name in self.strip.conductors:
            drawing.text((SIDE_MM - 2, self._y(name)), name, bold=True, anchor="end", shift=(0, -LEAST_MM / 2))
        for number, gap in enumerate(self.strip.gaps):
            self._gap(number, gap)
        for number, stop in enumerate(self.strip.stops):
            self._stop(number, stop)

    def _y(self, conductor: str) -> float:
        return self.top - self.head - PITCH_MM * self.strip.conductors.index(conductor)

    def _wrapped(self, stop: Stop, wide: float) -> list[str]:
        return [part for line in _said(stop, self.strip, self.told) for part in wrapped(line, wide, LEAST_MM)]

    def _earthed(self, stop: Stop) -> bool:
        return any(link.kind == "bond" and link.a == stop.part.id for link in self.told.facts.installation.links)

    def _gap(self, number: int, gap: Gap) -> None:
        left, right = (
            self.xs[at] + _reach(self.strip.stops[at]) * side for at, side in ((number, 1), (number + 1, -1))
        )
        for conductor in (*gap.conductors, *gap.unknown):
            pen: PenName = "hidden" if conductor in gap.unknown else "medium"
            self.drawing.line((left, self._y(conductor)), (right, self._y(conductor)), pen=pen)
        if gap.run:
            x = (left + right) / 2
            drawn = [self._y(each) for each in (*gap.conductors, *gap.unknown)]
            self.drawing.line((x, max(drawn)), (x, min(drawn)), pen="thin")
            one_line_schedule.ring(self.drawing, (x, (max(drawn) + min(drawn)) / 2), gap.run)

    def _stop(self, number: int, stop: Stop) -> None:
        x, names, drawing = self.xs[number], self.names[number], self.drawing
        gaps = self.strip.gaps
        sides = [{*gap.conductors, *gap.unknown} for gap in gaps[max(number - 1, 0) : number + 1]]
        ends = [each for each in self.strip.conductors if any(each in side for side in sides)]
        foot = self.top - self.head + 5.0
        for index, line in enumerate(reversed(names)):
            drawing.text((x, foot + LINE_MM * index), line, bold=True, anchor="middle")
        low = self._y(self.strip.conductors[-1]) - 4.5
        for index, line in enumerate(self.below[number]):
            drawing.text((x, low - LINE_MM * index), line, anchor="middle", shift=(0, -LEAST_MM))
        self._device(stop, x, ends)
        self._bond(stop, x, ends)

    def _device(self, stop: Stop, x: float, ends: Sequence[str]) -> None:
        kind = stop.part.kind
        if kind in (*SOURCES, *CELLS, "utility", "meter"):
            self._block(stop, x, ends)
        elif kind == "busbar":
            for each in ends:
                y = self._y(each)
                self.drawing.line((x - HALF_MM, y), (x + HALF_MM, y), pen="medium")
                self.drawing.area(_bar((x, y)), "none", "black")
        elif stop.poles is None:
            self._unknown(x, ends)
        else:
            for each in ends:
                self._pole(kind, (x, self._y(each)), closed=each not in stop.poles)
            opened = [self._y(each) for each in ends if each in stop.poles]
            if len(opened) > 1:
                self.drawing.line((x, max(opened)), (x, min(opened)), pen="hidden")

    def _pole(self, kind: str, at: Point, *, closed: bool) -> None:
        x, y = at
        drawing = self.drawing
        if closed:
            drawing.line((x - HALF_MM, y), (x + HALF_MM, y), pen="medium")
            return
        if kind == "fuse":
            drawing.line((x - HALF_MM, y), (x + HALF_MM, y), pen="medium")
            drawing.rect(x - HALF_MM + 0.4, y - 1.1, 2 * HALF_MM - 0.8, 2.2, "medium")
            return
        iec = self.told.facts.family is not symbols.ANSI
        if kind == "breaker" and not iec:
            for side in (-1, 1):
                drawing.dot((x + side * HALF_MM, y), 0.5)
            drawing.arc((x, y - 2.1), 3.6, 42, 138, "medium")
            return
        drawing.line((x + HALF_MM, y), (x - HALF_MM + 0.8, y + 2.0), pen="medium")
        if kind == "breaker":
            for turn in (-1, 1):
                drawing.line((x - HALF_MM - 0.8, y - 0.8 * turn), (x - HALF_MM + 0.8, y + 0.8 * turn), pen="medium")
            return
        for side in (-1, 1):
            drawing.circle((x + side * HALF_MM, y), 0.5, "medium", "white")

    def _block(self, stop: Stop, x: float, ends: Sequence[str]) -> None:
        """A box with a terminal for each conductor; its marks as the data sheet names them."""
        ys = [self._y(each) for each in ends]
        half = _reach(stop)
        if stop.part.kind == "meter":
            ys = [self._y(each) for each in ends if each[0] == "L"]
            for each in ends:
                if each[0] != "L":
                    self._pole("meter", (x, self._y(each)), closed=True)
                    self.drawing.line((x - half, self._y(each)), (x + half, self._y(each)), pen="medium")
        drawing = self.drawing
        drawing.rect(x - half, min(ys) - 3, 2 * half, max(ys) - min(ys) + 6, "outline", "white")
        for each in ends if stop.part.kind != "meter" else ():
            mark = stop.marks.get(each, each)
            side = -1 if stop is self.strip.stops[-1] else 1
            drawing.circle((x + side * half, self._y(each)), 0.7, "medium", "white")
            anchor: Anchor = "start" if side < 0 else "end"
            drawing.text((x + side * (half - 1.6), self._y(each)), mark, anchor=anchor, shift=(0, -LEAST_MM / 2))
        if stop.part.kind == "meter":
            drawing.text((x, (max(ys) + min(ys)) / 2), "kWh", anchor="middle", shift=(0, -LEAST_MM / 2))

    def _unknown(self, x: float, ends: Sequence[str]) -> None:
        ys = [self._y(each) for each in ends]
        self.drawing.rect(x - HALF_MM, min(ys) - 2, 2 * HALF_MM, max(ys) - min(ys) + 4, "hidden", "white")
        self.drawing.text((x, (max(ys) + min(ys)) / 2), "?", anchor="middle", shift=(0, -LEAST_MM / 2))

    def _bond(self, stop: Stop, x: float, ends: Sequence[str]) -> None:
        """The joint of neutral and ground where there is one, and the electrode that is joined there."""
        if len(self.strip.conductors) < 4 and "PE" not in self.strip.conductors:
            return
        n, g = self.strip.conductors[-2:]
        drawing = self.drawing
        joined = self.told.facts.joined.get(stop.part.id)
        at = x + (0 if _reach(stop) == HALF_MM else _reach(stop) + 1.5)
        if joined and stop.part.kind not in SOURCES:
            drawing.line((at, self._y(n)), (at, self._y(g)), pen="heavy")
            for each in (n, g):
                drawing.circle((at, self._y(each)), 0.9, "medium", "white")
        if self._earthed(stop) and g in ends and stop is not self.strip.stops[0]:  # else told where it ends
            self._electrode(stop, at, self._y(g))

    def _electrode(self, stop: Stop, x: float, y: float) -> None:
        """The grounding electrode, below the texts of the strip: its conductor runs down between two of them."""
        facts, drawing = self.told.facts, self.drawing
        bond = next(link for link in facts.installation.links if link.kind == "bond" and link.a == stop.part.id)
        side, foot = x + self.pitch / 2, self.top - self.height + symbols.HALF - 1
        drawing.line((x, y), (x + 3, y - 3.0), (side, y - 3.0), (side, foot + symbols.HALF), pen="medium")
        facts.family.drawn["ground"][0](drawing, (side, foot))
        numbers = {id: str(number) for number, run in enumerate(facts.runs, 1) for id in run.ids}
        if bond.id in numbers:
            one_line_schedule.ring(drawing, (side, foot + symbols.HALF + 4), numbers[bond.id])
        name = words_of(facts, facts.installation.parts[bond.b]).name
        drawing.text((side + 6, foot), name, shift=(0, -LEAST_MM / 2))


def _bar(at: Point) -> list[Point]:
    x, y = at
    return [(x - 0.7, y - 2.2), (x + 0.7, y - 2.2), (x + 0.7, y + 2.2), (x - 0.7, y + 2.2)]


def _reach(stop: Stop) -> float:
    """Half the width of a device on its strip."""
    if stop.part.kind in (*SOURCES, *CELLS):
        return BLOCK_MM
    return BLOCK_MM - 3 if stop.part.kind in ("utility", "meter") else HALF_MM


def _said(stop: Stop, strip: Strip, told: ThreeLine) -> Iterator[str]:
    """What stands below a device: poles, neutral, DC terminals, whether neutral and ground are joined."""
    n = strip.conductors[-2]
    if stop.poles is not None:
        kept = ", N not opened" if n == "N" and n not in stop.poles and not stop.unknown else ""
        yield f"opens {', '.join(stop.poles)}{kept}"
    if stop.unknown:
        yield stop.unknown
    if stop.terminals:
        yield f"terminals: {stop.terminals}"
    if stop.part.id in told.facts.joined and n == "N":
        both = f"N and {told.facts.earth}"
        said = {True: f"{both} joined here", False: f"{both} apart", None: f"joint of {both} not known"}
        yield said[told.facts.joined[stop.part.id]]
        if told.facts.joined_when.get(stop.part.id):
            yield told.facts.joined_when[stop.part.id]
