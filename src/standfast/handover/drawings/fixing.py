"""The fixing detail: one fastener cut through wall and bracket, or floor and foot, to scale.

Every size is of the survey or of a data sheet. A size that is not stated is not drawn: the drawing is refused, and the
counter list says what to add. What holds in a floor is drawn upright, what holds in a wall lies.
"""

from typing import NamedTuple

from standfast.design.anchorage.held import Anchorage, Foot
from standfast.design.anchorage.task import SheetFile
from standfast.paper import dimension, furniture, labels
from standfast.paper.drawing import DoesNotFit, Drawing, Scale
from standfast.paper.hatching import HatchName
from standfast.paper.sheets import ANSI_B
from standfast.paper.svg import Point
from standfast.sheet import Value
from standfast.survey.house import Wall
from standfast.units import Quantity

SCALES = (Scale(1, "full size"), Scale(2, "6 in = 1 ft"), Scale(4, "3 in = 1 ft"), Scale(8, "1-1/2 in = 1 ft"))
PAPER = ((ANSI_B.drawing[0] - 8) / 2, ANSI_B.drawing[1] - 14)
MARGINS = (16.0, 42.0 + furniture.FOOT_MM, 30.0, 40.0)
UPRIGHT = (40.0, 16.0 + furniture.FOOT_MM, 30.0, 40.0)
"""Paper beside a detail whose dimensions stand on its left."""
_HALF = 50.0
"""Half the breadth of the wall or floor that is shown, mm."""


class Piece(NamedTuple):
    """A layer that is cut: its name, hatch, thickness in mm and size as written."""

    name: str
    hatch: HatchName
    thick: float


class Screw(NamedTuple):
    """What holds: its name, length under the head, diameter, head and hole, mm; how deep it holds in the base."""

    name: str
    length: float
    diameter: float
    head: float
    hole: str


class Cut(NamedTuple):
    """What is drawn: the fastener, what it holds in, board between, what it holds; and whether it stands in a floor."""

    title: str
    screw: Screw
    base: Piece
    lining: float
    plate: Piece
    upright: bool

    @property
    def face(self) -> float:
        """How far the head is out of the base, mm."""
        return self.lining + self.plate.thick

    def at(self, out: float, along: float) -> Point:
        """A point of the drawing: `out` of the base, `along` its face."""
        return (along, out) if self.upright else (out, along)


def fixing_detail(anchorage: Anchorage, wall: Wall) -> Drawing:
    """One fastener in the wall, cut.

    Args:
        anchorage: how the unit is held.
        wall: the wall.

    Raises:
        DoesNotFit: where a size that the drawing needs is not stated, or no fastener holds.
    """
    if anchorage.fixing is None:
        raise DoesNotFit("the fixing detail needs a fastener that holds: see the open checks of the anchorage")
    gravity = anchorage.gravity
    dense = gravity is not None and not gravity.missing and gravity.quantity > 0.5
    screw, base = _screw(anchorage.fixing, dense=dense), _base(anchorage, wall)
    plate = Piece("steel bracket", "cross", _known(anchorage.plate, "thickness of the bracket"))
    return _drawn(Cut("Fixing detail", screw, base, _known(anchorage.lining, "thickness of the lining"), plate, False))


def foot_detail(foot: Foot, wall: Wall) -> Drawing:
    """One anchor of the foot in slab or pad, cut.

    Raises:
        DoesNotFit: where a size that the drawing needs is not stated, or no anchor holds.
    """
    if foot.anchor is None:
        raise DoesNotFit("the detail of the foot needs an anchor that holds: see the open checks of the anchorage")
    under = wall.footing
    thick = _size(None if under is None else under.thickness, "thickness in [walls.footing]")
    base = Piece(under.kind or "concrete" if under is not None else "concrete", "counter", thick)
    plate = Piece("foot of the unit", "cross", _known(foot.plate, "thickness of the foot"))
    return _drawn(Cut("Foot detail", _screw(foot.anchor, dense=False), base, 0.0, plate, True))


