"""Texts with leader lines, and numbered rings, placed where they cross least."""

from collections.abc import Iterator, Sequence
from math import cos, pi, sin

from standfast.paper.board import Box, Spot
from standfast.paper.drawing import PAD_MM, Drawing, Want, size_of
from standfast.paper.lettering import LEAST_MM, width_mm, wrapped
from standfast.paper.svg import Lettering, Point

_RADII = (5.0, 8.0, 12.0, 17.0, 23.0, 30.0, 38.0, 48.0, 60.0, 75.0)
_SHOULDER = 2.0


def note(
    drawing: Drawing,
    at: Point,
    text: str,
    width: float = 45,
    toward: Point = (0, 0),
    height: float = LEAST_MM,
    arrow: bool = True,
) -> None:
    """Want a text near a model point, with a leader line to it.

    Args:
        drawing: the drawing.
        at: the model point that the text tells about.
        text: words; a new line where it holds one, else wrapped.
        width: widest line in paper mm.
        toward: direction preferred on paper, right and up, of length 1 or (0, 0) for none.
        height: of the lettering, mm.
        arrow: an arrowhead at the point; else a dot, for a point within an area.
    """
    lines = tuple(line for each in text.split("\n") for line in wrapped(each, width, height))
    target = drawing.at(at)
    spots = tuple(around(target, size_of(lines, height), toward))
    drawing.want(Want(lines, spots, height, arrow, False, target))


def inside(
    drawing: Drawing,
    area: tuple[float, float, float, float],
    text: str,
    width: float = 45,
    height: float = LEAST_MM,
) -> None:
    """Want a text inside a rectangle of the model, else beside it with a leader line.

    Args:
        drawing: the drawing.
        area: left, bottom, right, top of the model.
        text: words; a new line where it holds one, else wrapped to the rectangle.
        width: widest line in paper mm, where it stands outside.
        height: of the lettering, mm.
    """
    left, top = drawing.at((area[0], area[3]))
    right, bottom = drawing.at((area[2], area[1]))
    room = right - left - 2 * PAD_MM - 1
    lines = tuple(line for each in text.split("\n") for line in wrapped(each, room, height))
    wide, high = size_of(lines, height)
    centre = ((left + right) / 2, (top + bottom) / 2)
    if wide <= right - left and high <= bottom - top:
        spots = list(_within(Box(left, top, right, bottom), centre, (wide, high)))
    else:
        lines = tuple(line for each in text.split("\n") for line in wrapped(each, width, height))
        spots = []
        for x, y in _holds(Box(left, top, right, bottom)):
            spots += [spot._replace(cost=spot.cost + 15) for spot in around((x, y), size_of(lines, height))]
    drawing.want(Want(lines, tuple(spots), height, False, False, centre))


def _within(area: Box, centre: Point, size: tuple[float, float]) -> Iterator[Spot]:
    """Spots inside an area, the middle first."""
    wide, high = size
    across, down = (area.right - area.left - wide) / 2, (area.bottom - area.top - high) / 2
    for i in range(-4, 5):
        for j in range(-8, 9):
            x, y = centre[0] + across * i / 4, centre[1] + down * j / 8
            box = Box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
            yield Spot(box, (), (abs(x - centre[0]) + abs(y - centre[1])) / 2)


def _holds(area: Box) -> Iterator[Point]:
    """Points of an area where a leader line may end: the middle, and near the middle of each side."""
    x, y = (area.left + area.right) / 2, (area.top + area.bottom) / 2
    across, down = (area.right - area.left) * 0.35, (area.bottom - area.top) * 0.35
    yield from ((x, y), (x + across, y), (x - across, y), (x, y + down), (x, y - down))


def column(drawing: Drawing, items: Sequence[tuple[Point, str]], x: float, rightward: bool = True) -> None:
    """Texts one below the other in the order of their points, each with a leader line: for points close together.

    Args:
        drawing: the drawing.
        items: model points with their texts, one line each.
        x: paper mm where the texts begin, or end where they stand to the left of their points.
        rightward: true where the texts stand to the right of their points.
    """
    ranked = sorted(items, key=lambda item: (drawing.at(item[0])[1], item[1]))
    levels = _spread([drawing.at(point)[1] for point, _ in ranked], LEAST_MM * 1.65 + 1.2)
    side = 1 if rightward else -1
    for (point, text), y in zip(ranked, levels, strict=True):
        target = drawing.at(point)
        elbow = (x - side * 6, y)
        drawing.lead((target, elbow, (x - side * 1, y)), arrow=False)
        mark = Lettering((x, y + LEAST_MM / 2), text, LEAST_MM, "start" if rightward else "end")
        drawing.letter(mark)


def _spread(levels: Sequence[float], step: float) -> list[float]:
    """Rising levels at least a step apart, as near to the given ones as one shift of all of them allows."""
    placed: list[float] = []
    for level in levels:
        placed.append(level if not placed else max(level, placed[-1] + step))
    shift = sum(placed) / len(placed) - sum(levels) / len(levels) if levels else 0.0
    return [level - shift for level in placed]


def ring(drawing: Drawing, at: Point, mark: str, toward: Point = (0, 0), height: float = LEAST_MM) -> None:
    """Want a ring with a number or letter near a model point, with a leader line to it."""
    target = drawing.at(at)
    drawing.want(Want((mark,), tuple(ring_spots(target, mark, height, toward)), height, True, True, target))


def ring_spots(target: Point, mark: str, height: float, toward: Point = (0, 0)) -> Iterator[Spot]:
    """Spots of a ring around a paper point; the leader ends on the ring."""
    high = height * 1.45
    across = (width_mm(mark, height) ** 2 + high**2) ** 0.5 + 2 * PAD_MM
    for radius in _RADII:
        for step in range(16):
            ux, uy = cos(step * pi / 8), -sin(step * pi / 8)
            x, y = target[0] + ux * (radius + across / 2), target[1] + uy * (radius + across / 2)
            box = Box(x - across / 2, y - across / 2, x + across / 2, y + across / 2)
            leader = (target, (target[0] + ux * radius, target[1] + uy * radius))
            yield Spot(box, leader, radius + _turned_away(ux, -uy, toward))


def around(target: Point, size: tuple[float, float], toward: Point = (0, 0)) -> Iterator[Spot]:
    """Spots of a block of text around a paper point: a leader, a short level shoulder, then the text."""
    wide, high = size
    for radius in _RADII:
        for step in range(24):
            ux, uy = cos(step * pi / 12), -sin(step * pi / 12)
            x, y = target[0] + ux * radius, target[1] + uy * radius
            for side in (1, -1) if abs(ux) < 0.3 else ((1,) if ux > 0 else (-1,)):
                edge = x + side * _SHOULDER
                left = edge if side > 0 else edge - wide
                box = Box(left, y - high / 2, left + wide, y + high / 2)
                yield Spot(box, (target, (x, y), (edge, y)), radius + _turned_away(ux, -uy, toward))


def _turned_away(right: float, up: float, toward: Point) -> float:
    """What it costs to stand elsewhere than in the preferred direction."""
    if toward == (0, 0):
        return 0.0
    return 12 * (1 - (right * toward[0] + up * toward[1]))


def lines_of(drawing: Drawing, at: Point, lines: Sequence[str], height: float = LEAST_MM, bold: bool = False) -> None:
    """Lines of text one below the other; `at` is the model point at the upper left of the block."""
    for index, line in enumerate(lines):
        drawing.text(at, line, height, bold=bold, shift=(0, -height * (1.12 + 1.65 * index)))
