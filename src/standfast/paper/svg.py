"""The marks of a drawing in paper mm, and their writer to SVG.

Paper coordinates run right and down from the upper left corner, in mm. The same marks always give the same bytes.
Everything is black on white: what a colour would say is said by weight, dashes and hatch.
"""

from collections.abc import Iterable, Sequence
from math import cos, radians, sin
from typing import Literal, NamedTuple
from xml.sax.saxutils import escape, quoteattr

from standfast.paper.lettering import FAMILY, size_mm, spelled

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]
Fill = Literal["none", "white", "black", "grey"]
PenName = Literal["heavy", "outline", "medium", "thin", "fine", "hidden", "centre", "phantom", "none"]


class Pen(NamedTuple):
    """Width of a line and its dashes, in mm."""

    width: float
    dashes: tuple[float, ...] = ()


PENS: dict[PenName, Pen] = {
    "heavy": Pen(0.7),
    "outline": Pen(0.5),
    "medium": Pen(0.35),
    "thin": Pen(0.25),
    "fine": Pen(0.18),
    "hidden": Pen(0.35, (3, 1.5)),
    "centre": Pen(0.25, (8, 1.5, 1, 1.5)),
    "phantom": Pen(0.35, (8, 1.5, 1, 1.5, 1, 1.5)),
    "none": Pen(0),
}
"""Line weights of ISO 128: cut and border, visible edge, equipment, dimensions, hatch; hidden, centre, phantom."""

_FILLS: dict[Fill, str] = {"none": "none", "white": "#fff", "black": "#000", "grey": "#ddd"}


class Path(NamedTuple):
    """Straight lines through points; closed, an area."""

    points: tuple[Point, ...]
    pen: PenName = "outline"
    closed: bool = False
    fill: Fill = "none"


class Circle(NamedTuple):
    """A circle."""

    centre: Point
    radius: float
    pen: PenName = "outline"
    fill: Fill = "none"


class Arc(NamedTuple):
    """A part of a circle; angles in degrees from the right, counted against the clock as seen on paper."""

    centre: Point
    radius: float
    start: float
    end: float
    pen: PenName = "outline"


class Lettering(NamedTuple):
    """One line of text; `at` is the point on the base line that `anchor` names; `turn` in degrees against the clock."""

    at: Point
    text: str
    height: float
    anchor: Anchor = "start"
    turn: Literal[0, 90] = 0
    bold: bool = False


Mark = Path | Circle | Arc | Lettering


class Group(NamedTuple):
    """Marks that belong to one thing, with a name that a reading aid speaks."""

    id: str
    title: str
    marks: tuple[Mark, ...]


def write(groups: Iterable[Group], width: float, height: float, title: str, description: str) -> str:
    """The drawing as an SVG document whose user unit is 1 mm.

    Args:
        groups: in painting order.
        width: of the paper, mm.
        height: of the paper, mm.
        title: short name of the drawing.
        description: what it shows, in a sentence, for people who cannot see it.
    """
    w, h = number(width), number(height)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}" role="img" '
        f'font-family="{FAMILY}, sans-serif" fill="none" stroke-linecap="round" stroke-linejoin="round">',
        f"<title>{escape(title)}</title>",
        f"<desc>{escape(description)}</desc>",
    ]
    for group in groups:
        if not group.marks:
            continue
        lines.append(f"<g id={quoteattr(group.id)}><title>{escape(group.title)}</title>")
        lines.extend(_runs(group.marks))
        lines.append("</g>")
    lines.append("</svg>\n")
    return "\n".join(lines)


def number(value: float) -> str:
    """A length in mm to a hundredth, shortest form, never minus zero."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _runs(marks: Sequence[Mark]) -> Iterable[str]:
    """Marks as elements; neighbouring open lines of one pen share one path element."""
    run: list[str] = []
    pen: PenName | None = None
    for mark in marks:
        joins = isinstance(mark, Path) and not mark.closed and mark.fill == "none"
        if run and not (joins and isinstance(mark, Path) and mark.pen == pen):
            yield _path("".join(run), pen or "none", "none")
            run = []
        if joins and isinstance(mark, Path):
            pen = mark.pen
            run.append(_moves(mark.points))
        else:
            yield _element(mark)
    if run:
        yield _path("".join(run), pen or "none", "none")


def _element(mark: Mark) -> str:
    if isinstance(mark, Path):
        return _path(_moves(mark.points) + ("Z" if mark.closed else ""), mark.pen, mark.fill)
    if isinstance(mark, Circle):
        x, y = mark.centre
        return (
            f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(mark.radius)}"'
            f"{_fill(mark.fill)}{_stroke(mark.pen)}/>"
        )
    if isinstance(mark, Arc):
        return _path(_arc(mark), mark.pen, "none")
    return _lettering(mark)


def _path(moves: str, pen: PenName, fill: Fill) -> str:
    return f'<path d="{moves}"{_fill(fill)}{_stroke(pen)}/>'


def _fill(fill: Fill) -> str:
    return "" if fill == "none" else f' fill="{_FILLS[fill]}"'


def _stroke(pen: PenName) -> str:
    if pen == "none":
        return ""
    width, dashes = PENS[pen]
    if not dashes:
        return f' stroke="#000" stroke-width="{number(width)}"'
    pattern = " ".join(number(each) for each in dashes)
    return f' stroke="#000" stroke-width="{number(width)}" stroke-dasharray="{pattern}" stroke-linecap="butt"'


def _moves(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)


def _arc(arc: Arc) -> str:
    x, y = arc.centre
    ends = [(x + arc.radius * cos(radians(a)), y - arc.radius * sin(radians(a))) for a in (arc.start, arc.end)]
    large = 1 if arc.end - arc.start > 180 else 0
    r = number(arc.radius)
    return f"{_moves(ends[:1])}A{r} {r} 0 {large} 0 {number(ends[1][0])} {number(ends[1][1])}"


def _lettering(mark: Lettering) -> str:
    x, y = number(mark.at[0]), number(mark.at[1])
    anchor = "" if mark.anchor == "start" else f' text-anchor="{mark.anchor}"'
    turn = f' transform="rotate(-90 {x} {y})"' if mark.turn else ""
    weight = ' font-weight="600"' if mark.bold else ""
    size = number(size_mm(mark.height))
    text = escape(spelled(mark.text))
    return f'<text x="{x}" y="{y}" font-size="{size}"{anchor}{turn}{weight} fill="#000">{text}</text>'
