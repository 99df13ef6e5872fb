"""Symbols of single-line diagrams after IEC 60617, for installations in metric countries.

Every symbol stands on its line as those of `symbols` do and has the same ends. What both standards draw alike is taken
from there. A contact opens to the left of its line, and the mark at its fixed contact says what it may do: a cross, it
breaks a fault; a bar, it isolates; a ring above the bar, it also switches the load.
"""

from math import cos, pi, sin

from standfast.paper import symbols
from standfast.paper.drawing import Drawing
from standfast.paper.svg import Point
from standfast.paper.symbols import HALF, Ends, Family

WIDE = 4.0
"""Half the width of a symbol, mm."""


def breaker(drawing: Drawing, at: Point) -> Ends:
    """Circuit-breaker: a contact with a cross at its fixed end."""
    x, y = at
    ends = _contact(drawing, at)
    for turn in (-1, 1):
        drawing.line((x - 1.1, y + 3 - 1.1 * turn), (x + 1.1, y + 3 + 1.1 * turn), pen="medium")
    return ends


def residual_breaker(drawing: Drawing, at: Point) -> Ends:
    """Circuit-breaker that trips on residual current: its line runs through a ring that acts on the contact."""
    x, y = at
    ends = breaker(drawing, at)
    for step in range(24):  # a flat ring round the line
        drawing.line(*(_on_ring((x, y - 4.4), step + each) for each in (0, 1)), pen="thin")
    drawing.line((x - 2.6, y - 4.4), (x - WIDE, y - 4.4), (x - WIDE, y + 0.6), pen="hidden")
    return ends


def isolator(drawing: Drawing, at: Point) -> Ends:
    """Disconnector: a contact with a bar at its fixed end."""
    x, y = at
    drawing.line((x - 1.6, y + 3), (x + 1.6, y + 3), pen="medium")
    return _contact(drawing, at)


def switch(drawing: Drawing, at: Point) -> Ends:
    """Switch-disconnector: a contact with a bar and a ring at its fixed end."""
    x, y = at
    drawing.line((x - 1.6, y + 3.9), (x + 1.6, y + 3.9), pen="medium")
    ends = _contact(drawing, at)
    drawing.circle((x, y + 3.0), 0.8, "medium", "white")
    return ends


def meter(drawing: Drawing, at: Point, letters: str = "kWh") -> Ends:
    """Integrating instrument: a square with a bar over what it counts."""
    x, y = at
    drawing.rect(x - HALF, y - HALF, 2 * HALF, 2 * HALF, "outline", "white")
    drawing.line((x - HALF, y + 2.6), (x + HALF, y + 2.6), pen="thin")
    drawing.text((x, y), letters, anchor="middle", shift=(0, -2.6))
    return _ends(at, HALF)


def fuse(drawing: Drawing, at: Point) -> Ends:
    """Fuse: the conductor runs through a box."""
    x, y = at
    drawing.line((x, y + HALF), (x, y - HALF), pen="medium")
    drawing.rect(x - 1.8, y - 4.5, 3.6, 9, "medium")
    return _ends(at, 1.8)


def earth(drawing: Drawing, at: Point) -> Ends:
    """Earth: three bars, each shorter than the one above."""
    return symbols.ground(drawing, at)


DRAWN = {
    **symbols.LEGEND,
    "breaker": (breaker, "circuit breaker"),
    "residual breaker": (residual_breaker, "circuit breaker with residual current device"),
    "switch": (switch, "switch disconnector"),
    "isolator": (isolator, "disconnector"),
    "meter": (meter, "meter"),
    "fuse": (fuse, "fuse"),
    "transfer switch": (symbols.transfer_switch, "change-over switch"),
    "ground": (earth, "earth electrode"),
    "bonding jumper": (symbols.bonding_jumper, "neutral–earth link"),
}
IEC = Family("IEC 60617", DRAWN)


def _contact(drawing: Drawing, at: Point) -> Ends:
    """A contact that opens to the left, hinged below."""
    x, y = at
    drawing.line((x, y + HALF), (x, y + 3), pen="medium")
    drawing.line((x, y - HALF), (x, y - 3), (x - 3.2, y + 2.4), pen="medium")
    return _ends(at, WIDE)


def _on_ring(centre: Point, step: int) -> Point:
    """A point of a flat ring of 24 pieces."""
    return centre[0] + 2.6 * cos(step * pi / 12), centre[1] + 0.9 * sin(step * pi / 12)


def _ends(at: Point, half_width: float) -> Ends:
    x, y = at
    return Ends((x, y + HALF), (x, y - HALF), (x - half_width, y), (x + half_width, y))
