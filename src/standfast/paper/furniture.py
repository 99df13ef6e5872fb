"""What every scaled drawing carries at its foot: name and scale, scale bar, north arrow, key of the hatches."""

from math import cos, radians, sin
from typing import Literal

from standfast.paper.drawing import Drawing
from standfast.paper.hatching import hatch
from standfast.paper.lettering import LEAST_MM, width_mm
from standfast.paper.svg import Circle, Lettering, Path

FOOT_MM = 26.0
"""Paper kept at the foot of a drawing by `foot`; give it as part of the lower margin of `Drawing.fitted`."""
_MM_PER_FOOT, _MM_PER_INCH = 304.8, 25.4
_DETAIL = 12
"""Below this ratio a drawing is a detail."""
_STEPS = (0.1, 0.25, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)


def foot(drawing: Drawing, key_at: float = 110) -> None:
    """Title, scale and scale bar at the lower left; the key of all hatches from `key_at` mm to the right of them."""
    base = drawing.height - 3
    drawing.letter(Lettering((2, base - 20), drawing.title, 3.5, bold=True))
    drawing.letter(Lettering((2, base - 14.5), f"Scale {drawing.scale}", LEAST_MM))
    if drawing.scale.name:
        _bar(drawing, 3, base - 5)
    _key(drawing, key_at, drawing.height - FOOT_MM + 2)


def north(drawing: Drawing, degrees: float, x: float, y: float, radius: float = 8) -> None:
    """A north arrow in a ring at a paper point; `degrees` clockwise from the top of the sheet."""
    up = (sin(radians(degrees)), -cos(radians(degrees)))
    side = (-up[1] * 0.3, up[0] * 0.3)
    tip, tail = (x + up[0] * radius, y + up[1] * radius), (x - up[0] * radius, y - up[1] * radius)
    drawing.put(Circle((x, y), radius * 0.75, "thin"))
    drawing.put(Path((tail, tip), "thin"))
    wing = (x + side[0] * radius, y + side[1] * radius)
    drawing.put(Path((tip, wing, (x, y)), "none", True, "black"))
    other = (x - side[0] * radius, y - side[1] * radius)
    drawing.put(Path((tip, other, (x, y)), "thin", True, "white"))
    at = (x + up[0] * (radius + 3.2), y + up[1] * (radius + 3.2) + LEAST_MM / 2)
    drawing.letter(Lettering(at, "N", LEAST_MM, "middle", bold=True))


def _bar(drawing: Drawing, x: float, y: float) -> None:
    """Feet above the bar and metres below it; inches and millimetres on a detail."""
    ratio = drawing.scale.ratio
    detail = ratio < _DETAIL
    units = ((_MM_PER_INCH, "in"), (1.0, "mm")) if detail else ((_MM_PER_FOOT, "ft"), (1000.0, "m"))
    (trade, trade_unit), (metric, metric_unit) = units
    step = _step(trade, ratio)
    width = step * trade / ratio
    for index in range(4):
        left = x + index * width
        corners = ((left, y - 1.2), (left + width, y - 1.2), (left + width, y), (left, y))
        drawing.put(Path(corners, "thin", True, "white" if index % 2 else "black"))
    for index in range(5):
        unit = f" {trade_unit}" if index == 4 else ""
        drawing.letter(Lettering((x + index * width, y - 2.4), f"{index * step:g}{unit}", LEAST_MM, _anchor(index)))
    tick = _step(metric, ratio)
    count = int(4 * width // (tick * metric / ratio))
    for index in range(count + 1):
        at = x + index * tick * metric / ratio
        drawing.put(Path(((at, y), (at, y + 1.2)), "thin"))
        unit = f" {metric_unit}" if index == count else ""
        drawing.letter(Lettering((at, y + 4.6), f"{index * tick:g}{unit}", LEAST_MM, _anchor(index)))


def _step(unit_mm: float, ratio: float) -> float:
    """The smallest round number of units that is at least 12 mm long on paper."""
    return next(step for step in _STEPS if step * unit_mm / ratio >= 12)


def _anchor(index: int) -> Literal["start", "middle"]:
    return "middle" if index else "start"


def _key(drawing: Drawing, left: float, top: float) -> None:
    """Swatches with their meaning, in columns as wide as their longest text."""
    rows = 3
    x, widest = left, 0.0
    for index, (meaning, name) in enumerate(drawing.keys.items()):
        if index and index % rows == 0:
            x, widest = x + widest + 6, 0.0
        y = top + index % rows * 7.5
        corners = ((x, y), (x + 9, y), (x + 9, y + 5.5), (x, y + 5.5))
        for line in hatch([corners], name):
            drawing.put(line)
        drawing.put(Path(corners, "thin", True))
        drawing.letter(Lettering((x + 11, y + 4), meaning, LEAST_MM))
        widest = max(widest, 11 + width_mm(meaning, LEAST_MM))