def _drawn(cut: Cut) -> Drawing:
    tip = cut.screw.length - cut.face
    shown, top = max(cut.base.thick, tip + 10), cut.face + cut.screw.diameter * 2
    extent = (-_HALF, -shown, _HALF, top) if cut.upright else (-shown, -_HALF, top, _HALF)
    words = f"{cut.screw.name} through {cut.plate.name} into the {cut.base.name}, cut"
    drawing = Drawing.fitted(cut.title, words, PAPER, extent, UPRIGHT if cut.upright else MARGINS, SCALES)
    layers = [(-cut.base.thick, cut.base), (cut.lining, cut.plate)]
    if cut.lining:
        layers.insert(1, (0.0, Piece("board: carries nothing", "dotted", cut.lining)))
    for start, piece in layers:
        _layer(drawing, cut, start, piece)
    _fastener(drawing, cut)
    edges = sorted({-cut.base.thick, -tip, 0.0, cut.lining, cut.face})
    if cut.upright:
        dimension.upward(drawing, edges, -_HALF, "left", 1)
        dimension.upward(drawing, [-tip, cut.face], -_HALF, "left", 2)
    else:
        dimension.across(drawing, edges, -_HALF, "below", 1)
        dimension.across(drawing, [-tip, cut.face], -_HALF, "below", 2)
    told = f"{cut.screw.name}\n{cut.screw.hole}"
    labels.note(drawing, cut.at(-tip / 2, 0), told, 60, (1, 0) if cut.upright else (0, 1))
    furniture.foot(drawing, 88)
    return drawing


def _layer(drawing: Drawing, cut: Cut, start: float, piece: Piece) -> None:
    end = start + piece.thick
    ring = [cut.at(start, -_HALF), cut.at(end, -_HALF), cut.at(end, _HALF), cut.at(start, _HALF)]
    drawing.zone([ring], piece.hatch, piece.name, "outline")


def _fastener(drawing: Drawing, cut: Cut) -> None:
    """Shank white over the hatch, its point in the base, its head on the face of what it holds."""
    screw, face = cut.screw, cut.face
    half, tip, head = screw.diameter / 2, face - screw.length, screw.head / 2
    with drawing.part("fastener", screw.name):
        point = min(screw.diameter, screw.length / 4)
        shank = [(face, half), (tip + point, half), (tip, 0.0), (tip + point, -half), (face, -half)]
        drawing.area([cut.at(*each) for each in shank], "medium", "white")
        over = face + screw.diameter * 0.6
        drawing.area([cut.at(*each) for each in ((face, -head), (over, -head), (over, head), (face, head))],
                     "medium", "white")  # fmt: skip
        drawing.line(cut.at(tip - 8, 0), cut.at(face + screw.diameter + 8, 0), pen="centre")


def _screw(fixing: SheetFile, *, dense: bool) -> Screw:
    sheet = fixing.content
    if sheet.fastener is not None:
        made = sheet.fastener
        length = _size(made.length, "length of the fastener")
        diameter = _size(made.diameter, "diameter of the fastener")
        head = made.washer or made.head
        pilot = made.pilot_hard if dense else made.pilot_soft
        hole = f"lead hole {pilot.text}" if pilot is not None else "lead hole as its maker says"
        return Screw(sheet.name, length, diameter, diameter * 2 if head is None else _size(head, "head"), hole)
    if sheet.anchor is not None:
        anchor = sheet.anchor
        length = _size(anchor.length, "length of the anchor")
        diameter = _size(anchor.diameter, "diameter of the anchor")
        deep = f", {anchor.hole_depth.text} deep" if anchor.hole_depth is not None else ""
        hole = f"hole {anchor.hole.text}{deep}" if anchor.hole is not None else "hole as its maker says"
        return Screw(sheet.name, length, diameter, diameter * 2, hole)
    raise DoesNotFit(f"the data sheet of {sheet.name} states no sizes")


def _base(anchorage: Anchorage, wall: Wall) -> Piece:
    build = wall.build_up
    if anchorage.base == "wood":
        return Piece("wood stud", "diagonal", _size(build.stud_depth, "stud_depth of the wall"))
    name = "concrete" if build.kind == "concrete" else "masonry"
    return Piece(name, "counter", _size(build.concrete_thickness, "concrete_thickness of the wall"))


def _size(quantity: Quantity | None, what: str) -> float:
    if quantity is None:
        raise DoesNotFit(f"the fixing detail needs the {what}")
    return float(quantity.number)


def _known(value: Value, what: str) -> float:
    if value.missing:
        raise DoesNotFit(f"the fixing detail needs the {what}: {value.how}")
    return value.quantity
