"""Symbols of one-line diagrams, drawn after the graphic symbols of ANSI/IEEE 315 for single-line diagrams.

Every symbol stands on a vertical line of a schematic (`Drawing` of scale 1, model mm are paper mm, y upward): its
middle is at `at`, its ends are `HALF` mm above and below, and it returns its ends as `Ends`. Connect them with
`drawing.line`. Texts are not part of a symbol: put tag and rating beside it with `labels.lines_of` or `labels.note`.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from standfast.paper.drawing import Drawing
from standfast.paper.lettering import LEAST_MM, wrapped
from standfast.paper.svg import Arc, Point

HALF = 6.0
"""Half the height of a symbol on its line, mm."""


class Ends(NamedTuple):
    """Where lines may join a symbol."""

    top: Point
    bottom: Point
    left: Point
    right: Point


def breaker(drawing: Drawing, at: Point) -> Ends:
    """Low-voltage circuit breaker: an arc that bridges the gap between two contacts."""
    x, y = at
    drawing.line((x, y + HALF), (x, y + 3), pen="medium")
    drawing.line((x, y - HALF), (x, y - 3), pen="medium")
    drawing.dot((x, y + 3), 0.6)
    drawing.dot((x, y - 3), 0.6)
    _arc(drawing, (x - 0.6, y), 3.4, -61, 61)
    return _ends(at, 3.5)


def switch(drawing: Drawing, at: Point) -> Ends:
    """Disconnect switch, drawn open: a blade hinged at the lower contact."""
    x, y = at
    drawing.line((x, y + HALF), (x, y + 3), pen="medium")
    drawing.line((x, y - HALF), (x, y - 3), (x + 3.2, y + 2.6), pen="medium")
    drawing.circle((x, y + 3), 0.6, "medium", "white")
    drawing.circle((x, y - 3), 0.6, "medium", "white")
    return _ends(at, 4)


def fuse(drawing: Drawing, at: Point) -> Ends:
    """Fuse: the conductor runs through a narrow box."""
    x, y = at
    drawing.line((x, y + HALF), (x, y - HALF), pen="medium")
    drawing.rect(x - 1.4, y - 3.5, 2.8, 7, "medium")
    return _ends(at, 1.4)


def transfer_switch(drawing: Drawing, at: Point) -> Ends:
    """Double-throw switch: common contact below, two positions above at `left` and `right`, no path between them."""
    x, y = at
    drawing.line((x, y - HALF), (x, y - 3), (x - 3.4, y + 2.4), pen="medium")
    for side in (-4, 4):
        drawing.line((x + side, y + HALF), (x + side, y + 3), pen="medium")
        drawing.circle((x + side, y + 3), 0.6, "medium", "white")
    drawing.circle((x, y - 3), 0.6, "medium", "white")
    return Ends((x, y + HALF), (x, y - HALF), (x - 4, y + HALF), (x + 4, y + HALF))


def transformer(drawing: Drawing, at: Point) -> Ends:
    """Two-winding transformer: two rows of loops back to back."""
    x, y = at
    for index in (-1, 0, 1):
        drawing.arc((x + index * 3, y + 1), 1.5, 0, 180, "medium")
        drawing.arc((x + index * 3, y - 1), 1.5, 180, 360, "medium")
    drawing.line((x, y + HALF), (x, y + 2.5), pen="medium")
    drawing.line((x, y - HALF), (x, y - 2.5), pen="medium")
    return _ends(at, 4.5)


def battery(drawing: Drawing, at: Point) -> Ends:
    """Battery of several cells: long plates positive, short plates negative."""
    x, y = at
    for level, half in ((3, 4.0), (1.2, 2.0), (-1.2, 4.0), (-3, 2.0)):
        drawing.line((x - half, y + level), (x + half, y + level), pen="outline" if half == 2 else "medium")
    drawing.line((x, y + HALF), (x, y + 3), pen="medium")
    drawing.line((x, y + 0.8), (x, y - 0.8), pen="fine")
    drawing.line((x, y - 3), (x, y - HALF), pen="medium")
    drawing.text((x - 5, y + 3.6), "+", anchor="end")
    return _ends(at, 4)


def array(drawing: Drawing, at: Point) -> Ends:
    """PV array: a module, seen from its front, that hangs on its line."""
    x, y = at
    drawing.line((x, y + HALF), (x, y + 4), pen="medium")
    drawing.rect(x - 5, y - 4, 10, 8, "outline", "white")
    drawing.line((x - 5, y + 4), (x, y - 0.5), (x + 5, y + 4), pen="thin")
    return _ends(at, 5)


def inverter(drawing: Drawing, at: Point) -> Ends:
    """Converter in a square: AC above the diagonal, DC below it; power may run both ways."""
    x, y = at
    drawing.rect(x - HALF, y - HALF, 2 * HALF, 2 * HALF, "outline", "white")
    drawing.line((x - HALF, y - HALF), (x + HALF, y + HALF), pen="thin")
    _arc(drawing, (x - 3.9, y + 3), 1.1, 0, 180)
    _arc(drawing, (x - 1.7, y + 3), 1.1, 180, 360)
    drawing.line((x + 1, y - 2.4), (x + 4.8, y - 2.4), pen="medium")
    for left in (1.0, 2.5, 4.0):
        drawing.line((x + left, y - 3.6), (x + left + 0.8, y - 3.6), pen="medium")
    return _ends(at, HALF)


def meter(drawing: Drawing, at: Point, letters: str = "kWh") -> Ends:
    """Meter: a ring with what it measures; the line runs through."""
    drawing.circle(at, HALF, "outline", "white")
    drawing.text(at, letters, anchor="middle", shift=(0, -1.25))
    return _ends(at, HALF)


def ground(drawing: Drawing, at: Point) -> Ends:
    """Grounding electrode: three bars, each shorter than the one above; the conductor joins at the top."""
    x, y = at
    drawing.line((x, y + HALF), (x, y + 1), pen="medium")
    for index, half in enumerate((4.0, 2.6, 1.2)):
        drawing.line((x - half, y + 1 - 1.8 * index), (x + half, y + 1 - 1.8 * index), pen="medium")
    return _ends(at, 4)


def bonding_jumper(drawing: Drawing, at: Point) -> Ends:
    """Bond between neutral and equipment grounding bars: a strap with a terminal at each end, level."""
    x, y = at
    drawing.circle((x - 4, y), 0.8, "medium", "white")
    drawing.circle((x + 4, y), 0.8, "medium", "white")
    drawing.line((x - 3.2, y), (x + 3.2, y), pen="heavy")
    return Ends((x, y), (x, y), (x - 4, y), (x + 4, y))


def load(drawing: Drawing, at: Point) -> Ends:
    """Loads that are fed: an arrow that points away from the source."""
    x, y = at
    drawing.line((x, y + HALF), (x, y - HALF), pen="medium")
    drawing.area([(x, y - HALF), (x - 1.4, y - HALF + 3.4), (x + 1.4, y - HALF + 3.4)], "none", "black")
    return _ends(at, 1.4)


def utility(drawing: Drawing, at: Point) -> Ends:
    """Supply of the utility: a ring with the sign of alternating current."""
    x, y = at
    drawing.circle(at, HALF, "outline", "white")
    _arc(drawing, (x - 1.6, y), 1.6, 0, 180)
    _arc(drawing, (x + 1.6, y), 1.6, 180, 360)
    return _ends(at, HALF)


def busbar(drawing: Drawing, left: float, right: float, y: float) -> Ends:
    """Busbar: a heavy level line."""
    drawing.area([(left, y - 0.6), (right, y - 0.6), (right, y + 0.6), (left, y + 0.6)], "none", "black")
    middle = (left + right) / 2
    return Ends((middle, y), (middle, y), (left, y), (right, y))


def enclosure(drawing: Drawing, left: float, bottom: float, right: float, top: float) -> Ends:
    """One enclosure around what it holds: a dash-dot outline."""
    drawing.rect(left, bottom, right - left, top - bottom, "phantom")
    x, y = (left + right) / 2, (bottom + top) / 2
    return Ends((x, top), (x, bottom), (left, y), (right, y))


def junction(drawing: Drawing, at: Point) -> None:
    """Lines that meet and are connected."""
    drawing.dot(at, 0.9)


def generator(drawing: Drawing, at: Point) -> Ends:
    """Generator: a ring with G."""
    drawing.circle(at, HALF, "outline", "white")
    drawing.text(at, "G", anchor="middle", shift=(0, -1.25))
    return _ends(at, HALF)


def motor(drawing: Drawing, at: Point) -> Ends:
    """Motor: a ring with M."""
    x, y = at
    drawing.circle(at, 4.5, "outline", "white")
    drawing.line((x, y + HALF), (x, y + 4.5), pen="medium")
    drawing.text(at, "M", anchor="middle", shift=(0, -1.25))
    return _ends(at, 4.5)


LEGEND: dict[str, tuple[Callable[[Drawing, Point], Ends], str]] = {
    "utility": (utility, "utility supply"),
    "meter": (meter, "meter"),
    "transformer": (transformer, "transformer"),
    "breaker": (breaker, "circuit breaker"),
    "switch": (switch, "disconnect switch"),
    "fuse": (fuse, "fuse"),
    "transfer switch": (transfer_switch, "transfer switch"),
    "inverter": (inverter, "inverter, both directions"),
    "battery": (battery, "battery"),
    "array": (array, "PV array"),
    "ground": (ground, "grounding electrode"),
    "bonding jumper": (bonding_jumper, "bonding jumper"),
    "load": (load, "loads"),
    "generator": (generator, "generator"),
}
"""Symbols that a legend can show, with their meaning."""


class Family(NamedTuple):
    """Symbols of one standard: its name, and every symbol by its name with what it means."""

    standard: str
    drawn: Mapping[str, tuple[Callable[[Drawing, Point], Ends], str]]


ANSI = Family("ANSI/IEEE 315", LEGEND)


def legend(
    drawing: Drawing, names: Sequence[str], left: float, top: float, pitch: float = 30, family: Family = ANSI
) -> None:
    """The symbols named, in a row with their meaning below each, from a point at the upper left."""
    for index, name in enumerate(names):
        symbol, words = family.drawn[name]
        x = left + pitch * (index + 0.5)
        symbol(drawing, (x, top - HALF))
        for row, line in enumerate(wrapped(words, pitch - 2, LEAST_MM)):
            drawing.text((x, top - 2 * HALF), line, anchor="middle", shift=(0, -4 - 4.2 * row))


def _ends(at: Point, half_width: float) -> Ends:
    x, y = at
    return Ends((x, y + HALF), (x, y - HALF), (x - half_width, y), (x + half_width, y))


def _arc(drawing: Drawing, centre: Point, radius: float, start: float, end: float) -> None:
    drawing.put(Arc(drawing.at(centre), radius, start, end, "medium"))
